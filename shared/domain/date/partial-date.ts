import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import { formatDay } from './calendar.ts';
import type { DateWordsReason } from './date-words.ts';
import { writeEdtf } from './date-words.ts';
import type { Edtf, EdtfEnd, EdtfPoint } from './edtf.ts';
import { readEdtf } from './edtf.ts';
import type { Hemisphere } from './season.ts';
import { isSeason, nameSeason } from './season.ts';

/** A date that may be vague. */
export interface PartialDate {
  /** ISO 8601-2 / EDTF, never more exact than what was typed. */
  readonly edtf: string;
  /** The words of the user. */
  readonly typed: string;
  /** First and last day it can mean, `YYYY-MM-DD`; null where the span is open or its end not known. */
  readonly earliest: string | null;
  readonly latest: string | null;
}

export type PartialDateReason = DateWordsReason | 'date_empty' | 'date_too_long';

const LONGEST = 100;

/** What depends on where the user lives. */
export interface PartialDateOptions {
  /**
   * Months of "summer" and the other seasons, for searching only; the kept EDTF does not name a hemisphere.
   * North when absent: spring March to May, summer June to August, autumn September to November, winter December
   * to February of the next year.
   */
  readonly hemisphere?: Hemisphere;
}

/**
 * Reads a date as people write it on a film box: EDTF (`1998-07`, `1998-22`, `1998~`, `../1999`, `197X`), figures
 * with one reading (`7/1998`, `25.12.1998`), English words ("summer 1998", "ca. 1985", "the 1970s", "before 1990",
 * "July to September 1998"). "before 1990" ends with 1989; "until 1990" includes it.
 */
export function parsePartialDate(
  text: string,
  options: PartialDateOptions = {},
): Checked<PartialDate, PartialDateReason> {
  const typed = text.trim();
  const hemisphere = options.hemisphere ?? 'north';
  if (typed === '' || typed === '?') return refuse('date_empty');
  if (typed.length > LONGEST) return refuse('date_too_long');
  const direct = readEdtf(typed, hemisphere);
  if (direct.ok) return accept(dated(typed, typed, direct.value));
  if (direct.reason !== 'date_not_understood') return direct;
  const edtf = writeEdtf(typed, hemisphere);
  if (!edtf.ok) return edtf;
  const read = readEdtf(edtf.value, hemisphere);
  return read.ok ? accept(dated(edtf.value, typed, read.value)) : read;
}

function dated(edtf: string, typed: string, date: Edtf): PartialDate {
  const [from, to] = date.kind === 'point' ? [date.point, date.point] : [date.from, date.to];
  return {
    edtf,
    typed,
    earliest: typeof from === 'string' ? null : formatDay(from.first),
    latest: typeof to === 'string' ? null : formatDay(to.last),
  };
}

/**
 * The expiry date of film: a month, as boxes give it, or only a year.
 * @returns refuses whatever is more exact, open or a span with `expiry_not_a_month`
 */
export function parseExpiry(text: string): Checked<PartialDate, PartialDateReason | 'expiry_not_a_month'> {
  const date = parsePartialDate(text);
  if (!date.ok) return date;
  const plain = /^\d{4}(?:-(\d{2}))?[?~%]?$/.exec(date.value.edtf);
  return plain === null || isSeason(Number(plain[1] ?? 0)) ? refuse('expiry_not_a_month') : date;
}

/** An EDTF date in words: `about 2024-04-20`, `spring 2023`, `1970s`, `1999 or earlier`. Other text as it is. */
export function formatPartialDate(edtf: string): string {
  const date = readEdtf(edtf, 'north');
  if (!date.ok) return edtf;
  if (date.value.kind === 'point') return namePoint(date.value.point);
  return nameSpan(date.value.from, date.value.to);
}

function nameSpan(from: EdtfEnd, to: EdtfEnd): string {
  if (typeof to === 'string') {
    const start = typeof from === 'string' ? '' : namePoint(from);
    return to === 'open' ? `${start} or later` : `from ${start}, end not known`;
  }
  const end = namePoint(to);
  if (typeof from === 'string') return from === 'open' ? `${end} or earlier` : `to ${end}, start not known`;
  return `${namePoint(from)} to ${end}`;
}

function namePoint(point: EdtfPoint): string {
  return `${QUALIFIER_WORDS[point.qualifier]}${nameDays(point)}`;
}

const QUALIFIER_WORDS = { '': '', '?': 'perhaps ', '~': 'about ', '%': 'perhaps about ' } as const;

function nameDays({ year, month, day }: EdtfPoint): string {
  if (year.endsWith('XX')) return `${year.slice(0, 2)}00 to ${year.slice(0, 2)}99`;
  if (year.endsWith('X')) return decadeName(year.slice(0, 3));
  if (month === null) return year;
  if (month === 'XX') return day === null ? `a month in ${year}` : `a day in ${year}`;
  if (isSeason(Number(month))) return nameSeason(year, Number(month));
  if (day === null) return `${year}-${month}`;
  return day === 'XX' ? `a day in ${year}-${month}` : `${year}-${month}-${day}`;
}

/** The 1900s may be ten years or a hundred, so a decade that starts a century is written out. */
function decadeName(decade: string): string {
  return decade.endsWith('0') ? `${decade}0 to ${decade}9` : `${decade}0s`;
}
