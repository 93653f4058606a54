import { useMemo } from 'react';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { useArchive } from '../api/use-query.ts';
import { readRollIds } from './sheet-choice.ts';

/** What goes on a sheet: rolls, or all rolls of a binder. */
export interface ChosenRolls {
  readonly rollIds: readonly number[];
  readonly rolls: readonly RollRow[];
  readonly binderId: number | null;
  /** `Roll 2024-027`, `Binder 7, 12 rolls`. */
  readonly words: string;
  readonly loading: boolean;
}

/** The most rolls a sheet takes at once; the engine says the same. */
const MOST = 500;

/** The rolls that an address names. */
export function useChosenRolls(params: Readonly<Record<string, string>>): ChosenRolls {
  const binderId = Number(params['binder'] ?? '') || null;
  const binders = useArchive('binders.list', {}, { when: binderId !== null });
  const pages = useArchive('pages.ofBinder', { binderId: binderId ?? 1 }, { when: binderId !== null });
  const rollIds = useMemo(() => {
    if (binderId === null) return readRollIds(params).slice(0, MOST);
    const inOrder = (pages.data ?? []).flatMap(({ strips }) => strips.map(({ rollId }) => rollId));
    return [...new Set(inOrder)].slice(0, MOST);
  }, [binderId, params, pages.data]);
  const rows = useArchive('rolls.rows', { ids: [...rollIds] }, { when: rollIds.length > 0 });
  const rolls = rollIds.length === 0 ? [] : (rows.data ?? []);
  const name = binders.data?.find(({ id }) => id === binderId)?.name ?? '';
  // A name may be no more than a number.
  const binder = /^binder\b/i.test(name) ? name : `Binder ${name}`;
  const loading = (binderId !== null && !pages.data) || (rollIds.length > 0 && !rows.data && !rows.error);
  return {
    rollIds,
    rolls,
    binderId,
    words: binderId === null ? nameRolls(rolls) : `${binder}, ${countRolls(rollIds.length)}`,
    loading,
  };
}

function countRolls(count: number): string {
  return count === 1 ? '1 roll' : `${count} rolls`;
}

function nameRolls(rolls: readonly RollRow[]): string {
  const numbers = rolls.map(({ number }) => number);
  if (numbers.length <= 3) return numbers.join(', ');
  return `${numbers[0]}, ${numbers[1]} and ${numbers.length - 2} more`;
}
