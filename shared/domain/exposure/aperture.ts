import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';

/**
 * Marks of whole stops and the power of √2 each stands for. The exact series 2^(Av/2) is arithmetic; the marks are
 * common practice.
 */
const WHOLE_STOPS: readonly (readonly [mark: number, apertureValue: number])[] = [
  [1, 0],
  [1.4, 1],
  [2, 2],
  [2.8, 3],
  [4, 4],
  [5.6, 5],
  [8, 6],
  [11, 7],
  [16, 8],
  [22, 9],
  [32, 10],
  [45, 11],
  [64, 12],
  [90, 13],
  [128, 14],
];

/** The f-number that a mark stands for: 11 → 11.314. A mark between whole stops stands for itself. */
export function exactFNumber(mark: number): number {
  const stop = WHOLE_STOPS.find(([whole]) => whole === mark);
  return stop ? 2 ** (stop[1] / 2) : mark;
}

const APERTURE = /^(?:[fƒ]\s*\/?\s*|1\s*:\s*)?(?<number>\d+(?:[.,]\d+)?)$/i;

/** Reads an aperture as marked: `f/5.6`, `f5,6`, `1:5.6`, `5.6`. From 0.5 to 1000 (a pinhole). */
export function parseAperture(
  text: string,
): Checked<number, 'aperture_unreadable' | 'aperture_out_of_range'> {
  const digits = APERTURE.exec(text.trim())?.groups?.['number'];
  if (digits === undefined) return refuse('aperture_unreadable');
  const fNumber = Number(digits.replace(',', '.'));
  return fNumber >= 0.5 && fNumber <= 1000 ? accept(fNumber) : refuse('aperture_out_of_range');
}

/** `f/5.6`, to two decimals at most. */
export function formatAperture(fNumber: number): string {
  return `f/${String(Math.round(fNumber * 100) / 100)}`;
}
