import { compareFrameLabels } from '../frame/frame-label.ts';

/** More frames than this between two labels is no gap but another kind of number. Our choice: more than a half-frame roll. */
const WIDEST_GAP = 80;

/**
 * The labels and the whole numbers missing between the lowest and the highest of them, in the order of the film: film
 * runs on between two frames, whether the frame there was scanned or not.
 */
export function fillGaps(labels: readonly string[]): string[] {
  const whole = labels.filter((label) => /^[1-9]\d{0,2}$/.test(label)).map(Number);
  // Where every frame is a half step (1A, 2A …) the camera missed the mark, and whole numbers are no frames.
  const halfSteps = labels.filter((label) => /^\d+A$/.test(label)).length;
  const low = Math.min(...whole);
  const high = Math.max(...whole);
  const runsOn = whole.length > 0 && halfSteps <= whole.length && high - low <= WIDEST_GAP;
  const between = runsOn ? Array.from({ length: high - low + 1 }, (_frame, at) => String(low + at)) : [];
  return [...new Set([...labels, ...between])].sort(compareFrameLabels);
}
