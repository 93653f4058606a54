import { keepPreviousData, useInfiniteQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { Output } from '../../shared/api/contract.ts';
import { facetName, type Facet } from '../../shared/api/methods/search-methods.ts';
import { useClients } from '../api/clients-context.tsx';

export type ShownAs = 'frames' | 'rolls' | 'pages';
type Found = Output<'search.find'>;

/** What a search has found, as far as it was fetched. */
export interface Hits {
  readonly first: Found | undefined;
  readonly hits: Found['hits'];
  readonly rolls: Found['rolls'];
  readonly pages: Found['pages'];
  readonly facets: readonly Facet[];
  readonly error: Error | null;
  readonly hasMore: boolean;
  readonly fetchMore: () => void;
}

const FACETS = facetName.options;
/** Found things fetched at once. Our choice: a few screens. */
const AT_ONCE = 100;

/** What a search finds, more of it fetched as it is looked at; the former answer stays until the next is there. */
export function useHits(query: string, shownAs: ShownAs, when: boolean): Hits {
  const { engine } = useClients();
  const answer = useInfiniteQuery({
    queryKey: ['search.find', { query, shownAs }],
    queryFn: ({ pageParam, signal }) =>
      engine.call(
        'search.find',
        {
          query,
          shownAs,
          limit: AT_ONCE,
          facets: pageParam === null ? [...FACETS] : [],
          ...(pageParam === null ? {} : { after: pageParam }),
        },
        { signal },
      ),
    initialPageParam: nothingYet(),
    getNextPageParam: (last) => last.next,
    enabled: when,
    placeholderData: keepPreviousData,
  });
  const { data, error, hasNextPage, isFetchingNextPage, fetchNextPage } = answer;
  return useMemo(() => {
    const stretches = data?.pages ?? [];
    return {
      first: stretches[0],
      hits: stretches.flatMap((each) => each.hits),
      rolls: stretches.flatMap((each) => each.rolls),
      pages: stretches.flatMap((each) => each.pages),
      facets: stretches[0]?.facets ?? [],
      error,
      hasMore: hasNextPage,
      fetchMore: () => {
        if (hasNextPage && !isFetchingNextPage) void fetchNextPage();
      },
    };
  }, [data, error, hasNextPage, isFetchingNextPage, fetchNextPage]);
}

/** The first stretch has nothing before it; said so that later ones may be text. */
function nothingYet(): string | null {
  return null;
}
