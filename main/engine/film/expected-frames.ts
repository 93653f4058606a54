import type { RollRow } from '../../../shared/api/methods/film-methods.ts';
import { findFilmFormat } from '../../../shared/domain/film/film-format.ts';
import { expectFrames, findFrameOnFilm } from '../../../shared/domain/film/frame-format.ts';

/** The labels a roll is expected to have, 1, 2, 3 …, when nothing is known of its frames. Empty when it cannot be said. */
export function expectedLabels(roll: Pick<RollRow, 'filmFormat' | 'frameFormat' | 'exposures'>): string[] {
  // "72" on a half-frame roll is what the user counts, "36" what the box says: both mean 72 frames.
  const counted =
    findFrameOnFilm(roll.frameFormat, roll.filmFormat)?.counts.includes(roll.exposures ?? 0) ?? false;
  if (counted && roll.exposures !== null) return labelsTo(roll.exposures);
  const expected = expectFrames(roll.frameFormat, roll.filmFormat, roll.exposures);
  if (!expected.ok || findFilmFormat(roll.filmFormat)?.kind === 'sheet') {
    return labelsTo(roll.exposures ?? 0);
  }
  return labelsTo(expected.value);
}

function labelsTo(last: number): string[] {
  return Array.from({ length: last }, (_frame, at) => String(at + 1));
}
