import { useState } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Notice } from '../ui/notice.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { MATERIALS, warnOfMaterial } from './page-material.ts';

export interface PageCardProps {
  readonly page: Page;
  readonly onClose: () => void;
}

const NOT_NOTED = 'not noted';
const OTHER = 'another material';

/** The slip that changes what is written on a page: its title, and what it is made of. */
export function PageCard({ page, onClose }: PageCardProps) {
  const change = useCommand('pages.change');
  const [note, setNote] = useState(page.note ?? '');
  const known = MATERIALS.find((material) => material === page.material);
  const [title, setTitle] = useState(page.title ?? '');
  const [chosen, setChosen] = useState<string>(page.material === null ? NOT_NOTED : (known ?? OTHER));
  const [own, setOwn] = useState(known === undefined ? (page.material ?? '') : '');
  const material = chosen === NOT_NOTED ? null : chosen === OTHER ? own.trim() || null : chosen;
  const warning = warnOfMaterial(material);

  async function write(): Promise<void> {
    const ended = await change.run({
      id: page.id,
      change: { title: title.trim() || null, material, note: note.trim() || null },
    });
    if (ended.ok) onClose();
  }
  return (
    <Dialog
      title={`Page ${page.number} of ${page.binder}`}
      onClose={onClose}
      onSubmit={() => void write()}
      actions={
        <>
          <Button look="main" submit busy={change.pending} onPress={() => void write()}>
            Write it down
          </Button>
          <Button onPress={onClose}>Leave</Button>
        </>
      }
    >
      <TextField label="Title" value={title} onChange={setTitle} />
      <Select
        label="Material"
        value={chosen}
        options={[NOT_NOTED, ...MATERIALS, OTHER].map((name) => ({ value: name, label: name }))}
        onChange={setChosen}
      />
      {chosen === OTHER ? <TextField label="Which" value={own} onChange={setOwn} /> : null}
      <TextField label="Note" value={note} onChange={setNote} lines={3} />
      {warning === null ? null : <Notice kind="warning" title="PVC harms film" detail={warning} />}
    </Dialog>
  );
}
