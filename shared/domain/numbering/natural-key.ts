import { foldDigits } from '../text/digits.ts';
import { foldText } from '../text/fold.ts';

/** Ends the compared part of a key. Lower than any sign of a name, so that a name sorts before its continuations. */
const END = '\u0001';
/** Starts a number within a key: numbers sort before letters. */
const NUMBER = '\u0002';

/**
 * A text that sorts by code point as `compareNatural` sorts the name it was made of: for the database, which knows no
 * natural order. Numbers carry their length before their digits, leading zeros count last.
 */
export function naturalKey(name: string): string {
  const parts = foldDigits(foldText(name)).match(/\d+|\D+/g) ?? [];
  const key = parts.map((part) => {
    if (!/^\d/.test(part)) return part;
    const digits = part.replace(/^0+/, '');
    return `${NUMBER}${String(digits.length).padStart(4, '0')}${digits}`;
  });
  return `${key.join('')}${END}${name}`;
}
