import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import { type RawValue, readValue } from './read-value.ts';
import { type FieldName, getField } from './search-fields.ts';
import { endsWord, findFieldStart, hasLetters, JOINING_WORDS } from './search-signs.ts';
import type { FieldValue, MistakeReason, SearchTree } from './search-tree.ts';

/** A value as it stands in the fields of a filter while it is being typed. */
export type ValueDraft =
  | { readonly kind: 'text'; readonly text: string; readonly whole: boolean }
  | { readonly kind: 'ends'; readonly from: string; readonly to: string }
  | { readonly kind: 'choice'; readonly choice: string };

function figures(value: number | null): string {
  if (value === null) return '';
  return value.toFixed(9).replace(/\.?0+$/, '');
}

/** A value as it is put into the fields of a filter. */
export function draftOf(value: FieldValue): ValueDraft {
  switch (value.kind) {
    case 'text':
      return { kind: 'text', text: value.text, whole: value.whole };
    case 'choice':
      return { kind: 'choice', choice: value.choice };
    case 'number':
      return { kind: 'ends', from: figures(value.from), to: figures(value.to) };
    case 'date':
    case 'between':
      return { kind: 'ends', from: value.from ?? '', to: value.to ?? '' };
  }
}

/** The fields of a filter before anything was typed. */
export function emptyDraft(field: FieldName): ValueDraft {
  const { kind } = getField(field);
  if (kind === 'choice') return { kind: 'choice', choice: '' };
  return kind === 'number' || kind === 'date'
    ? { kind: 'ends', from: '', to: '' }
    : { kind: 'text', text: '', whole: false };
}

/** Text without the signs that a search cannot hold: quotation marks and signs that cannot be seen. */
function tidy(text: string): string {
  return text
    .replace(/["“”„\p{Cc}]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

/** Whether text can only be typed in quotation marks, and so means the whole name. */
function needsQuotes(text: string): boolean {
  return text.includes('..') || [...text].some((sign) => endsWord(sign) || sign === ',');
}

/** Text as if it stood in quotation marks, or not, in a search. */
function raw(text: string, isQuoted: boolean): RawValue {
  return { text, quoted: Array.from({ length: text.length }, () => isQuoted), hasQuotes: isQuoted };
}

function rawEnds(from: string, to: string): RawValue {
  const [first, last] = [raw(from, true), raw(to, true)];
  return {
    text: `${from}..${to}`,
    quoted: [...first.quoted, false, false, ...last.quoted],
    hasQuotes: true,
  };
}

/**
 * The value that stands in the fields of a filter. Text with blanks in it can only be a whole name; a range with two
 * like ends is one day or number.
 */
export function readDraft(field: FieldName, draft: ValueDraft): Checked<FieldValue, MistakeReason> {
  const known = getField(field);
  if (draft.kind === 'ends') {
    const [from, to] = [tidy(draft.from), tidy(draft.to)];
    const one = from === to && known.kind !== 'order';
    if (from === '' && to === '') return refuse('value_missing');
    const read = readValue(one ? raw(from, true) : rawEnds(from, to), known);
    return read.ok ? accept(read.value) : refuse(read.reason);
  }
  const typed = tidy(draft.kind === 'choice' ? draft.choice : draft.text);
  const whole = known.kind !== 'choice' && ((draft.kind === 'text' && draft.whole) || needsQuotes(typed));
  const read = readValue(raw(typed, whole), known);
  return read.ok ? accept(read.value) : refuse(read.reason);
}

/** The words of a filter as a part of a search: one word that may go on, or several that stand together; null for none. */
export function readWordsDraft(
  text: string,
  together: boolean,
): Extract<SearchTree, { kind: 'word' | 'phrase' }> | null {
  const tidied = tidy(text);
  if (!hasLetters(tidied)) return null;
  const plain =
    ![...tidied].some(endsWord) &&
    findFieldStart(tidied) === null &&
    !JOINING_WORDS.includes(tidied.toLowerCase());
  return plain && !together ? { kind: 'word', text: tidied } : { kind: 'phrase', text: tidied };
}
