import { z } from 'zod';
import type { Archive } from '../archive/archive.ts';
import { query } from '../db/query.ts';
import { setRollState } from '../film/rolls.ts';

const stateRow = z.object({ state: z.string() });

/** A roll that was still waiting becomes developed; one already filed stays filed, its day noted. */
export function markDeveloped(archive: Archive, rollId: number, date: string): void {
  const before = query(archive.db, stateRow, 'SELECT state FROM roll WHERE id = :rollId').find({ rollId });
  setRollState(archive, rollId, 'developed', date);
  if (before?.state === 'filed') setRollState(archive, rollId, 'filed', null);
}
