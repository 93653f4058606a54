import { useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';
import { readNumber } from './read-number.ts';

/** The slip for a tank and what it takes. */
export function TankDialog({ onClose }: { readonly onClose: () => void }) {
  const [name, setName] = useState('');
  const [reels, setReels] = useState('');
  const [per135, setPer135] = useState('');
  const [per120, setPer120] = useState('');
  const add = useCommand('tanks.add', 'here');
  function save(): void {
    void add
      .run({ name, reels: readNumber(reels), mlPer135: readNumber(per135), mlPer120: readNumber(per120) })
      .then((ended) => (ended.ok ? onClose() : undefined));
  }
  return (
    <Dialog
      title="Add a tank"
      onClose={onClose}
      onSubmit={save}
      actions={
        <>
          <Button look="main" submit onPress={save} busy={add.pending}>
            Add it
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <TextField
        label="Name"
        value={name}
        onChange={setName}
        required
        autoFocus
        error={add.error === null ? undefined : describeError(add.error).detail}
      />
      <TextField label="Reels" value={reels} onChange={setReels} inputMode="numeric" numbers />
      <TextField
        label="ml for 135"
        value={per135}
        onChange={setPer135}
        inputMode="decimal"
        numbers
        reading="For one reel; it is usually moulded on the foot of the tank"
      />
      <TextField label="ml for 120" value={per120} onChange={setPer120} inputMode="decimal" numbers />
    </Dialog>
  );
}
