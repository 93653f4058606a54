import type { RollRow } from '../../../shared/api/methods/film-methods.ts';
import { findFilmFormat } from '../../../shared/domain/film/film-format.ts';
import { expectFrames } from '../../../shared/domain/film/frame-format.ts';

/** The labels a roll is expected to have, 1, 2, 3 …, when nothing is known of its frames. Empty when it cannot be said. */
export function expectedLabels(roll: Pick<RollRow, 'filmFormat' | 'frameFormat' | 'exposures'>): string[] {
  const expected = expectFrames(roll.frameFormat, roll.filmFormat, roll.exposures);
  if (!expected.ok || findFilmFormat(roll.filmFormat)?.kind === 'sheet') {
    return Array.from({ length: roll.exposures ?? 0 }, (_frame, at) => String(at + 1));
  }
  return Array.from({ length: expected.value }, (_frame, at) => String(at + 1));
}
