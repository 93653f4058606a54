import { Dialog } from '../../ui/dialog.tsx';
import { BigButton } from './big-button.tsx';

/** Asks before a run is stopped: film may be in the tank. */
export function StopDialog({
  begun,
  onClose,
  onLeave,
  onStop,
}: {
  readonly begun: boolean;
  readonly onClose: () => void;
  readonly onLeave: () => void;
  readonly onStop: () => void;
}) {
  return (
    <Dialog
      title="Stop the run?"
      onClose={onClose}
      actions={
        <>
          <BigButton main onPress={onClose}>
            Go on
          </BigButton>
          <BigButton onPress={onLeave}>Leave the sheet, the run goes on</BigButton>
          <BigButton onPress={onStop}>Stop the run</BigButton>
        </>
      }
    >
      <p>
        {begun
          ? 'Film is in the tank. What was noted until now is kept; a stopped run cannot go on.'
          : 'Nothing was poured yet. A stopped run cannot go on; the rolls still wait.'}
      </p>
    </Dialog>
  );
}
