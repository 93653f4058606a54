import { useState } from 'react';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { expectFrames } from '../../shared/domain/film/frame-format.ts';
import { parseFrameLabels } from '../../shared/domain/frame/frame-range.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { describeReason } from '../../shared/text/describe-reason.ts';
import { useCommand } from '../api/use-command.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { TextField } from '../ui/text-field.tsx';
import { asSentence } from './frame-edits.ts';
import { count } from './roll-words.ts';

export interface AddFramesProps {
  readonly roll: Roll;
  readonly onClose: () => void;
}

/** Puts frames on a roll that nobody has scanned yet, by the labels on its edge. */
export function AddFrames({ roll, onClose }: AddFramesProps) {
  const [typed, setTyped] = useState(() => expectedRange(roll));
  const add = useCommand('frames.add', 'here');
  const labels = parseFrameLabels(typed);
  const failure = add.error === null ? null : describeError(add.error);

  async function save(): Promise<void> {
    if (!labels.ok || add.pending) return;
    const ended = await add.run({ rollId: roll.id, labels: labels.value.map(({ text }) => text) });
    if (ended.ok) onClose();
  }
  return (
    <Dialog
      title={`Frames of roll ${roll.number}`}
      onClose={onClose}
      onSubmit={() => void save()}
      actions={
        <>
          <Button look="main" submit busy={add.pending} onPress={() => void save()}>
            Add the frames
          </Button>
          <Button look="quiet" onPress={onClose}>
            Leave
          </Button>
        </>
      }
    >
      <TextField
        label="Labels"
        numbers
        autoFocus
        value={typed}
        onChange={setTyped}
        error={labels.ok ? undefined : asSentence(describeReason(labels.reason))}
        reading={labels.ok ? `${count(labels.value.length, 'frame')}; such as 00-36 or 1-12, 12A` : undefined}
      />
      {failure === null ? null : (
        <p role="alert">
          {failure.title}: {failure.detail}
        </p>
      )}
    </Dialog>
  );
}

function expectedRange(roll: Roll): string {
  const expected = expectFrames(roll.frameFormat, roll.filmFormat, roll.exposures);
  return expected.ok && expected.value > 0 ? `1-${expected.value}` : '';
}
