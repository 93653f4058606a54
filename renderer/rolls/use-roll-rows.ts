import { useQueries } from '@tanstack/react-query';
import { useCallback, useMemo, useState } from 'react';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { useClients } from '../api/clients-context.tsx';

/** Rolls that are fetched at once. Our choice: a screen of rows and what lies just beyond it. */
const WINDOW = 100;

export interface RollRows {
  /** The row at an index of the order, undefined while it is on its way. */
  readonly rowAt: (index: number) => RollRow | undefined;
  /** Told which rows are looked at. */
  readonly onVisible: (first: number, last: number) => void;
}

/** The rows of a long order of rolls: only the windows that are looked at are fetched, and then kept. */
export function useRollRows(ids: readonly number[]): RollRows {
  const { engine } = useClients();
  const [seen, setSeen] = useState({ first: 0, last: 0 });
  const windows = useMemo(() => windowsOf(ids, seen.first, seen.last), [ids, seen]);
  const rows = useQueries({
    queries: windows.map((wanted) => ({
      queryKey: ['rolls.rows', { ids: wanted }],
      queryFn: async ({ signal }: { signal: AbortSignal }) => ({
        value: await engine.call('rolls.rows', { ids: wanted }, { signal }),
      }),
    })),
    combine: rowsById,
  });
  const rowAt = useCallback((index: number) => rows.get(ids[index] ?? 0), [rows, ids]);
  const onVisible = useCallback((first: number, last: number) => {
    const from = Math.floor(first / WINDOW);
    const to = Math.floor(last / WINDOW);
    setSeen((before) => (before.first === from && before.last === to ? before : { first: from, last: to }));
  }, []);
  return { rowAt, onVisible };
}

function windowsOf(ids: readonly number[], first: number, last: number): readonly number[][] {
  const windows: number[][] = [];
  for (let at = first; at <= last; at += 1) {
    const wanted = ids.slice(at * WINDOW, (at + 1) * WINDOW);
    if (wanted.length > 0) windows.push(wanted);
  }
  return windows;
}

/** Kept outside, so that the same answers give the same map. */
function rowsById(
  answers: readonly { readonly data: { readonly value: readonly RollRow[] } | undefined }[],
): ReadonlyMap<number, RollRow> {
  return new Map(answers.flatMap(({ data }) => (data?.value ?? []).map((row) => [row.id, row] as const)));
}
