import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import { degreesFromIso, isFilmSpeed, stepIso } from './film-speed.ts';

/**
 * Stops between the film's speed and the index it was exposed at: log₂(EI / ISO). Positive: less light than the film
 * asks for, to be pushed. Exact, so printed speeds give 0.32 or 0.36 for a third; both > 0.
 * Source: definition of a stop; that a push is counted so is common practice.
 */
export function stopsBetween(iso: number, exposureIndex: number): number {
  return Math.log2(exposureIndex / iso);
}

/** Whole third-stops between two printed speeds: 400 and 800 → 3, 400 and 500 → 1. Both > 0. */
export function thirdsBetween(iso: number, exposureIndex: number): number {
  return degreesFromIso(exposureIndex) - degreesFromIso(iso);
}

/** The printed index for a push (positive) or pull of that many stops, in thirds: 400 and 1 → 800. */
export function indexForPush(
  iso: number,
  stops: number,
): Checked<number, 'speed_out_of_range' | 'stops_not_thirds'> {
  const thirds = Math.round(stops * 3);
  if (!Number.isFinite(stops) || Math.abs(stops * 3 - thirds) > 0.05) return refuse('stops_not_thirds');
  if (!isFilmSpeed(iso)) return refuse('speed_out_of_range');
  const index = stepIso(iso, thirds);
  return isFilmSpeed(index) ? accept(index) : refuse('speed_out_of_range');
}

/** `⅓`, `1`, `1 ⅔` … of whole thirds ≥ 0. */
function formatThirds(thirds: number): string {
  const whole = Math.floor(thirds / 3);
  const part = ['', '⅓', '⅔'][thirds % 3] ?? '';
  if (whole === 0) return part === '' ? '0' : part;
  return part === '' ? String(whole) : `${String(whole)} ${part}`;
}

/** `at box speed`, `push 1 stop`, `pull ⅔ stop`, `push 1 ⅓ stops`, to the nearest third. Both speeds > 0. */
export function describePush(iso: number, exposureIndex: number): string {
  const thirds = thirdsBetween(iso, exposureIndex);
  if (thirds === 0) return 'at box speed';
  const amount = Math.abs(thirds);
  return `${thirds > 0 ? 'push' : 'pull'} ${formatThirds(amount)} ${amount > 3 ? 'stops' : 'stop'}`;
}
