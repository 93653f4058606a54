import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { useCommand } from '../api/use-command.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { count } from './roll-words.ts';

/** Asks before a roll is taken out of the archive. */
export function RemoveRoll({ roll, onClose }: { readonly roll: Roll; readonly onClose: () => void }) {
  const remove = useCommand('rolls.remove');
  const viewState = useViewState();

  async function go(): Promise<void> {
    const ended = await remove.run({ id: roll.id });
    if (ended.ok) viewState.go({ view: 'rolls' });
  }
  return (
    <Dialog
      title={`Remove roll ${roll.number}?`}
      onClose={onClose}
      actions={
        <>
          <Button look="main" onPress={onClose}>
            Keep it
          </Button>
          <Button busy={remove.pending} onPress={() => void go()}>
            Remove the roll
          </Button>
        </>
      }
    >
      <p>
        Its {count(roll.frames, 'frame')} with captions and marks go with it. The scans stay where they are
        and are not touched. It can be undone. Its number is not given again.
      </p>
    </Dialog>
  );
}
