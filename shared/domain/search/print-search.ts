import { endsWord, JOINING_WORDS } from './search-signs.ts';
import type { FieldValue, SearchTree } from './search-tree.ts';

function needsQuotes(text: string): boolean {
  return [...text].some((sign) => endsWord(sign) || sign === ',');
}

/** One end of a range; quoted where its own dots or strokes could be taken for the range's. */
function end(text: string | null): string {
  if (text === null) return '';
  const parted = text.includes('..') || /^[./]|[./]$/.test(text);
  return needsQuotes(text) || parted ? `"${text}"` : text;
}

/** A number without an exponent, which the search language does not read. */
function figures(value: number | null): string {
  if (value === null) return '';
  return value.toFixed(9).replace(/\.?0+$/, '');
}

/** One value of a field term as it is typed. */
function printValue(value: FieldValue): string {
  switch (value.kind) {
    case 'text':
      return value.whole ? `"${value.text}"` : value.text;
    case 'choice':
      return needsQuotes(value.choice) ? `"${value.choice}"` : value.choice;
    case 'number':
      return value.from === value.to ? figures(value.from) : `${figures(value.from)}..${figures(value.to)}`;
    case 'date':
      if (value.from === value.to) return end(value.from);
      return `${end(value.from)}..${end(value.to)}`;
    case 'between':
      return `${end(value.from)}..${end(value.to)}`;
  }
}

/** A search as it is typed; reading it again gives the same tree. */
export function printSearch(tree: SearchTree): string {
  switch (tree.kind) {
    case 'everything':
      return '';
    case 'word':
      return JOINING_WORDS.includes(tree.text.toLowerCase()) ? `"${tree.text}"` : tree.text;
    case 'phrase':
      return `"${tree.text}"`;
    case 'field':
      return `${tree.field}:${tree.values.map(printValue).join(',')}`;
    case 'not':
      return `not ${inBrackets(tree.part, ['all', 'any'])}`;
    case 'all':
      return tree.parts.map((part) => inBrackets(part, ['any'])).join(' ');
    case 'any':
      return tree.parts.map(printSearch).join(' or ');
  }
}

function inBrackets(tree: SearchTree, kinds: readonly string[]): string {
  return kinds.includes(tree.kind) ? `(${printSearch(tree)})` : printSearch(tree);
}
