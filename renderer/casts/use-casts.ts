import type { Output } from '../../shared/api/contract.ts';
import type { Causes } from '../../shared/api/methods/causes-methods.ts';
import type { Per } from '../../shared/domain/colour/logged-roll.ts';
import { useArchive } from '../api/use-query.ts';

/** What is known of the casts of a stock; each part comes after the one before, as all wait for the same measuring. */
export interface Casts {
  /** The rolls in question and what goes with their casts; undefined while they are measured. */
  readonly causes: Causes | undefined;
  /** The stock's rolls, each against the others; empty where every stock is asked for. */
  readonly ofStock: Output<'colour.ofStock'>['rolls'];
  /** Every roll of the archive, and the faults. */
  readonly all: Causes | undefined;
  readonly error: Error | null;
}

/** The casts of a stock, or of every stock for null. */
export function useCasts(stockId: number | null, per: Per): Casts {
  const causes = useArchive('colour.causes', { stockId, per });
  const isMeasured = causes.data !== undefined;
  const ofStock = useArchive(
    'colour.ofStock',
    { stockId: stockId ?? 0 },
    { when: isMeasured && stockId !== null },
  );
  const all = useArchive('colour.causes', { stockId: null, per }, { when: isMeasured && stockId !== null });
  return {
    causes: causes.data,
    ofStock: ofStock.data?.rolls ?? [],
    all: stockId === null ? causes.data : all.data,
    error: causes.error ?? ofStock.error ?? all.error,
  };
}
