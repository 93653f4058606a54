import type { Frame, PencilMark } from '../../shared/api/methods/film-methods.ts';
import { useCommand } from '../api/use-command.ts';
import type { Done } from './done-line.tsx';
import { MARK_KINDS, whichWords, type MarkKind } from './roll-words.ts';

/** The mark that a key draws, or null. */
export function markOfKey(key: string): MarkKind | null {
  return MARK_KINDS.find((mark) => mark.key === key.toUpperCase()) ?? null;
}

/** Whether every frame has the mark: then drawing it again takes it away. */
export function isMarked(frames: readonly Frame[], kind: PencilMark['kind']): boolean {
  return frames.length > 0 && frames.every(({ marks }) => marks.some((mark) => mark.kind === kind));
}

const NO_PLACE = { x: null, y: null, width: null, height: null };

export interface Marking {
  /** Draws the mark on the frames that are picked, or takes it away where all have it. */
  toggle(frames: readonly Frame[], kind: 'box' | 'dot' | 'stroke'): Promise<void>;
  crop(frames: readonly Frame[], part: Crop | null): Promise<void>;
  readonly pending: boolean;
}

/** A part of a picture, as fractions of it as it lies on the film. */
export interface Crop {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Drawing on frames with the pencil. */
export function useMarks(onDone: (done: Done) => void): Marking {
  const mark = useCommand('frames.mark');

  async function draw(frames: readonly Frame[], drawn: PencilMark, on: boolean): Promise<void> {
    if (frames.length === 0 || mark.pending) return;
    const ended = await mark.run({ ids: frames.map(({ id }) => id), mark: drawn, on });
    if (ended.ok) onDone({ says: doneWords(frames, drawn.kind, on), steps: 1 });
  }
  return {
    toggle: (frames, kind) => draw(frames, { kind, ...NO_PLACE }, !isMarked(frames, kind)),
    crop: (frames, part) => draw(frames, { kind: 'crop', ...(part ?? NO_PLACE) }, part !== null),
    pending: mark.pending,
  };
}

function doneWords(frames: readonly Frame[], kind: PencilMark['kind'], on: boolean): string {
  const looks = MARK_KINDS.find((known) => known.kind === kind)?.looks ?? 'a mark';
  return `${on ? 'Drew' : 'Rubbed out'} ${looks} on ${whichWords(frames)}.`;
}
