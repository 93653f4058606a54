import { parsePartialDate } from '../date/partial-date.ts';
import { findNearestWord } from './nearest-word.ts';
import type { FieldKind, SearchField } from './search-fields.ts';
import type { FieldValue, MistakeReason } from './search-tree.ts';
import { foldWords } from './word-match.ts';

/** One value as typed, its signs each with whether it stood in quotation marks. */
export type RawValue = {
  readonly text: string;
  readonly quoted: readonly boolean[];
  readonly hasQuotes: boolean;
};

type ReadValue =
  | { readonly ok: true; readonly value: FieldValue }
  | { readonly ok: false; readonly reason: MistakeReason; readonly suggestion: string | null };

/** Two dots part a range, but not within an EDTF date such as `../1999`. */
function splitRange({ text, quoted }: RawValue): readonly [string, string] | null {
  const isStroke = (at: number) => text[at] === '/' && quoted[at] !== true;
  for (let at = text.indexOf('..'); at >= 0; at = text.indexOf('..', at + 1)) {
    if (quoted[at] === true || quoted[at + 1] === true) continue;
    if (isStroke(at - 1) || isStroke(at + 2)) continue;
    return [text.slice(0, at).trim(), text.slice(at + 2).trim()];
  }
  return null;
}

function refuse(reason: MistakeReason, suggestion: string | null = null): ReadValue {
  return { ok: false, reason, suggestion };
}

/** A choice as it is compared: blanks, hyphens and capitals do not count, so `on-hand` is `on hand`. */
function squeeze(text: string): string {
  return foldWords(text).replaceAll(' ', '');
}

function readNumber(text: string): number | null | 'wrong' {
  if (text === '') return null;
  const plain = text.replace(/^[−–]/, '-').replace(/^\+/, '');
  return /^-?\d{1,12}(?:\.\d{1,9})?$/.test(plain) ? Number(plain) + 0 : 'wrong';
}

function readNumbers(raw: RawValue): ReadValue {
  const range = splitRange(raw);
  const [from, to] = (range ?? [raw.text, raw.text]).map(readNumber);
  if (from === undefined || to === undefined || from === 'wrong' || to === 'wrong') {
    const figures = /-?\d+(?:[.,]\d+)?/.exec(raw.text)?.[0].replace(',', '.');
    return refuse('value_not_a_number', figures ?? null);
  }
  if (from === null && to === null) return refuse('range_empty');
  if (from !== null && to !== null && from > to) return refuse('range_backwards', `${to}..${from}`);
  return { ok: true, value: { kind: 'number', from, to } };
}

function readDates(raw: RawValue): ReadValue {
  const [from = '', to = ''] = splitRange(raw) ?? [raw.text, raw.text];
  if (from === '' && to === '') return refuse('range_empty');
  const [first, last] = [from, to].map((text) => (text === '' ? null : parsePartialDate(text)));
  if (first?.ok === false || last?.ok === false) {
    const year = /(?<!\d)(?:1[89]|2[01])\d\d(?!\d)/.exec(raw.text)?.[0];
    return refuse('value_not_a_date', year ?? null);
  }
  const earliest = first?.ok ? first.value.earliest : null;
  const latest = last?.ok ? last.value.latest : null;
  if (earliest !== null && latest !== null && earliest > latest) return refuse('range_backwards');
  return { ok: true, value: { kind: 'date', from: from || null, to: to || null } };
}

function readChoice(raw: RawValue, field: SearchField): ReadValue {
  const sought = squeeze(raw.text);
  const choice = field.choices.find((each) => squeeze(each) === sought);
  if (choice !== undefined) return { ok: true, value: { kind: 'choice', choice } };
  return refuse('value_not_a_choice', findNearestWord(raw.text, field.choices));
}

function readText(raw: RawValue): ReadValue {
  const text = raw.text.trim();
  if (foldWords(text) === '') return refuse('value_without_words');
  return { ok: true, value: { kind: 'text', text, whole: raw.hasQuotes } };
}

function readOrder(raw: RawValue): ReadValue {
  const range = splitRange(raw);
  if (range === null) return readText(raw);
  const [from, to] = range;
  if (from === '' && to === '') return refuse('range_empty');
  return { ok: true, value: { kind: 'between', from: from || null, to: to || null } };
}

const READERS: Readonly<Record<FieldKind, (raw: RawValue, field: SearchField) => ReadValue>> = {
  text: readText,
  order: readOrder,
  number: readNumbers,
  date: readDates,
  choice: readChoice,
};

/** What a typed value of `field` means, or why it means nothing and what could stand there. */
export function readValue(raw: RawValue, field: SearchField): ReadValue {
  if (raw.text.trim() === '') return refuse('value_missing', field.choices[0] ?? null);
  return READERS[field.kind](raw, field);
}
