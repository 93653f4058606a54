import type { CalendarDay } from './calendar.ts';
import { lastOfMonth, monthLater } from './calendar.ts';

/** Which half of the earth gives the seasons their months. */
export type Hemisphere = 'north' | 'south';

/**
 * First month and length in months of the parts of a year that EDTF writes in place of a month.
 * Source of the codes: Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019,
 * Level 1 "Seasons" (21 spring to 24 winter, independent of location) and Level 2 "Sub-year groupings" (25 to 28
 * northern, 29 to 32 southern, 33 to 36 quarters, 37 to 39 thirds, 40 and 41 halves), https://www.loc.gov/standards/datetime/
 * (text of the codes read in copies, 2026; codes 33 to 41: order from memory, checked against the package edtf).
 * The standard gives no months. Months of the seasons: whole months as weather services count them (from memory),
 * and the same months as the reference library edtf-ruby has in EDTF::Season::NORTHERN and SOUTHERN,
 * https://www.rubydoc.info/gems/edtf/EDTF/Season. A season over New Year bears the year in which it begins.
 */
const NORTHERN_FIRST_MONTHS: readonly number[] = [3, 6, 9, 12];
const SOUTHERN_FIRST_MONTHS: readonly number[] = [9, 12, 3, 6];

const SPRING = 21;
const NORTHERN_SPRING = 25;
const SOUTHERN_SPRING = 29;
const FIRST_QUARTER = 33;
const FIRST_THIRD = 37;
const FIRST_HALF = 40;
const LAST_CODE = 41;

/** Whether a number in the place of a month names a part of the year. */
export function isSeason(code: number): boolean {
  return Number.isInteger(code) && code >= SPRING && code <= LAST_CODE;
}

function monthsOf(code: number, hemisphere: Hemisphere): { readonly first: number; readonly count: number } {
  if (code >= FIRST_HALF) return { first: (code - FIRST_HALF) * 6 + 1, count: 6 };
  if (code >= FIRST_THIRD) return { first: (code - FIRST_THIRD) * 4 + 1, count: 4 };
  if (code >= FIRST_QUARTER) return { first: (code - FIRST_QUARTER) * 3 + 1, count: 3 };
  const south = code >= SOUTHERN_SPRING || (code < NORTHERN_SPRING && hemisphere === 'south');
  const months = south ? SOUTHERN_FIRST_MONTHS : NORTHERN_FIRST_MONTHS;
  return { first: months[(code - SPRING) % 4] ?? 1, count: 3 };
}

/**
 * First and last day of a part of the year, for searching. `code` 21 to 41. For 21 to 24 the months depend on
 * `hemisphere`; the written date does not.
 */
export function seasonSpan(
  year: number,
  code: number,
  hemisphere: Hemisphere,
): { readonly first: CalendarDay; readonly last: CalendarDay } {
  const { first, count } = monthsOf(code, hemisphere);
  const end = monthLater(year, first, count - 1);
  return { first: { year, month: first, day: 1 }, last: lastOfMonth(end.year, end.month) };
}

const SEASON_NAMES: readonly string[] = ['spring', 'summer', 'autumn', 'winter'];
const ORDINALS: readonly string[] = ['first', 'second', 'third', 'fourth'];

/** A part of the year in words: `summer 1998`, `third quarter of 1998`. */
export function nameSeason(year: string, code: number): string {
  if (code >= FIRST_HALF) return `${ORDINALS[code - FIRST_HALF] ?? ''} half of ${year}`;
  if (code >= FIRST_THIRD) return `${ORDINALS[code - FIRST_THIRD] ?? ''} third of ${year}`;
  if (code >= FIRST_QUARTER) return `${ORDINALS[code - FIRST_QUARTER] ?? ''} quarter of ${year}`;
  const name = `${SEASON_NAMES[(code - SPRING) % 4] ?? ''} ${year}`;
  if (code >= SOUTHERN_SPRING) return `${name} (southern)`;
  return code >= NORTHERN_SPRING ? `${name} (northern)` : name;
}

/** The EDTF code of a season word (English), or null. */
export function findSeason(word: string): number | null {
  const at = SEASON_NAMES.indexOf(word === 'fall' ? 'autumn' : word);
  return at < 0 ? null : SPRING + at;
}
