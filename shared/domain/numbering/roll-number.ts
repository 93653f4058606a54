import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import { foldDigits } from '../text/digits.ts';
import { foldText } from '../text/fold.ts';

export type RollNumberReason =
  | 'roll_number_empty'
  /** A line break, a tab or another sign that cannot be printed on a label. */
  | 'roll_number_not_printable'
  /** More than 40 signs (our choice: what a binder label holds). */
  | 'roll_number_too_long'
  /** A slash at either end: `2026-001/` could not be told from an address without its frame. */
  | 'roll_number_slash_at_end';

const LONGEST = 40;

/**
 * A roll number as it is kept: any scheme of the user's own, blanks at the ends off, inner blanks single, accents
 * composed. Slashes inside are allowed (`C-123/A07`).
 */
export function checkRollNumber(text: string): Checked<string, RollNumberReason> {
  const number = text.normalize('NFC').replace(/ +/g, ' ').trim();
  if (number === '') return refuse('roll_number_empty');
  if (/[\p{C}\p{Zl}\p{Zp}]/u.test(number)) return refuse('roll_number_not_printable');
  if ([...number].length > LONGEST) return refuse('roll_number_too_long');
  if (/^\/|\/$/.test(number)) return refuse('roll_number_slash_at_end');
  return accept(number);
}

/** What a pattern is filled with: the year and month that the user's calendar shows. */
export interface NumberingDay {
  readonly year: number;
  /** 1 to 12 */
  readonly month: number;
}

type PatternPart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'year' | 'shortYear' | 'month' }
  | { readonly kind: 'count'; readonly width: number };

/** A numbering scheme, read by `parseRollPattern`. */
export type RollPattern = readonly PatternPart[];

export type RollPatternReason =
  | RollNumberReason
  /** No `{n}`: every roll would get the same number. */
  | 'pattern_without_count'
  | 'pattern_with_two_counts'
  /** Braces around something else than year, yy, month, n or n:1 to n:9. */
  | 'pattern_field_unknown';

/**
 * Reads a numbering scheme: text with `{year}` (2026), `{yy}` (26), `{month}` (07) and once `{n}` or `{n:3}`, the
 * running number, padded with zeros to that width.
 */
export function parseRollPattern(text: string): Checked<RollPattern, RollPatternReason> {
  const pieces = text.split(/(\{[^{}]*\})/).filter((piece) => piece !== '');
  const parts: PatternPart[] = [];
  for (const piece of pieces) {
    const part = parsePiece(piece);
    if (part === null) return refuse('pattern_field_unknown');
    parts.push(part);
  }
  const counts = parts.filter((part) => part.kind === 'count').length;
  if (counts === 0) return refuse('pattern_without_count');
  if (counts > 1) return refuse('pattern_with_two_counts');
  const sample = checkRollNumber(fillPattern(parts, { year: 2000, month: 12 }, 1));
  return sample.ok ? accept(parts) : sample;
}

function parsePiece(piece: string): PatternPart | null {
  if (piece === '{year}') return { kind: 'year' };
  if (piece === '{yy}') return { kind: 'shortYear' };
  if (piece === '{month}') return { kind: 'month' };
  if (piece === '{n}') return { kind: 'count', width: 1 };
  const width = /^\{n:([1-9])\}$/.exec(piece)?.[1];
  if (width !== undefined) return { kind: 'count', width: Number(width) };
  return /[{}]/.test(piece) ? null : { kind: 'text', text: piece };
}

function fillPattern(pattern: RollPattern, day: NumberingDay, count: number): string {
  return pattern
    .map((part) => {
      if (part.kind === 'text') return part.text;
      if (part.kind === 'count') return String(count).padStart(part.width, '0');
      return fieldText(part.kind, day);
    })
    .join('');
}

function fieldText(kind: 'year' | 'shortYear' | 'month', day: NumberingDay): string {
  if (kind === 'month') return String(day.month).padStart(2, '0');
  const year = String(day.year).padStart(4, '0');
  return kind === 'year' ? year : year.slice(-2);
}

/**
 * The number after the highest of `used` that fits the pattern for this day; the first is 1. `used` holds every
 * number that was ever given, those of deleted rolls too, so none comes twice and gaps stay gaps. A number with
 * something behind it (`2026-014b`) counts as used as well.
 */
export function nextRollNumber(pattern: RollPattern, used: Iterable<string>, day: NumberingDay): string {
  const fits = new RegExp(
    `^${pattern.map((part) => (part.kind === 'count' ? '0*(\\d{1,9})' : escapeText(part, day))).join('')}`,
  );
  const taken = new Set<string>();
  let highest = 0;
  for (const number of used) {
    const folded = foldDigits(foldText(number));
    taken.add(folded);
    highest = Math.max(highest, Number(fits.exec(folded)?.[1] ?? 0));
  }
  let count = highest + 1;
  while (taken.has(foldText(fillPattern(pattern, day, count)))) count += 1;
  return fillPattern(pattern, day, count).trim();
}

function escapeText(part: Exclude<PatternPart, { kind: 'count' }>, day: NumberingDay): string {
  const text =
    part.kind === 'text' ? foldDigits(foldText(`|${part.text}|`)).slice(1, -1) : fieldText(part.kind, day);
  return text.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&');
}
