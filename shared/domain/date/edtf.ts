import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import type { CalendarDay } from './calendar.ts';
import { daysInMonth, formatDay, lastOfMonth } from './calendar.ts';
import type { Hemisphere } from './season.ts';
import { isSeason, seasonSpan } from './season.ts';

export type EdtfReason =
  | 'date_not_understood'
  | 'date_no_such_month'
  | 'date_no_such_day'
  /** Before 1800 or after 2199 (our choice): there was no film, or a digit slipped. */
  | 'date_year_unlikely'
  /** A span whose end lies before its start. */
  | 'date_ends_before_start';

/** `?` uncertain, `~` approximate, `%` both. */
export type Qualifier = '' | '?' | '~' | '%';

/** One date of EDTF, not a span: as written, taken apart, with its first and last possible day. */
export interface EdtfPoint {
  readonly edtf: string;
  readonly year: string;
  readonly month: string | null;
  readonly day: string | null;
  readonly qualifier: Qualifier;
  readonly first: CalendarDay;
  readonly last: CalendarDay;
}

/** A side of a span: a date, `..` for open, or nothing for not known. */
export type EdtfEnd = EdtfPoint | 'open' | 'unknown';

/** A date, or a span between two ends. */
export type Edtf =
  | { readonly kind: 'point'; readonly point: EdtfPoint }
  | { readonly kind: 'span'; readonly from: EdtfEnd; readonly to: EdtfEnd };

const FIRST_YEAR = 1800;
const LAST_YEAR = 2199;
const POINT = /^(\d{4}|\d{3}X|\d{2}XX)(?:-(\d{2}|XX)(?:-(\d{2}|XX))?)?([?~%]?)$/;

/**
 * Reads EDTF Level 1 without years of five digits, before the year 1 or times of day, with the parts of a year of
 * Level 2, also qualified (`1998-22~`) and at the ends of a span.
 * Qualifiers do not widen the days: the standard says nothing on how much "approximately" is.
 * Source: Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019, Levels 0 and 1,
 * https://www.loc.gov/standards/datetime/ (content of ISO 8601-2:2019).
 */
export function readEdtf(text: string, hemisphere: Hemisphere): Checked<Edtf, EdtfReason> {
  const ends = text.split('/');
  if (ends.length === 1) {
    const point = readPoint(text, hemisphere);
    return point.ok ? accept({ kind: 'point', point: point.value }) : point;
  }
  if (ends.length !== 2) return refuse('date_not_understood');
  const from = readEnd(ends[0] ?? '', hemisphere);
  if (!from.ok) return from;
  const to = readEnd(ends[1] ?? '', hemisphere);
  if (!to.ok) return to;
  if (typeof from.value === 'string' && typeof to.value === 'string') return refuse('date_not_understood');
  if (typeof from.value !== 'string' && typeof to.value !== 'string') {
    if (formatDay(to.value.last) < formatDay(from.value.first)) return refuse('date_ends_before_start');
  }
  return accept({ kind: 'span', from: from.value, to: to.value });
}

function readEnd(text: string, hemisphere: Hemisphere): Checked<EdtfEnd, EdtfReason> {
  if (text === '..') return accept('open');
  return text === '' ? accept('unknown') : readPoint(text, hemisphere);
}

function readPoint(text: string, hemisphere: Hemisphere): Checked<EdtfPoint, EdtfReason> {
  const [, year, month = null, day = null, mark = ''] = POINT.exec(text) ?? [];
  if (year === undefined) return refuse('date_not_understood');
  const qualifier = mark === '?' || mark === '~' || mark === '%' ? mark : '';
  const span = daysOf(year, month, day, hemisphere);
  // Level 1 knows an unspecified digit of the year only in a year alone, unqualified.
  if (year.includes('X') && (month !== null || qualifier !== '')) return refuse('date_not_understood');
  return span.ok ? accept({ edtf: text, year, month, day, qualifier, ...span.value }) : span;
}

function daysOf(
  year: string,
  month: string | null,
  day: string | null,
  hemisphere: Hemisphere,
): Checked<{ readonly first: CalendarDay; readonly last: CalendarDay }, EdtfReason> {
  const from = Number(year.replaceAll('X', '0'));
  const to = Number(year.replaceAll('X', '9'));
  if (from < FIRST_YEAR || to > LAST_YEAR) return refuse('date_year_unlikely');
  if (month === null || month === 'XX') {
    if (day !== null && day !== 'XX') return refuse('date_not_understood');
    return accept({ first: { year: from, month: 1, day: 1 }, last: lastOfMonth(to, 12) });
  }
  const number = Number(month);
  if (isSeason(number))
    return day === null ? accept(seasonSpan(from, number, hemisphere)) : refuse('date_no_such_day');
  if (number < 1 || number > 12) return refuse('date_no_such_month');
  if (day === null || day === 'XX') {
    return accept({ first: { year: from, month: number, day: 1 }, last: lastOfMonth(from, number) });
  }
  if (Number(day) < 1 || Number(day) > daysInMonth(from, number)) return refuse('date_no_such_day');
  const only = { year: from, month: number, day: Number(day) };
  return accept({ first: only, last: only });
}
