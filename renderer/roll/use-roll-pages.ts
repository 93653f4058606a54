import { useQueries } from '@tanstack/react-query';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Roll } from '../../shared/api/methods/film-methods.ts';
import { useClients } from '../api/clients-context.tsx';

/** The pages that a roll lies in, in the order of its binder; undefined until all have arrived. */
export function useRollPages(pages: Roll['pages']): readonly Page[] | undefined {
  const { engine } = useClients();
  const ids = [...new Set(pages.map(({ pageId }) => pageId))];
  return useQueries({
    queries: ids.map((id) => ({
      queryKey: ['pages.get', { id }],
      queryFn: async ({ signal }: { signal: AbortSignal }) => ({
        value: await engine.call('pages.get', { id }, { signal }),
      }),
    })),
    combine: allPages,
  });
}

/** Kept outside, so that the same answers give the same list. */
function allPages(
  answers: readonly { readonly data: { readonly value: Page } | undefined; readonly isError: boolean }[],
): readonly Page[] | undefined {
  const there = answers.flatMap(({ data }) => (data ? [data.value] : []));
  const waiting = answers.some(({ data, isError }) => !data && !isError);
  return waiting ? undefined : there.sort((a, b) => a.binderId - b.binderId || a.number - b.number);
}
