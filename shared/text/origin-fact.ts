/** What a line of the card is about, for those who lead from it to the thing. */
export type OriginKey =
  | 'roll'
  | 'lies'
  | 'exposure'
  | 'taken'
  | 'place'
  | 'camera'
  | 'stock'
  | 'outing'
  | 'development'
  | 'developer'
  | 'bath'
  | 'scans'
  | 'tags'
  | 'faults'
  | 'note';

/** One line of the card of a frame; `known` is false where it says that nobody wrote it down. */
export interface OriginFact {
  readonly key: OriginKey;
  readonly label: string;
  readonly value: string;
  readonly details: readonly string[];
  readonly known: boolean;
}

/** A line of the card; without a value its first detail takes that place, without any it says `unknown`. */
export function fact(
  key: OriginKey,
  label: string,
  value: string | null,
  details: readonly (string | null)[],
  unknown: string,
): OriginFact {
  const said = details.filter((detail) => detail !== null && detail !== '').map(String);
  if (value !== null && value !== '') return { key, label, value, details: said, known: true };
  const [first, ...others] = said;
  return first === undefined
    ? { key, label, value: unknown, details: [], known: false }
    : { key, label, value: first, details: others, known: true };
}

/** A number with one figure after the point, which a whole number does without. */
export function tenths(value: number): string {
  return String(Math.round(value * 10) / 10).replace('-', '−');
}
