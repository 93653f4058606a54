import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { useArchive } from '../api/use-query.ts';

/** How many of them are fetched; the rest is counted. */
export const WAITING_SHOWN = 5;

/** The rolls that are developed and lie in no binder yet, by number. Null before the answer. */
export function useWaitingRolls(): { readonly rolls: readonly RollRow[]; readonly count: number } | null {
  const { data: order } = useArchive('rolls.order', {
    sort: 'number',
    descending: false,
    filter: { states: ['developed'] },
  });
  const ids = order?.ids ?? [];
  const { data: rows } = useArchive(
    'rolls.rows',
    { ids: ids.slice(0, WAITING_SHOWN) },
    { when: ids.length > 0, keepFormer: true },
  );
  if (order === undefined) return null;
  // Rows of a former order may still be shown: a roll that has just been filed is not among the waiting.
  return { rolls: (rows ?? []).filter(({ id }) => ids.includes(id)), count: ids.length };
}
