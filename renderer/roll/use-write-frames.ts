import { useState } from 'react';
import { isAppError } from '../../shared/api/errors.ts';
import { useCommand } from '../api/use-command.ts';
import { asSentence, TEXT_FIELDS, type FrameChangeGroup, type TextField } from './frame-edits.ts';
import type { Done } from './done-line.tsx';
import { count } from './roll-words.ts';

export interface WritingFrames {
  /** Writes each group, one after the other; says how it ended, in the words given when all was written. Gives whether all was written. */
  write(groups: readonly FrameChangeGroup[], says?: string): Promise<boolean>;
  readonly pending: boolean;
  /** What the engine refused, with the field it belongs to where that is known. */
  readonly failure: { readonly error: Error; readonly field: TextField | null; readonly says: string } | null;
  clear(): void;
}

/** Writing to frames. What was written before a failure stays, and is said, with the way to take it back. */
export function useWriteFrames(onDone: (done: Done) => void): WritingFrames {
  const change = useCommand('frames.change', 'here');
  const [pending, setPending] = useState(false);
  const [failure, setFailure] = useState<WritingFrames['failure']>(null);

  async function write(groups: readonly FrameChangeGroup[], says?: string): Promise<boolean> {
    setPending(true);
    setFailure(null);
    let written = 0;
    let steps = 0;
    for (const group of groups) {
      const ended = await change.run({ ids: [...group.ids], change: group.change });
      if (!ended.ok) {
        setFailure(describeFailure(ended.error));
        break;
      }
      written += group.ids.length;
      steps += 1;
    }
    setPending(false);
    const all = groups.reduce((sum, { ids }) => sum + ids.length, 0);
    if (steps > 0) {
      const words =
        written === all
          ? (says ?? `Written to ${count(written, 'frame')}.`)
          : `Written to ${written} of ${count(all, 'frame')}.`;
      onDone({ says: words, steps });
    }
    return written === all;
  }
  return { write, pending, failure, clear: () => setFailure(null) };
}

function describeFailure(error: Error): WritingFrames['failure'] {
  if (!isAppError(error, 'value_not_valid')) return { error, field: null, says: '' };
  const { field: named, reason } = error.details;
  const field = TEXT_FIELDS.find((known) => known === named) ?? null;
  return { error, field, says: asSentence(reason) };
}
