import { foldDigits } from '../text/digits.ts';
import { foldText } from '../text/fold.ts';

function compareCodePoints(a: string, b: string): number {
  const left = [...a];
  const right = [...b];
  for (let at = 0; at < Math.min(left.length, right.length); at += 1) {
    const difference = (left[at]?.codePointAt(0) ?? 0) - (right[at]?.codePointAt(0) ?? 0);
    if (difference !== 0) return Math.sign(difference);
  }
  return Math.sign(left.length - right.length);
}

/** Runs of digits have no upper length, so they compare as text: more digits is more, else digit by digit. */
function compareDigits(a: string, b: string): number {
  const left = a.replace(/^0+/, '');
  const right = b.replace(/^0+/, '');
  if (left.length !== right.length) return Math.sign(left.length - right.length);
  return compareCodePoints(left, right);
}

function compareParts(a: readonly string[], b: readonly string[]): number {
  for (let at = 0; at < Math.min(a.length, b.length); at += 1) {
    const left = a[at] ?? '';
    const right = b[at] ?? '';
    const leftIsNumber = /^\d/.test(left);
    const rightIsNumber = /^\d/.test(right);
    if (leftIsNumber !== rightIsNumber) return leftIsNumber ? -1 : 1;
    const order = leftIsNumber ? compareDigits(left, right) : compareCodePoints(left, right);
    if (order !== 0) return order;
  }
  return Math.sign(a.length - b.length);
}

function partsOf(text: string): readonly string[] {
  return foldDigits(foldText(text)).match(/\d+|\D+/g) ?? [];
}

/**
 * Order of two names as a person counts: `scan2` before `scan10`, `R2` before `r10`, whatever the system, its
 * language or its version. Names that differ only in case, accents or leading zeros stay apart, in a fixed order.
 * Gives -1, 0 or 1; 0 only for the same text.
 */
export function compareNatural(a: string, b: string): number {
  return compareParts(partsOf(a), partsOf(b)) || compareCodePoints(a, b);
}
