import { foldDigits } from '../text/digits.ts';
import type { Remainder } from './name-claims.ts';
import { take } from './name-claims.ts';
import { ROLL_PATTERN, isCounterWord } from './name-words.ts';

/** The roll that a name gives, what is left of the name, and what speaks against it. */
export interface RollFound {
  readonly roll: string | null;
  readonly rest: Remainder;
  readonly doubt: string | null;
}

const YEAR_AND_ROLL = /(?<![\p{L}\p{N}])((?:19|20)\d\d-R\d+)(?![\p{L}\p{N}])/u;
const COUNTED_ROLL = /第(\d+)(?:巻|卷|本)/u;
const SHORT_ROLL = /^R(\d{2,6})(?=[-_ ]+\d{1,3}(?!\d))/u;

/**
 * Finds the roll of a name where a word or a well-known build gives it: `roll_036`, `2019-R30`, `R0123-07`, `第12巻`;
 * or `known`, the number of the roll at hand, at the start of the name.
 */
export function findRollWord(rest: Remainder, known: string | null): RollFound {
  const own = known === null ? null : takeKnown(rest, known);
  if (own !== null) return own;
  const found = take(rest, YEAR_AND_ROLL) ?? take(rest, ROLL_PATTERN) ?? take(rest, SHORT_ROLL);
  if (found !== null) return { roll: found.groups[0] ?? null, rest: found.rest, doubt: null };
  const counted = take(rest, COUNTED_ROLL);
  if (counted === null) return { roll: null, rest, doubt: null };
  return {
    roll: counted.groups[0] ?? null,
    rest: counted.rest,
    doubt: 'The word for the roll also means a volume.',
  };
}

function takeKnown(rest: Remainder, known: string): RollFound | null {
  const plain = foldDigits(known.normalize('NFKC'));
  // A number of one or two figures alone is too easily a frame.
  if (plain.length < 3) return null;
  // A slash cannot be in a file name; people write a hyphen or an underscore for it.
  const text = plain.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/\//g, '[-_ ]');
  const found = take(rest, new RegExp(`^(${text})(?=[-_. ]|$)`, 'iu'));
  return found && { roll: known, rest: found.rest, doubt: null };
}

/** A number that a lab gives: the order, and the position of the picture in it. */
export interface LabNumber {
  readonly what: string;
  readonly roll: string;
  readonly position: number;
}

/**
 * Splits a lab's file name: `000012340001` (order 00001234, position 1), `12340007`, `R1-01234-0012`, `AA012`.
 * Null for other names. Source of the builds: the names in names.tsv, group "lab"; no published description was found.
 */
export function splitLabNumber(stem: string): LabNumber | null {
  const [, order, position] =
    /^[A-Z]\d-(\d{4,})-(\d{4})$/.exec(stem) ?? /^(\d{4,10})(\d{4})$/.exec(stem) ?? [];
  if (order !== undefined && position !== undefined) {
    return { what: 'Order', roll: order, position: Number(position) };
  }
  const [, batch = '', count = ''] = /^([A-Z]{2,3})(\d{3})$/.exec(stem) ?? [];
  return batch === '' || isCounterWord(batch)
    ? null
    : { what: 'Batch', roll: batch, position: Number(count) };
}
