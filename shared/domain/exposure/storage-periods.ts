import type { StoragePlace, StoredPeriod } from './expired.ts';

/** Film put somewhere on a day (YYYY-MM-DD); null when nobody knows since when, which counts as from the beginning. */
export type StorageMove = { readonly place: StoragePlace; readonly since: string | null };

const MS_PER_DAY = 86_400_000;

/** Mean year of the Julian calendar, days: close enough for a rule of thumb. */
const DAYS_PER_YEAR = 365.25;

/** A day as a number of days; both ends are UTC midnights, so no clock and no time zone comes in. */
function dayNumber(day: string): number {
  const ms = Date.parse(`${day}T00:00:00Z`);
  if (Number.isNaN(ms)) throw new RangeError(`not a day: ${day}`);
  return ms / MS_PER_DAY;
}

/**
 * Where film lay since its date, period by period. Days are YYYY-MM-DD; `expiresOn` is the last day it was in date.
 * `moves` in any order; before the first of them the film is taken to have lain where that one says, and without any
 * in a room. Empty when the film is not past its date.
 * @throws {RangeError} when a day is none: days come from the archive, so that is a bug.
 */
export function periodsPastDate(
  expiresOn: string,
  today: string,
  moves: readonly StorageMove[],
): readonly StoredPeriod[] {
  const end = dayNumber(today);
  const begin = dayNumber(expiresOn);
  if (end <= begin) return [];
  const sorted = moves
    .map(({ place, since }) => ({ place, from: since === null ? -Infinity : dayNumber(since) }))
    .toSorted((one, other) => one.from - other.from);
  const known = sorted.length > 0 ? sorted : [{ place: 'room' as const, from: -Infinity }];
  return known.flatMap(({ place, from }, index) => {
    const start = index === 0 ? begin : Math.max(begin, from);
    const stop = Math.min(end, known[index + 1]?.from ?? end);
    return stop > start ? [{ place, years: (stop - start) / DAYS_PER_YEAR }] : [];
  });
}
