import { z } from 'zod';
import { command, query, type Value } from '../db/query.ts';
import type { Archive } from './archive.ts';

const anyRow = z.record(z.string(), z.union([z.string(), z.number(), z.null()]));

/** Notes every recorded fact of a row that the given columns are about to change, with what stood there before. */
export function recordCorrections(
  archive: Archive,
  table: 'roll' | 'development',
  rowId: number,
  columns: Readonly<Record<string, Value | undefined>>,
): void {
  const before = query(archive.db, anyRow, `SELECT * FROM ${table} WHERE id = :rowId`).find({ rowId });
  if (!before) return;
  const add = command(
    archive.db,
    `INSERT INTO correction (of_table, of_id, of_column, before, after, made_at)
     VALUES (:table, :rowId, :column, :before, :after, :at)`,
  );
  for (const [column, after] of Object.entries(columns)) {
    const old = before[column] ?? null;
    if (after === undefined || old === null || old === after) continue;
    const text = (value: Value) => (value === null ? null : String(value));
    add({ table, rowId, column, before: text(old), after: text(after), at: archive.now().toISOString() });
  }
}
