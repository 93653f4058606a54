import type { Bath } from './bath-ledger.ts';

const MS_PER_DAY = 24 * 3600 * 1000;

/** Whole days from one calendar date to another (`YYYY-MM-DD`), negative when it lies before. */
export function daysBetween(fromDay: string, toDay: string): number {
  return Math.round((Date.parse(`${toDay}T00:00:00Z`) - Date.parse(`${fromDay}T00:00:00Z`)) / MS_PER_DAY);
}

/** Age of a bath in days: at least and at most, which differ when the day of mixing is vague. */
export type BathAge = { readonly leastDays: number; readonly mostDays: number };

/** The age of a bath on `today` (`YYYY-MM-DD`), or null when it is not known when it was mixed. */
export function findBathAge(
  bath: Pick<Bath, 'mixedFirstDay' | 'mixedLastDay'>,
  today: string,
): BathAge | null {
  const first = bath.mixedFirstDay ?? bath.mixedLastDay;
  const last = bath.mixedLastDay ?? bath.mixedFirstDay;
  if (first === null || last === null) return null;
  return { leastDays: daysBetween(last, today), mostDays: daysBetween(first, today) };
}

/** Days a bath is past its shelf life, 0 when it is within; null when age or shelf life is not known. */
export function findDaysPastShelf(
  bath: Pick<Bath, 'mixedFirstDay' | 'mixedLastDay' | 'shelfDays'>,
  today: string,
): number | null {
  const age = findBathAge(bath, today);
  if (age === null || bath.shelfDays === null) return null;
  // The older of two possible ages: a warning too early spoils nothing.
  return Math.max(0, age.mostDays - bath.shelfDays);
}
