import { useState } from 'react';
import { describeError } from '../../shared/text/describe-error.ts';
import type { Binder } from '../../shared/api/methods/filing-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';

export interface BinderSlipProps {
  /** The binder to change; null for a new one. */
  readonly binder: Binder | null;
  /** Called with its id when the archive has it. */
  readonly onDone: (binderId: number) => void;
  readonly onClose: () => void;
}

/** The slip for a new binder, or for changing the name, the place and the note of one. */
export function BinderSlip({ binder, onDone, onClose }: BinderSlipProps) {
  const add = useCommand('binders.add', 'here');
  const change = useCommand('binders.change', 'here');
  const remove = useCommand('binders.remove', 'here');
  const [name, setName] = useState(binder?.name ?? '');
  const [place, setPlace] = useState(binder?.place ?? '');
  const [note, setNote] = useState(binder?.note ?? '');
  const [missing, setMissing] = useState(false);
  const error = add.error ?? change.error ?? remove.error;
  const failure = error === null ? null : describeError(error);

  async function write(): Promise<void> {
    if (name.trim() === '') return setMissing(true);
    const facts = { name: name.trim(), place: place.trim() || null, note: note.trim() || null };
    if (binder === null) {
      const ended = await add.run(facts);
      if (ended.ok) onDone(ended.output.id);
      return undefined;
    }
    const ended = await change.run({ id: binder.id, change: facts });
    if (ended.ok) onDone(binder.id);
    return undefined;
  }
  async function takeAway(id: number): Promise<void> {
    if ((await remove.run({ id })).ok) onClose();
  }
  return (
    <Dialog
      title={binder === null ? 'A new binder' : `Binder ${binder.name}`}
      onClose={onClose}
      onSubmit={() => void write()}
      actions={
        <>
          <Button look="main" submit busy={add.pending || change.pending} onPress={() => void write()}>
            {binder === null ? 'Put it on the shelf' : 'Write it down'}
          </Button>
          <Button onPress={onClose}>Leave</Button>
          {binder !== null && binder.pages === 0 ? (
            <Button busy={remove.pending} onPress={() => void takeAway(binder.id)}>
              Take it off the shelf
            </Button>
          ) : null}
        </>
      }
    >
      <TextField
        label="Name"
        value={name}
        onChange={setName}
        required
        error={missing && name.trim() === '' ? 'It needs a name or a number.' : undefined}
        reading="A number, or what is written on its back."
      />
      <TextField label="Stands in" value={place} onChange={setPlace} placeholder="a room, a shelf" />
      <TextField label="Note" value={note} onChange={setNote} lines={3} />
      {failure === null ? null : (
        <p role="alert" className="binder-slip-failure">
          {failure.title} {failure.detail} {failure.advice}
        </p>
      )}
    </Dialog>
  );
}
