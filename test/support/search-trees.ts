import fc from 'fast-check';
import {
  findFieldStart,
  hasLetters,
  JOINING_WORDS,
  endsWord,
} from '../../shared/domain/search/search-signs.ts';
import { type FieldName, SEARCH_FIELDS } from '../../shared/domain/search/search-fields.ts';
import { type FieldValue, joinParts, type SearchTree } from '../../shared/domain/search/search-tree.ts';
import { foldWords } from '../../shared/domain/search/word-match.ts';

const sign = fc.oneof(
  fc.constantFrom(...'abzéŁøß日本語АΩ01289-–.\'’:,/;%_*^&"()“ \u0000'),
  fc.string({ unit: 'grapheme', minLength: 1, maxLength: 1 }),
);
const anyText = fc.string({ unit: sign, minLength: 1, maxLength: 12 });
const hasQuote = (text: string) => /["“”„\p{Cc}]/u.test(text);
const isWhole = (text: string) => !hasQuote(text) && text.trim() === text;
const isPlain = (text: string) => text !== '' && ![...text].some(endsWord);

const wordTree = anyText
  .filter(
    (text) =>
      isPlain(text) &&
      hasLetters(text) &&
      findFieldStart(text) === null &&
      !JOINING_WORDS.includes(text.toLowerCase()),
  )
  .map((text): SearchTree => ({ kind: 'word', text }));
const phraseTree = anyText
  .filter((text) => isWhole(text) && hasLetters(text))
  .map((text): SearchTree => ({ kind: 'phrase', text }));

const wholeText = anyText.filter((text) => isWhole(text) && foldWords(text) !== '');
const plainText = anyText.filter(
  (text) => isPlain(text) && !text.includes(',') && !text.includes('..') && foldWords(text) !== '',
);
const textValue = fc.oneof(
  wholeText.map((text): FieldValue => ({ kind: 'text', text, whole: true })),
  plainText.map((text): FieldValue => ({ kind: 'text', text, whole: false })),
);
const endText = fc.option(anyText.filter((text) => isWhole(text) && text !== ''));
const betweenValue = fc
  .tuple(endText, endText)
  .filter(([from, to]) => from !== null || to !== null)
  .map(([from, to]): FieldValue => ({ kind: 'between', from, to }));

const number = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((value) => value / 1000 + 0);
const numberValue = fc
  .tuple(fc.option(number), fc.option(number))
  .filter(([from, to]) => (from ?? to) !== null && !(from !== null && to !== null && from > to))
  .map(([from, to]): FieldValue => ({ kind: 'number', from, to }));

const year = fc.integer({ min: 1850, max: 2150 });
const dateText = (at: number) =>
  fc.constantFrom(
    `${at}`,
    `${at}-07`,
    `${at}-02-11`,
    `${at}~`,
    `summer ${at}`,
    `${at}-22`,
    `${at}/..`,
    `../${at}`,
  );
const dateValue = fc.oneof(
  year.chain(dateText).map((text): FieldValue => ({ kind: 'date', from: text, to: text })),
  year.chain(dateText).map((text): FieldValue => ({ kind: 'date', from: text, to: null })),
  year.chain(dateText).map((text): FieldValue => ({ kind: 'date', from: null, to: text })),
  fc
    .tuple(year, fc.integer({ min: 2, max: 40 }))
    .chain(([at, years]) => fc.tuple(dateText(at), dateText(at + years)))
    .map(([from, to]): FieldValue => ({ kind: 'date', from, to })),
);

function valueOf(field: (typeof SEARCH_FIELDS)[number]): fc.Arbitrary<FieldValue> {
  switch (field.kind) {
    case 'text':
      return textValue;
    case 'order':
      return fc.oneof(textValue, betweenValue);
    case 'number':
      return numberValue;
    case 'date':
      return dateValue;
    case 'choice':
      return fc.constantFrom(...field.choices).map((choice): FieldValue => ({ kind: 'choice', choice }));
  }
}

const fieldTree = fc
  .constantFrom(...SEARCH_FIELDS)
  .chain((field) =>
    fc
      .array(valueOf(field), { minLength: 1, maxLength: 3 })
      .map((values): SearchTree => ({ kind: 'field', field: field.name satisfies FieldName, values })),
  );

/** Trees of `leaf` under not, all and any, as the reader makes them. */
export function treesOf(leaf: fc.Arbitrary<SearchTree>): fc.Arbitrary<SearchTree> {
  const { tree } = fc.letrec<{ tree: SearchTree }>((tie) => ({
    tree: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      leaf,
      tie('tree').map((part): SearchTree => ({ kind: 'not', part })),
      fc.array(tie('tree'), { minLength: 2, maxLength: 3 }).map((parts) => joinParts('all', parts)),
      fc.array(tie('tree'), { minLength: 2, maxLength: 3 }).map((parts) => joinParts('any', parts)),
    ),
  }));
  return tree;
}

/** Any tree that can be typed. */
export const anyTree = treesOf(fc.oneof(wordTree, phraseTree, fieldTree)).filter(
  (tree) => JSON.stringify(tree).length < 800,
);
