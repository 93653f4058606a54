import { useMemo, useState } from 'react';
import { type Filter, filtersOf, treeOfFilters } from '../../shared/domain/search/filters.ts';
import { parseSearch } from '../../shared/domain/search/parse-search.ts';
import { printSearch } from '../../shared/domain/search/print-search.ts';
import type { SearchMistake } from '../../shared/domain/search/search-tree.ts';

/** What stands in the box, read on the spot. */
export interface ReadSearch {
  readonly mistake: SearchMistake | null;
  /** The filters of the text, or of the last text without a mistake. */
  readonly filters: readonly Filter[];
}

/** Reads the text of the box; the filters of the last text without a mistake stay while there is one. */
export function useSearch(query: string): ReadSearch {
  const [last, setLast] = useState<readonly Filter[]>(NONE);
  const read = useMemo(() => parseSearch(query), [query]);
  const filters = useMemo(() => (read.ok ? filtersOf(read.tree) : null), [read]);
  if (filters !== null && filters !== last) setLast(filters);
  return { mistake: read.ok ? null : read.mistake, filters: filters ?? last };
}

const NONE: readonly Filter[] = [];

/** The text of a search that filters make. */
export function textOfFilters(filters: readonly Filter[]): string {
  return printSearch(treeOfFilters(filters));
}

/** The terms that filters ask for by themselves, each as it is typed: `stock:"Fenn 200"`. */
export function termsOf(filters: readonly Filter[]): ReadonlySet<string> {
  return new Set(
    filters.flatMap((filter) =>
      filter.kind === 'field' && !filter.not
        ? filter.values.map((value) => printSearch({ ...filter, values: [value] }))
        : [],
    ),
  );
}

/** Filters with one more term, or without it wherever they ask for it. */
export function toggleTerm(filters: readonly Filter[], term: string, on: boolean): readonly Filter[] {
  if (on) {
    const read = parseSearch(term);
    return read.ok ? [...filters, ...filtersOf(read.tree)] : filters;
  }
  return filters.flatMap((filter): readonly Filter[] => {
    if (filter.kind !== 'field' || filter.not) return [filter];
    const values = filter.values.filter((value) => printSearch({ ...filter, values: [value] }) !== term);
    return values.length === 0 ? [] : [{ ...filter, values }];
  });
}
