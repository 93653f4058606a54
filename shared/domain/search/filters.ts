import type { FieldName } from './search-fields.ts';
import { type FieldValue, joinParts, type SearchTree } from './search-tree.ts';

/** One thing asked for, or ruled out: words, or a field with its values, of which any will do. */
export type SimpleFilter =
  | {
      readonly kind: 'words';
      readonly not: boolean;
      readonly part: Extract<SearchTree, { kind: 'word' | 'phrase' }>;
    }
  | {
      readonly kind: 'field';
      readonly not: boolean;
      readonly field: FieldName;
      readonly values: readonly FieldValue[];
    };

/**
 * A part of a search that must hold, as a filter. `any`: one of several will do (or, with `not`, none of them).
 * `text`: more than filters can show; it stays as it is typed.
 */
export type Filter =
  | SimpleFilter
  | { readonly kind: 'any'; readonly not: boolean; readonly parts: readonly SimpleFilter[] }
  | { readonly kind: 'text'; readonly tree: SearchTree };

function simpleFilterOf(tree: SearchTree): SimpleFilter | null {
  const not = tree.kind === 'not';
  const part = not ? tree.part : tree;
  if (part.kind === 'word' || part.kind === 'phrase') return { kind: 'words', not, part };
  if (part.kind === 'field') return { kind: 'field', not, field: part.field, values: part.values };
  return null;
}

function filterOf(tree: SearchTree): Filter {
  const simple = simpleFilterOf(tree);
  if (simple !== null) return simple;
  const not = tree.kind === 'not';
  const part = not ? tree.part : tree;
  if (part.kind !== 'any') return { kind: 'text', tree };
  const parts = part.parts.map(simpleFilterOf);
  const shown = parts.filter((each) => each !== null);
  return shown.length === parts.length ? { kind: 'any', not, parts: shown } : { kind: 'text', tree };
}

/** A search as filters that must all hold; what they cannot show is there as text, so nothing is ever left out. */
export function filtersOf(tree: SearchTree): readonly Filter[] {
  if (tree.kind === 'everything') return [];
  return (tree.kind === 'all' ? tree.parts : [tree]).map(filterOf);
}

/** One filter as a part of a search. */
export function treeOfFilter(filter: Filter): SearchTree {
  if (filter.kind === 'text') return filter.tree;
  const part: SearchTree =
    filter.kind === 'any'
      ? joinParts('any', filter.parts.map(treeOfFilter))
      : filter.kind === 'words'
        ? filter.part
        : { kind: 'field', field: filter.field, values: filter.values };
  return filter.not ? { kind: 'not', part } : part;
}

/** The search that filters make; the one they were made of when none was changed. */
export function treeOfFilters(filters: readonly Filter[]): SearchTree {
  return joinParts('all', filters.map(treeOfFilter));
}
