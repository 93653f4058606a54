import { useState } from 'react';
import { useCommand } from '../api/use-command.ts';
import { useUndo } from '../api/use-undo.ts';
import { Button } from '../ui/button.tsx';

/** What was done last, in words, and how many steps of the archive's undo take it back. */
export interface Done {
  readonly says: string;
  readonly steps: number;
}

export interface DoneLineProps {
  readonly done: Done | null;
  /** Told when it was taken back. */
  readonly onUndone: () => void;
}

/** What has been written, with the way to take it back. Stays until the next thing is done. */
export function DoneLine({ done, onUndone }: DoneLineProps) {
  const undo = useCommand('archive.undo');
  // Once something can be made again, a change was taken back elsewhere: the next undo would be of another thing.
  const { redoes } = useUndo();
  const [busy, setBusy] = useState(false);

  async function takeBack(steps: number): Promise<void> {
    setBusy(true);
    let taken = 0;
    while (taken < steps && (await undo.run({})).ok) taken += 1;
    setBusy(false);
    if (taken === steps) onUndone();
  }
  return (
    <p role="status" className="done-line">
      {done === null || redoes !== null ? null : (
        <>
          {done.says}{' '}
          <Button look="quiet" busy={busy} onPress={() => void takeBack(done.steps)}>
            Undo this
          </Button>
        </>
      )}
    </p>
  );
}
