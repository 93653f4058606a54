import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import { foldDigits } from '../text/digits.ts';
import { dayAfter, dayBefore, formatDay, formatYear, monthLater, pad } from './calendar.ts';
import type { EdtfReason, EdtfPoint, Qualifier } from './edtf.ts';
import { readEdtf } from './edtf.ts';
import type { Hemisphere } from './season.ts';
import { findSeason } from './season.ts';

export type DateWordsReason =
  | EdtfReason
  /** `7.12.1998`: 7 December in one country, 12 July in another. */
  | 'date_day_or_month'
  /** `'98`, `7/98`, "the 70s": which century? */
  | 'date_year_too_short'
  /** "the 1900s": ten years or a hundred? */
  | 'date_decade_or_century'
  /** A calendar date has no time of day. */
  | 'date_with_time';

const MONTHS: readonly (readonly string[])[] = [
  ['january', 'jan'],
  ['february', 'feb'],
  ['march', 'mar'],
  ['april', 'apr'],
  ['may'],
  ['june', 'jun'],
  ['july', 'jul'],
  ['august', 'aug'],
  ['september', 'sep', 'sept'],
  ['october', 'oct'],
  ['november', 'nov'],
  ['december', 'dec'],
];

const ABOUT = /^(?:~|(?:ca|c|circa|about|around|approx|approximately|roughly)\b\.?) ?/;
const PERHAPS = /^(?:probably|perhaps|maybe|possibly|presumably)\b ?/;
const BEFORE = /^(?:before|earlier than|prior to) (.+)$/;
const UNTIL = /^(?:until|till|up to|by|not after|no later than) (.+)$/;
const AFTER = /^(?:after|later than) (.+)$/;
const SINCE = /^(?:since|from|not before|no earlier than) (.+)$/;
const BETWEEN = /^between (.+?) and (.+)$/;
const FROM_TO = /^(?:from )?(.+?)(?: ?[–—] ?| - | to | until | till | through )(.+)$/;

/** Turns a date in words or figures into EDTF text. Only what can be meant in one way is taken. */
export function writeEdtf(typed: string, hemisphere: Hemisphere): Checked<string, DateWordsReason> {
  const text = foldDigits(typed.normalize('NFKC'))
    .toLowerCase()
    .replace(/[‘’`]/g, "'")
    .replace(/[‐‑‒−]/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
  if (/\d[t ]\d{1,2}:\d{2}/.test(text)) return refuse('date_with_time');
  return readPhrase(text, hemisphere);
}

function readPhrase(text: string, hemisphere: Hemisphere): Checked<string, DateWordsReason> {
  const { rest, qualifier } = takeQualifier(text);
  const limit = readLimit(rest, qualifier, hemisphere);
  if (limit !== null) return limit;
  const years = /^(\d{4})-(\d{4})$/.exec(rest);
  const [, from, to] = years ?? BETWEEN.exec(rest) ?? FROM_TO.exec(rest) ?? [];
  if (from !== undefined && to !== undefined) return readSpan(from, to, qualifier);
  const since = SINCE.exec(rest)?.[1];
  if (since !== undefined) return ended(readQualified(since, qualifier), (date) => `${date}/..`);
  return readQualified(rest, qualifier);
}

/** Takes the words for "about" and "perhaps", and a question mark at the end, off a text. */
function takeQualifier(text: string): { readonly rest: string; readonly qualifier: Qualifier } {
  let rest = text.replace(/^(?:in|on|the) /, '');
  let about = false;
  let perhaps = false;
  for (let before = ''; before !== rest;) {
    before = rest;
    if (ABOUT.test(rest)) about = true;
    if (PERHAPS.test(rest) || /.\?$/.test(rest)) perhaps = true;
    rest = rest
      .replace(ABOUT, '')
      .replace(PERHAPS, '')
      .replace(/(.)\?$/, '$1')
      .replace(/^(?:in|on|the) /, '');
  }
  if (about && perhaps) return { rest, qualifier: '%' };
  return { rest, qualifier: about ? '~' : perhaps ? '?' : '' };
}

function merge(a: Qualifier, b: Qualifier): Qualifier {
  if (a === '' || a === b) return b;
  return b === '' ? a : '%';
}

function ended(
  date: Checked<string, DateWordsReason>,
  write: (date: string) => string,
): Checked<string, DateWordsReason> {
  return date.ok ? accept(write(date.value)) : date;
}

/** "before", "until", "after": a span that is open at one side. Null where none of them leads the text. */
function readLimit(
  text: string,
  qualifier: Qualifier,
  hemisphere: Hemisphere,
): Checked<string, DateWordsReason> | null {
  const until = UNTIL.exec(text)?.[1];
  if (until !== undefined) return ended(readQualified(until, qualifier), (date) => `../${date}`);
  const before = BEFORE.exec(text)?.[1];
  const after = AFTER.exec(text)?.[1];
  const word = before ?? after;
  if (word === undefined) return null;
  const date = readQualified(word, qualifier);
  if (!date.ok) return date;
  const edtf = readEdtf(date.value, hemisphere);
  if (!edtf.ok) return edtf;
  if (edtf.value.kind === 'span') return refuse('date_not_understood');
  const { point } = edtf.value;
  return accept(before === undefined ? `${neighbour(point, 1)}/..` : `../${neighbour(point, -1)}`);
}

/** What lies next to a date, as exact as the date itself: the year after 1990 is 1991, the month before 1998-07 is 1998-06. */
function neighbour(point: EdtfPoint, side: -1 | 1): string {
  const { first, last, qualifier } = point;
  const next = side < 0 ? dayBefore(first) : dayAfter(last);
  if (point.month === null) return `${formatYear(next.year)}${qualifier}`;
  const wholeMonth = point.day === null && first.year === last.year && first.month === last.month;
  if (wholeMonth) {
    const month = monthLater(first.year, first.month, side);
    return `${formatYear(month.year)}-${pad(month.month)}${qualifier}`;
  }
  return `${formatDay(next)}${qualifier}`;
}

function readSpan(from: string, to: string, qualifier: Qualifier): Checked<string, DateWordsReason> {
  const end = readQualified(to, qualifier);
  if (!end.ok) return end;
  const year = /^\d{4}/.exec(end.value)?.[0] ?? '';
  const month = /(?:^| )([a-z]+)\b/.exec(to)?.[1] ?? '';
  // "July – September 1998" and "12 – 14 July 1998" say the year, and the month, once.
  const readings = [from, `${from} ${year}`, `${from} ${month} ${year}`];
  const start = readings.map((text) => readQualified(text, qualifier)).find((date) => date.ok);
  if (start?.ok !== true) return readQualified(from, qualifier);
  return accept(`${start.value}/${end.value}`);
}

function readQualified(text: string, outer: Qualifier): Checked<string, DateWordsReason> {
  const { rest, qualifier: inner } = takeQualifier(text);
  const qualifier = merge(outer, inner);
  const date = readDate(
    rest
      .replace(/,/g, ' ')
      .replace(/\bof\b/g, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  );
  if (!date.ok) return date;
  // EDTF has no "about" for a decade written with X, so its first and last year carry the mark.
  const decade = /^(\d{3})X$/.exec(date.value)?.[1];
  if (decade !== undefined && qualifier !== '')
    return accept(`${decade}0${qualifier}/${decade}9${qualifier}`);
  return accept(`${date.value}${qualifier}`);
}

function readDate(text: string): Checked<string, DateWordsReason> {
  if (/^\d{4}$/.test(text)) return accept(text);
  const decade = /^(\d{3})0'?s$/.exec(text)?.[1];
  if (decade !== undefined) {
    return decade.endsWith('0') ? refuse('date_decade_or_century') : accept(`${decade}X`);
  }
  if (/^\d{3}x$|^\d{2}xx$/.test(text)) return accept(text.toUpperCase());
  const figures = text.split(/[-./]/).map((part) => part.trim());
  if (figures.length > 1 && figures.every((part) => /^\d{1,4}$/.test(part))) return readFigures(figures);
  return readNames(text.split(' '));
}

/** Dates in figures: year first, or last with only one reading. */
function readFigures(figures: readonly string[]): Checked<string, DateWordsReason> {
  const [first = '', second = '', third = ''] = figures;
  if (figures.length > 3) return refuse('date_not_understood');
  if (first.length === 4) {
    const day = figures.length === 3 ? `-${third.padStart(2, '0')}` : '';
    return second.length > 2 || third.length > 2
      ? refuse('date_not_understood')
      : accept(`${first}-${second.padStart(2, '0')}${day}`);
  }
  const year = figures.at(-1) ?? '';
  if (year.length !== 4) return refuse('date_year_too_short');
  if (first.length > 2 || (figures.length === 3 && second.length > 2)) return refuse('date_not_understood');
  if (figures.length === 2) return accept(`${year}-${first.padStart(2, '0')}`);
  const [a, b] = [Number(first), Number(second)];
  if (a > 12 && b > 12) return refuse('date_no_such_month');
  if (a !== b && a <= 12 && b <= 12) return refuse('date_day_or_month');
  return accept(a > 12 ? `${year}-${pad(b)}-${pad(a)}` : `${year}-${pad(a)}-${pad(b)}`);
}

/** Dates with the name of a month or a season, in any order of the words. */
function readNames(words: readonly string[]): Checked<string, DateWordsReason> {
  const names = words.filter((word) => /^[a-z]+\.?$/.test(word)).map((word) => word.replace('.', ''));
  const years = words.filter((word) => /^\d{4}$/.test(word));
  const days = words.flatMap((word) => /^(\d{1,2})(?:st|nd|rd|th|\.)?$/.exec(word)?.[1] ?? []);
  const [name = ''] = names;
  const season = findSeason(name);
  const month = MONTHS.findIndex((spellings) => spellings.includes(name)) + 1;
  const shortYear = words.some((word) => /^'?\d{2}'?s?$/.test(word)) || /^\w+ties$/.test(words.at(-1) ?? '');
  if (years.length === 0) return refuse(shortYear ? 'date_year_too_short' : 'date_not_understood');
  const [year = ''] = years;
  if (
    names.length !== 1 ||
    years.length !== 1 ||
    names.length + years.length + days.length !== words.length
  ) {
    return refuse('date_not_understood');
  }
  if (season !== null && days.length === 0) return accept(`${year}-${season}`);
  if (month === 0 || days.length > 1) return refuse('date_not_understood');
  const [day] = days;
  return accept(`${year}-${pad(month)}${day === undefined ? '' : `-${pad(Number(day))}`}`);
}
