import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';

/** What the bar code on a 135 magazine says. */
export type MagazineCode = {
  /** The manufacturer's own digit, 0 to 9; its meaning is not public. */
  readonly prefix: number;
  readonly dx: DxNumber;
  /** 24×36 exposures; null for a length that is not standard. */
  readonly exposures: number | null;
};

/** A film's DX number, `115-4`: seven bits and four bits, as they stand in the bar code along the film's edge. */
export type DxNumber = { readonly part1: number; readonly part2: number };

/**
 * Last digit of the bar code and the exposures it stands for; 7 is any other length.
 * Source: liquisearch.com/dx_number/dx_barcode.
 */
const EXPOSURES_BY_DIGIT: Readonly<Record<string, number>> = {
  '1': 12,
  '2': 20,
  '3': 24,
  '4': 36,
  '5': 48,
  '6': 60,
  '0': 72,
};

const OTHER_LENGTH_DIGIT = '7';

/** The four middle digits are 16 × part 1 + part 2. Source: liquisearch.com/dx_number/dx_barcode (115-4 ↔ 1844). */
const PART1_STEP = 16;

/** Part 1 has seven bits. Source: DX encoding, after US patent 4965628. */
const PART1_MOST = 2 ** 7 - 1;

/**
 * Reads the six digits beside the bar code of a magazine, spaces and hyphens allowed: `017563` is DX 109-12 with 24
 * exposures.
 */
export function parseMagazineCode(
  text: string,
): Checked<MagazineCode, 'dx_not_six_digits' | 'dx_out_of_range' | 'dx_length_unknown'> {
  const digits = /^(?<prefix>\d)(?<number>\d{4})(?<length>\d)$/.exec(text.replaceAll(/[\s-]/g, ''))?.groups;
  if (!digits) return refuse('dx_not_six_digits');
  const number = Number(digits['number']);
  const part1 = Math.floor(number / PART1_STEP);
  if (part1 > PART1_MOST) return refuse('dx_out_of_range');
  const length = digits['length'] ?? '';
  const exposures = EXPOSURES_BY_DIGIT[length];
  if (exposures === undefined && length !== OTHER_LENGTH_DIGIT) return refuse('dx_length_unknown');
  return accept({
    prefix: Number(digits['prefix']),
    dx: { part1, part2: number % PART1_STEP },
    exposures: exposures ?? null,
  });
}

/** The six digits of a magazine's bar code. A length that has no digit of its own gets the one for other lengths. */
export function formatMagazineCode(code: MagazineCode): string {
  const number = String(PART1_STEP * code.dx.part1 + code.dx.part2).padStart(4, '0');
  const length =
    Object.entries(EXPOSURES_BY_DIGIT).find(([, exposures]) => exposures === code.exposures)?.[0] ??
    OTHER_LENGTH_DIGIT;
  return `${String(code.prefix)}${number}${length}`;
}

/** Reads a DX number: `109-12`. Part 1 from 0 to 127, part 2 from 0 to 15. */
export function parseDxNumber(text: string): Checked<DxNumber, 'dx_unreadable' | 'dx_out_of_range'> {
  const parts = /^(?<part1>\d{1,3})\s*[-–]\s*(?<part2>\d{1,2})$/.exec(text.trim())?.groups;
  if (!parts) return refuse('dx_unreadable');
  const part1 = Number(parts['part1']);
  const part2 = Number(parts['part2']);
  return part1 <= PART1_MOST && part2 < PART1_STEP ? accept({ part1, part2 }) : refuse('dx_out_of_range');
}

/** `109-12` */
export function formatDxNumber(dx: DxNumber): string {
  return `${String(dx.part1)}-${String(dx.part2)}`;
}
