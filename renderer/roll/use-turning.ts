import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { quarterTurn } from '../film/drawn-frame.ts';
import { whichWords } from './roll-words.ts';
import { useWriteFrames } from './use-write-frames.ts';
import type { Done } from './done-line.tsx';
import { useNotices } from '../state/notices.tsx';
import { useEffect } from 'react';

export interface Turning {
  /** Turns frames clockwise; the file of the scan is not touched. */
  turn(frames: readonly Frame[], degrees: 90 | 270): void;
  mirror(frames: readonly Frame[]): void;
  readonly pending: boolean;
}

/** Turning and mirroring frames. Frames that were turned alike are written together. */
export function useTurning(onDone: (done: Done) => void): Turning {
  const notices = useNotices();
  const { write, pending, failure } = useWriteFrames(onDone);
  useEffect(() => {
    if (failure) notices.fail(failure.error);
  }, [failure, notices]);

  function turn(frames: readonly Frame[], degrees: 90 | 270): void {
    if (pending) return;
    const groups = [0, 90, 180, 270].map((before) => ({
      ids: frames.filter(({ turned }) => quarterTurn(turned) === before).map(({ id }) => id),
      change: { turned: quarterTurn(before + degrees) },
    }));
    void write(
      groups.filter(({ ids }) => ids.length > 0),
      `Turned ${whichWords(frames)}.`,
    );
  }
  function mirror(frames: readonly Frame[]): void {
    if (pending) return;
    const groups = [true, false].map((before) => ({
      ids: frames.filter(({ mirrored }) => mirrored === before).map(({ id }) => id),
      change: { mirrored: !before },
    }));
    void write(
      groups.filter(({ ids }) => ids.length > 0),
      `Mirrored ${whichWords(frames)}.`,
    );
  }
  return { turn, mirror, pending };
}
