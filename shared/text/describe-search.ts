import { getField } from '../domain/search/search-fields.ts';
import type { FieldValue, MistakeReason, SearchTree } from '../domain/search/search-tree.ts';

const MISTAKES: Readonly<Record<MistakeReason, string>> = {
  quote_not_closed: 'the quotation mark is not closed',
  bracket_not_closed: 'the bracket is not closed',
  bracket_not_opened: 'this bracket was not opened',
  bracket_empty: 'there is nothing in the brackets',
  nothing_after_not: '“not” needs something after it; to find the word itself, put it in quotation marks',
  nothing_beside_or: '“or” needs something on both sides; to find the word itself, put it in quotation marks',
  field_unknown: 'there is no such field; to find a text with a colon, put it in quotation marks',
  value_missing: 'a value is missing after the colon',
  value_without_words: 'this has neither letter nor figure to look for',
  value_not_a_number: 'a number is needed here, such as 400, 100..400 or 400..',
  value_not_a_date: 'a date is needed here, such as 1998, 1998-07, 1998..1999-06 or "summer 1998"',
  value_not_a_choice: 'this is none of the values of the field',
  range_backwards: 'the range runs backwards',
  range_empty: 'the range has neither start nor end',
  search_too_long: 'the search is too long',
  search_too_deep: 'too many brackets within one another',
};

/** What is wrong with a search, in words. */
export function describeSearchMistake(reason: MistakeReason): string {
  return MISTAKES[reason];
}

function describeEnds(from: string | null, to: string | null, unit: string): string {
  if (from === to) return `${from}${unit}`;
  if (from === null) return `up to ${to}${unit}`;
  return to === null ? `from ${from}${unit}` : `${from} to ${to}${unit}`;
}

function describeValue(value: FieldValue, unit: string): string {
  switch (value.kind) {
    case 'text':
      return value.whole ? `“${value.text}”` : value.text;
    case 'choice':
      return value.choice;
    case 'between':
    case 'date':
      return describeEnds(value.from, value.to, '');
    case 'number':
      return describeEnds(value.from?.toString() ?? null, value.to?.toString() ?? null, unit);
  }
}

/** How a search is understood, in words: `box speed 100 to 400 ISO, and not (stock “Slow 25”)`. */
export function describeSearch(tree: SearchTree): string {
  switch (tree.kind) {
    case 'everything':
      return 'everything';
    case 'word':
      return `a word beginning with ${tree.text}`;
    case 'phrase':
      return `the words “${tree.text}”`;
    case 'field': {
      const { words, unit } = getField(tree.field);
      return `${words} ${tree.values.map((value) => describeValue(value, unit)).join(' or ')}`;
    }
    case 'not':
      return `not (${describeSearch(tree.part)})`;
    case 'all':
      return tree.parts
        .map((part) => (part.kind === 'any' ? `(${describeSearch(part)})` : describeSearch(part)))
        .join(', and ');
    case 'any':
      return tree.parts.map(describeSearch).join(', or ');
  }
}
