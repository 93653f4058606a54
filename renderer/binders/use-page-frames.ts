import { useQueries } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Frame, Roll } from '../../shared/api/methods/film-methods.ts';
import { useClients } from '../api/clients-context.tsx';
import { lyingStrip, type LyingStrip } from '../film/lying-strip.ts';

/**
 * The strips of a page with everything that is drawn on their frames. What of it has not arrived yet is left away:
 * the page is there at once, its pencil marks a moment later.
 */
export function useLyingStrips(page: Page | null): readonly LyingStrip[] {
  const { engine } = useClients();
  const rollIds = useMemo(() => [...new Set((page?.strips ?? []).map((strip) => strip.rollId))], [page]);
  const rolls = useQueries({
    queries: rollIds.map((rollId) => ({
      queryKey: ['frames.ofRoll', { rollId }],
      queryFn: async ({ signal }: { signal: AbortSignal }) => ({
        value: await engine.call('frames.ofRoll', { rollId }, { signal }),
      }),
    })),
    combine: valuesOf,
  });
  const facts = useQueries({
    queries: rollIds.map((id) => ({
      queryKey: ['rolls.get', { id }],
      queryFn: async ({ signal }: { signal: AbortSignal }) => ({
        value: await engine.call('rolls.get', { id }, { signal }),
      }),
    })),
    combine: valuesOf,
  });
  return useMemo(() => {
    const known = new Map<number, Frame>();
    for (const frames of rolls) for (const frame of frames ?? []) known.set(frame.id, frame);
    const byId = new Map<number, Roll>();
    for (const roll of facts) if (roll) byId.set(roll.id, roll);
    return (page?.strips ?? []).map((strip) => {
      const stock = byId.get(strip.rollId)?.stock?.name;
      return lyingStrip(strip, known, stock === undefined ? [strip.roll] : [stock, strip.roll]);
    });
  }, [page, rolls, facts]);
}

/** The answers that have arrived. Kept outside, so that the same answers give the same list. */
function valuesOf<Value>(
  answers: readonly { readonly data: { readonly value: Value } | undefined }[],
): readonly (Value | undefined)[] {
  return answers.map(({ data }) => data?.value);
}
