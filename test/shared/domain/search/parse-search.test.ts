import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseSearch } from '../../../../shared/domain/search/parse-search.ts';
import { printSearch } from '../../../../shared/domain/search/print-search.ts';
import type { SearchTree } from '../../../../shared/domain/search/search-tree.ts';
import { anyTree } from '../../../support/search-trees.ts';

function treeOf(text: string): SearchTree {
  const parsed = parseSearch(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.mistake.reason} at ${parsed.mistake.at}`);
  return parsed.tree;
}

function mistakeOf(text: string) {
  const parsed = parseSearch(text);
  if (parsed.ok) throw new Error(`${text} was understood`);
  const { at, length, reason, suggestion } = parsed.mistake;
  return { reason, marked: text.slice(at, at + length), suggestion };
}

const word = (text: string): SearchTree => ({ kind: 'word', text });

// Expected trees are written down by hand from the rules of the language in DEVELOPERS.md and parseSearch.
describe('parseSearch', () => {
  it('takes words beside each other as all needed', () => {
    expect(treeOf('harbour  boat')).toEqual({ kind: 'all', parts: [word('harbour'), word('boat')] });
  });

  it('binds "or" less tightly than words beside each other', () => {
    expect(treeOf('a b or not c')).toEqual({
      kind: 'any',
      parts: [
        { kind: 'all', parts: [word('a'), word('b')] },
        { kind: 'not', part: word('c') },
      ],
    });
  });

  it('lets brackets change that', () => {
    expect(treeOf('a (b or c)')).toEqual({
      kind: 'all',
      parts: [word('a'), { kind: 'any', parts: [word('b'), word('c')] }],
    });
  });

  it('reads values of every kind', () => {
    expect(treeOf('iso:100..400,800.. stock:"Slow 25",fast date:1998..1999-06 state:on-hand')).toEqual({
      kind: 'all',
      parts: [
        {
          kind: 'field',
          field: 'iso',
          values: [
            { kind: 'number', from: 100, to: 400 },
            { kind: 'number', from: 800, to: null },
          ],
        },
        {
          kind: 'field',
          field: 'stock',
          values: [
            { kind: 'text', text: 'Slow 25', whole: true },
            { kind: 'text', text: 'fast', whole: false },
          ],
        },
        { kind: 'field', field: 'date', values: [{ kind: 'date', from: '1998', to: '1999-06' }] },
        { kind: 'field', field: 'state', values: [{ kind: 'choice', choice: 'on hand' }] },
      ],
    });
  });

  it('keeps an open EDTF date whole', () => {
    expect(treeOf('date:../1999')).toEqual({
      kind: 'field',
      field: 'date',
      values: [{ kind: 'date', from: '../1999', to: '../1999' }],
    });
  });

  it('passes over signs without letters', () => {
    expect(treeOf('– harbour & ""')).toEqual(word('harbour'));
  });

  it('takes a time of day for a word', () => {
    expect(treeOf('12:30')).toEqual(word('12:30'));
  });

  it.each([
    ['stok:halde', 'field_unknown', 'stok', 'stock'],
    ['see http://here', 'field_unknown', 'http://here', '"http://here"'],
    ['boat stock:', 'value_missing', 'stock:', null],
    ['iso:fast', 'value_not_a_number', 'fast', null],
    ['iso:400asa', 'value_not_a_number', '400asa', '400'],
    ['iso:400..100', 'range_backwards', '400..100', '100..400'],
    ['iso:..', 'range_empty', '..', null],
    ['date:yesterday', 'value_not_a_date', 'yesterday', null],
    ['date:1999..1998', 'range_backwards', '1999..1998', null],
    ['state:fild', 'value_not_a_choice', 'fild', 'filed'],
    ['state:hand', 'value_not_a_choice', 'hand', null],
    ['"red boat', 'quote_not_closed', '"red boat', '"red boat"'],
    ['(a or b', 'bracket_not_closed', '(', ''],
    ['a) b', 'bracket_not_opened', ')', ''],
    ['a ()', 'bracket_empty', '()', ''],
    ['a not', 'nothing_after_not', 'not', '"not"'],
    ['a or', 'nothing_beside_or', 'or', '"or"'],
    ['or a', 'nothing_beside_or', 'or', '"or"'],
    ['tag:-', 'value_without_words', '-', null],
  ])('points at the mistake in %s', (text, reason, marked, suggestion) => {
    expect(mistakeOf(text)).toEqual({ reason, marked, suggestion });
  });

  it('reads again what it printed', () => {
    fc.assert(
      fc.property(anyTree, (tree) => {
        expect(parseSearch(printSearch(tree))).toEqual({ ok: true, tree });
      }),
      { numRuns: 1000 },
    );
  });

  it('answers any text with a tree or a mistake inside it', () => {
    const piece = fc.constantFrom(
      '(',
      ')',
      '"',
      '“',
      ':',
      ',',
      '..',
      'not ',
      'or ',
      'iso:',
      'date:',
      'stock:',
      'state:',
      '-',
      ' ',
      '\u0000',
      '/',
      'é',
      '日本',
    );
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc
        .array(fc.oneof(piece, fc.string({ maxLength: 4 })), { maxLength: 30 })
        .map((parts) => parts.join('')),
    );
    const isAnswered = fc.property(text, (given) => {
      const parsed = parseSearch(given);
      if (parsed.ok) return isDeepStrictEqual(parseSearch(printSearch(parsed.tree)), parsed);
      const { at, length } = parsed.mistake;
      return at >= 0 && length > 0 && at + length <= given.length;
    });
    expect(() => fc.assert(isAnswered, { numRuns: 1200 })).not.toThrow();
  });

  it('refuses brackets beyond any sense instead of running out of stack', () => {
    expect(mistakeOf('('.repeat(900)).reason).toBe('search_too_deep');
  });
});
