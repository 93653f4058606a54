import type { FieldName } from './search-fields.ts';

/**
 * One value of a field term.
 * `text`: beginnings of words, or the whole text when `whole`. `between`: a run in natural order (roll numbers).
 * `number`: both ends count, null is open. `date`: as typed, both ends count, null is open. `choice`: of a closed set.
 */
export type FieldValue =
  | { readonly kind: 'text'; readonly text: string; readonly whole: boolean }
  | { readonly kind: 'between'; readonly from: string | null; readonly to: string | null }
  | { readonly kind: 'number'; readonly from: number | null; readonly to: number | null }
  | { readonly kind: 'date'; readonly from: string | null; readonly to: string | null }
  | { readonly kind: 'choice'; readonly choice: string };

/** What a search asks for. `all` and `any` hold two parts or more, never one of their own kind. */
export type SearchTree =
  | { readonly kind: 'everything' }
  | { readonly kind: 'word'; readonly text: string }
  | { readonly kind: 'phrase'; readonly text: string }
  | { readonly kind: 'field'; readonly field: FieldName; readonly values: readonly FieldValue[] }
  | { readonly kind: 'not'; readonly part: SearchTree }
  | { readonly kind: 'all'; readonly parts: readonly SearchTree[] }
  | { readonly kind: 'any'; readonly parts: readonly SearchTree[] };

export type MistakeReason =
  | 'quote_not_closed'
  | 'bracket_not_closed'
  | 'bracket_not_opened'
  | 'bracket_empty'
  | 'nothing_after_not'
  | 'nothing_beside_or'
  | 'field_unknown'
  | 'value_missing'
  | 'value_without_words'
  | 'value_not_a_number'
  | 'value_not_a_date'
  | 'value_not_a_choice'
  | 'range_backwards'
  | 'range_empty'
  | 'search_too_long'
  | 'search_too_deep';

/** What is wrong with a search, where it stands (UTF-16 units), and what could stand there instead. */
export type SearchMistake = {
  readonly at: number;
  readonly length: number;
  readonly reason: MistakeReason;
  /** Replaces exactly the part pointed at; null when nothing is likely. */
  readonly suggestion: string | null;
};

/** `parts` as one tree of `kind`: parts of the same kind are opened, one part stands alone, none is everything. */
export function joinParts(kind: 'all' | 'any', parts: readonly SearchTree[]): SearchTree {
  const opened = parts.flatMap((part) => (part.kind === kind ? part.parts : [part]));
  const [first] = opened;
  if (first === undefined) return { kind: 'everything' };
  return opened.length === 1 ? first : { kind, parts: opened };
}
