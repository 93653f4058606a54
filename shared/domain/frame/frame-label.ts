import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import { compareNatural } from '../numbering/natural-order.ts';
import { foldDigits } from '../text/digits.ts';

/**
 * The label printed on the film's edge, taken apart. `number` is -1 for `00`, else 0 to 999. `letter` is the
 * half-step letter of the film (`12A`) or the side of a sheet-film holder (`3B`), or empty.
 */
export interface FrameLabel {
  /** The normal form, in which labels are stored and compared: `7`, `00`, `12A`. */
  readonly text: string;
  readonly number: number;
  readonly letter: string;
}

export type FrameLabelReason =
  /** Nothing was typed. */
  | 'label_empty'
  /** Not a number with at most one letter behind it. */
  | 'label_not_understood'
  /** Three or more zeros: neither `0` nor `00`. */
  | 'label_zeros'
  /** Above 999. Our choice: no film has so many frames, and scanner counters begin there. */
  | 'label_too_high';

/** How the labels of a roll run: film counts up (00, 0, 1, 2 …); sheet holders have two sides (1A, 1B, 2A …). */
export type LabelKind = 'film' | 'sheets';

const DOUBLE_ZERO = -1;
const HIGHEST = 999;
/** One number and the letters A to Z behind it. */
const PLACES_PER_NUMBER = 27;
const LABEL = /^(?:h|holder ?|#|no\.? ?)?([0-9]+)([A-Z]?)$/i;

/**
 * Reads a label as it stands on the film, in a file name or in a note: `12A`, `12a`, `07` (the leading zero of a
 * file name), `#7`, `h03B` and `holder 03B` (sheet film: holder and side). `0` and `00` are two labels.
 */
export function parseFrameLabel(text: string): Checked<FrameLabel, FrameLabelReason> {
  const plain = foldDigits(text.normalize('NFKC')).trim();
  if (plain === '') return refuse('label_empty');
  const [, digits, letter] = LABEL.exec(plain) ?? [];
  if (digits === undefined || letter === undefined) return refuse('label_not_understood');
  if (/^0{3,}$/.test(digits)) return refuse('label_zeros');
  if (digits.replace(/^0+/, '').length > String(HIGHEST).length) return refuse('label_too_high');
  return accept(frameLabel(digits === '00' ? DOUBLE_ZERO : Number(digits), letter.toUpperCase()));
}

/** The label of `number` (-1 for `00`, else 0 to 999) and `letter` (A to Z or empty) with its normal form. */
export function frameLabel(number: number, letter = ''): FrameLabel {
  return { text: formatFrameLabel({ number, letter }), number, letter };
}

/** The normal form of a label given by its parts. */
function formatFrameLabel(label: Pick<FrameLabel, 'number' | 'letter'>): string {
  return `${label.number === DOUBLE_ZERO ? '00' : label.number}${label.letter}`;
}

/** The normal form of a label as written: `07` gives `7`, `h03b` gives `3B`. */
export function normalizeFrameLabel(text: string): Checked<string, FrameLabelReason> {
  const label = parseFrameLabel(text);
  return label.ok ? accept(label.value.text) : label;
}

function placeOf(label: FrameLabel): number {
  const letter = label.letter === '' ? 0 : label.letter.charCodeAt(0) - 'A'.charCodeAt(0) + 1;
  return (label.number - DOUBLE_ZERO) * PLACES_PER_NUMBER + letter;
}

/**
 * Where a label lies along the film, as a whole number to sort by: 00 < 00A < 0 < 0A < 1 < 1A < 2 … 37A.
 * No two normal labels share a rank. Null for text that is no label.
 * Source of the order: edge numbers step by half frames, n, nA, n+1 (DX edge code repeats each half frame, ISO 1007
 * as described in US patent 4965628; that the eye-readable half step is "A": from memory).
 */
export function findFrameLabelRank(text: string): number | null {
  const label = parseFrameLabel(text);
  return label.ok ? placeOf(label.value) : null;
}

/** Order of two labels along the film: -1, 0 or 1. Text that is no label comes last, in natural order. */
export function compareFrameLabels(a: string, b: string): number {
  const left = findFrameLabelRank(a);
  const right = findFrameLabelRank(b);
  if (left !== null && right !== null) return Math.sign(left - right);
  if (left === null && right === null) return compareNatural(a, b);
  return left === null ? 1 : -1;
}

/**
 * The label `steps` frames further on (back when negative), or null where the labels end (before 00, above 999).
 * A film keeps its letter, since a camera that missed the mark misses it on every frame: 12A, 13A, 14A.
 * Sheets turn the holder: 1A, 1B, 2A; a sheet label without a side counts holders.
 */
export function findLabelAfter(
  label: FrameLabel,
  steps: number,
  kind: LabelKind = 'film',
): FrameLabel | null {
  const turnsSides = kind === 'sheets' && (label.letter === 'A' || label.letter === 'B');
  const place = turnsSides ? label.number * 2 + (label.letter === 'B' ? 1 : 0) + steps : label.number + steps;
  const next = turnsSides
    ? frameLabel(Math.floor(place / 2), place % 2 === 0 ? 'A' : 'B')
    : frameLabel(place, label.letter);
  const lowest = turnsSides ? 0 : DOUBLE_ZERO;
  return next.number < lowest || next.number > HIGHEST ? null : next;
}

/** The normal labels of `count` frames in a row from `first` on; fewer where the labels end at 999. */
export function listLabelsFrom(
  first: FrameLabel,
  count: number,
  kind: LabelKind = 'film',
): readonly string[] {
  return Array.from({ length: count }, (_, at) => findLabelAfter(first, at, kind))
    .filter((label) => label !== null)
    .map((label) => label.text);
}
