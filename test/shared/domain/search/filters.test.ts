import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { draftOf, readDraft, readWordsDraft } from '../../../../shared/domain/search/filter-drafts.ts';
import { filtersOf, treeOfFilters } from '../../../../shared/domain/search/filters.ts';
import { parseSearch } from '../../../../shared/domain/search/parse-search.ts';
import { printSearch } from '../../../../shared/domain/search/print-search.ts';
import { SEARCH_FIELDS } from '../../../../shared/domain/search/search-fields.ts';
import type { SearchTree } from '../../../../shared/domain/search/search-tree.ts';
import { anyTree } from '../../../support/search-trees.ts';

function treeOf(text: string): SearchTree {
  const parsed = parseSearch(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.mistake.reason}`);
  return parsed.tree;
}

const kindsOf = (text: string) => filtersOf(treeOf(text)).map(({ kind }) => kind);

describe('a search as filters', () => {
  it('is the same search again, whatever it asks', () => {
    fc.assert(
      fc.property(anyTree, (tree) => {
        expect(treeOfFilters(filtersOf(tree))).toEqual(tree);
      }),
    );
  });

  it('shows words, fields, what is ruled out and alternatives', () => {
    expect(filtersOf(treeOf('boat not stock:fenn,slow (tag:a or "low tide")'))).toMatchObject([
      { kind: 'words', not: false },
      { kind: 'field', not: true, field: 'stock', values: [{ text: 'fenn' }, { text: 'slow' }] },
      { kind: 'any', not: false, parts: [{ field: 'tag' }, { part: { text: 'low tide' } }] },
    ]);
  });

  it('leaves as text what goes deeper than that', () => {
    expect(kindsOf('boat (tag:a or (b c))')).toEqual(['words', 'text']);
    expect(kindsOf('a b or c')).toEqual(['text']);
    expect(kindsOf('not (not a)')).toEqual(['text']);
    expect(kindsOf('not (a or b)')).toEqual(['any']);
  });

  it('has nothing to show of an empty search', () => {
    expect(filtersOf(treeOf('  '))).toEqual([]);
    expect(treeOfFilters([])).toEqual({ kind: 'everything' });
  });
});

const fieldNames = SEARCH_FIELDS.map(({ name }) => name);
const typed = fc.string({ unit: 'grapheme', maxLength: 14 });
const draft = fc.oneof(
  fc.record({ kind: fc.constant('text' as const), text: typed, whole: fc.boolean() }),
  fc.record({ kind: fc.constant('ends' as const), from: typed, to: typed }),
  fc.record({
    kind: fc.constant('ends' as const),
    from: fc.oneof(fc.integer().map(String), fc.constantFrom('1998', '', '../1999', 'summer 1998')),
    to: fc.oneof(fc.integer().map(String), fc.constantFrom('2001', '', '1999/..')),
  }),
  fc.record({ kind: fc.constant('choice' as const), choice: fc.oneof(typed, fc.constant('filed')) }),
);

describe('the fields of a filter', () => {
  it('give back the value that was put into them', () => {
    fc.assert(
      fc.property(anyTree, (tree) => {
        for (const filter of filtersOf(tree)) {
          if (filter.kind !== 'field') continue;
          for (const value of filter.values) {
            // Blanks that nobody can see are pulled together; the generated ones have none at their ends.
            if (JSON.stringify(value).match(/[\s\p{Zs}]{2,}|(?! )\s|\\/u)) continue;
            const read = readDraft(filter.field, draftOf(value));
            expect(read).toEqual({ ok: true, value });
          }
        }
      }),
    );
  });

  it('make only values that can be typed and read again, of whatever is put into them', () => {
    fc.assert(
      fc.property(fc.constantFrom(...fieldNames), draft, (field, values) => {
        const read = readDraft(field, values);
        if (!read.ok) return;
        const tree: SearchTree = { kind: 'field', field, values: [read.value] };
        expect(parseSearch(printSearch(tree))).toEqual({ ok: true, tree });
      }),
      { numRuns: 2000 },
    );
  });

  it('make only words that can be typed and read again', () => {
    fc.assert(
      fc.property(
        fc.oneof(typed, fc.constantFrom('or', 'NOT', 'stock:x', 'a (b', 'x"y')),
        fc.boolean(),
        (text, together) => {
          const tree = readWordsDraft(text, together);
          if (tree === null) return;
          expect(parseSearch(printSearch(tree))).toEqual({ ok: true, tree });
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('take text with a blank as a whole name, since it can only be typed in quotation marks', () => {
    expect(readDraft('stock', { kind: 'text', text: ' Fenn  200 ', whole: false })).toEqual({
      ok: true,
      value: { kind: 'text', text: 'Fenn 200', whole: true },
    });
  });

  it('say what is wrong with what was typed', () => {
    expect(readDraft('iso', { kind: 'ends', from: 'fast', to: '' })).toEqual({
      ok: false,
      reason: 'value_not_a_number',
    });
    expect(readDraft('date', { kind: 'ends', from: '2001', to: '1998' })).toEqual({
      ok: false,
      reason: 'range_backwards',
    });
    expect(readDraft('tag', { kind: 'text', text: ' – ', whole: false })).toMatchObject({ ok: false });
    expect(readDraft('page', { kind: 'ends', from: '', to: '' })).toEqual({
      ok: false,
      reason: 'value_missing',
    });
  });
});
