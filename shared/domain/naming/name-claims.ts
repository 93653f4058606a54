import { daysInMonth } from '../date/calendar.ts';

/** A file name from which one known thing after the other is taken out; what is left are loose words and numbers. */
export interface Remainder {
  readonly text: string;
}

/** Stands where something was taken out; parts words as a blank does, and is in no file name. */
export const TAKEN = '\u0001';

/** The match of `pattern` in the remainder and the remainder without it, or null. */
export function take(
  rest: Remainder,
  pattern: RegExp,
): { readonly groups: readonly (string | undefined)[]; readonly rest: Remainder } | null {
  const found = pattern.exec(rest.text);
  if (found === null) return null;
  const before = rest.text.slice(0, found.index);
  const after = rest.text.slice(found.index + found[0].length);
  return { groups: found.slice(1), rest: { text: `${before}${TAKEN}${after}` } };
}

/** The remainder without any match of `pattern`. */
function takeAll(rest: Remainder, pattern: RegExp): Remainder {
  let left = rest;
  for (let found = take(left, pattern); found !== null; found = take(left, pattern)) left = found.rest;
  return left;
}

const TIME_STAMP =
  /(?<!\d)((?:19|20)\d\d)[-._]?(\d\d)[-._]?(\d\d)[ tT_-]+([01]\d|2[0-3])[-.:_]?([0-5]\d)[-.:_]?([0-5]\d)(?!\d)/;
const LONG_DATE = /(?<!\d)((?:19|20)\d\d)([-._]?)(\d\d)\2(\d\d)(?!\d)/;
const SHORT_DATE = /(?<!\d)(\d\d)(\d\d)(\d\d)(?=[-_ ]\d)/;

function isDay(year: number, month: number, day: number): boolean {
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
}

/**
 * The date, or date and time, that a scanner or camera wrote into the name, as wall time (`2023-02-03T04:05:06`);
 * null where there is none. Six figures are a date only with a further number behind them (`190312-0007`).
 */
export function takeDate(rest: Remainder): { readonly instant: string; readonly rest: Remainder } | null {
  const stamp = take(rest, TIME_STAMP);
  if (stamp !== null) {
    const [year = '', month = '', day = '', hour = '', minute = '', second = ''] = stamp.groups;
    if (isDay(Number(year), Number(month), Number(day))) {
      return { instant: `${year}-${month}-${day}T${hour}:${minute}:${second}`, rest: stamp.rest };
    }
  }
  const long = take(rest, LONG_DATE);
  if (long !== null) {
    const [year = '', , month = '', day = ''] = long.groups;
    if (isDay(Number(year), Number(month), Number(day)))
      return { instant: `${year}-${month}-${day}`, rest: long.rest };
  }
  const short = take(rest, SHORT_DATE);
  if (short !== null) {
    const [year = '', month = '', day = ''] = short.groups;
    if (isDay(2000 + Number(year), Number(month), Number(day))) {
      return { instant: `20${year}-${month}-${day}`, rest: short.rest };
    }
  }
  return null;
}

/** The remainder without `number` at its end, when another number stands before it. */
export function takeEnd(rest: Remainder, number: string | undefined): Remainder {
  const found = number === undefined ? null : /^(.*\d\D+)(\d+)(\D*)$/su.exec(rest.text);
  if (found === null || found[2] !== number) return rest;
  return { text: `${found[1] ?? ''}${TAKEN}${found[3] ?? ''}` };
}

/** Sizes, resolutions, bit depths, speeds: numbers with a unit or a word that are no frame. */
const TECHNICAL: readonly RegExp[] = [
  /(?<=\d)\s*(?:of|von|de|di)\s*\d+(?![\p{L}\p{N}])/iu,
  /(?<![\p{L}\p{N}])\d+(?:[.,]\d+)?[x×]\d+(?:[.,]\d+)?(?:cm|mm|in|px)?(?![\p{L}\p{N}])/iu,
  /(?<![\p{L}\p{N}])\d+ ?(?:mm|dpi|ppi|bits?|iso|asa|din|px|mpx?|k)(?![\p{L}\p{N}])/iu,
  /(?<![\p{L}\p{N}])(?:iso|asa|din|ei|push(?:ed)?|pull(?:ed)?|stock|expired)[-_ ]?[+-]?\d+(?![\p{L}\p{N}])/iu,
];

/** The remainder without totals (`of 36`), sizes (`6x7`), resolutions (`4000dpi`), bit depths (`48bit`), speeds (`iso400`). */
export function takeTechnical(rest: Remainder): Remainder {
  return TECHNICAL.reduce(takeAll, rest);
}

/** A number left in the name. */
export interface LooseNumber {
  /** Letters that touch the number from the left. */
  readonly word: string;
  readonly digits: string;
  /** A single letter that touches it from the right, or empty. */
  readonly letter: string;
  /** What parts it from the number before. */
  readonly gap: string;
}

/** The numbers that nothing has explained, from left to right. */
export function looseNumbers(rest: Remainder): readonly LooseNumber[] {
  let end = 0;
  return [...rest.text.matchAll(/(\p{L}*)(\d+)([A-Za-z](?![\p{L}\p{N}]))?/gu)].map((found) => {
    const gap = rest.text.slice(end, found.index);
    end = found.index + found[0].length;
    return { word: found[1] ?? '', digits: found[2] ?? '', letter: found[3] ?? '', gap };
  });
}
