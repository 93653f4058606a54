import type { Output } from '../../shared/api/contract.ts';
import { useArchive } from '../api/use-query.ts';

/** What is known of the casts of a stock; each part comes after the one before, as all wait for the same measuring. */
export interface Casts {
  /** The stock's rolls and what goes with their casts; undefined while they are measured. */
  readonly causes: Output<'colour.causes'> | undefined;
  /** Its rolls, each against the others. */
  readonly ofStock: Output<'colour.ofStock'>['rolls'];
  /** Every roll of the archive, and the faults. */
  readonly all: Output<'colour.causes'> | undefined;
  readonly error: Error | null;
}

/** The casts of a stock. `stockId` is null while there is none to ask for. */
export function useCasts(stockId: number | null): Casts {
  const causes = useArchive('colour.causes', { stockId }, { when: stockId !== null });
  const isMeasured = stockId !== null && causes.data !== undefined;
  const ofStock = useArchive('colour.ofStock', { stockId: stockId ?? 0 }, { when: isMeasured });
  const all = useArchive('colour.causes', { stockId: null }, { when: isMeasured });
  return {
    causes: causes.data,
    ofStock: ofStock.data?.rolls ?? [],
    all: all.data,
    error: causes.error ?? ofStock.error ?? all.error,
  };
}
