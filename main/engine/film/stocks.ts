import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Stock } from '../../../shared/api/methods/film-methods.ts';
import { processKind } from '../../../shared/api/values.ts';
import type { Archive } from '../archive/archive.ts';
import { changeRow } from '../db/change-row.ts';
import { command, query, orTaken, type ReadableDb, type WritableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';

const stockRow = z.object({
  id: z.number(),
  name: z.string(),
  maker: z.string().nullable(),
  iso: z.number().nullable(),
  process: processKind,
  base: z.enum(['acetate', 'polyester']).nullable(),
  fixer_factor: z.number(),
  note: z.string().nullable(),
  formats: z.string().nullable(),
  rolls: z.number(),
});

const SELECT = `SELECT id, name, maker, iso, process, base, fixer_factor, note,
  (SELECT group_concat(film_format) FROM stock_format WHERE stock_id = stock.id) AS formats,
  (SELECT count(*) FROM roll WHERE stock_id = stock.id) AS rolls
  FROM stock`;

function stockFromRow(row: z.output<typeof stockRow>): Stock {
  const { fixer_factor, formats, ...rest } = row;
  return { ...rest, fixerFactor: fixer_factor, formats: formats === null ? [] : formats.split(',') };
}

/** @throws {AppError} stock_not_found */
function requireStock(db: ReadableDb, id: number): Stock {
  const row = query(db, stockRow, `${SELECT} WHERE id = :id`).find({ id });
  if (!row) throw appError('stock_not_found', { name: String(id) });
  return stockFromRow(row);
}

function setFormats(db: WritableDb, stockId: number, formats: readonly string[]): void {
  command(db, 'DELETE FROM stock_format WHERE stock_id = :stockId')({ stockId });
  const add = command(db, 'INSERT INTO stock_format (stock_id, film_format) VALUES (:stockId, :format)');
  for (const format of new Set(formats)) add({ stockId, format });
}

export const STOCK_HANDLERS: HandlersOf<'stocks.list' | 'stocks.add' | 'stocks.change'> = {
  'stocks.list': ({ db }) => query(db, stockRow, `${SELECT} ORDER BY fold(name), id`).all().map(stockFromRow),

  'stocks.add': (archive, stock) =>
    archive.undo.record(`Add stock ${stock.name}`, () =>
      orTaken('stock_name_taken', stock.name, () => {
        const { id } = command(
          archive.db,
          `INSERT INTO stock (name, maker, iso, process, base, fixer_factor, note, created_at)
           VALUES (:name, :maker, :iso, :process, :base, :fixerFactor, :note, :at)`,
        )({
          name: stock.name,
          maker: stock.maker ?? null,
          iso: stock.iso ?? null,
          process: stock.process,
          base: stock.base ?? null,
          fixerFactor: stock.fixerFactor ?? 1,
          note: stock.note ?? null,
          at: archive.now().toISOString(),
        });
        setFormats(archive.db, id, stock.formats ?? []);
        return { id };
      }),
    ),

  'stocks.change': (archive: Archive, { id, change }) => {
    const before = requireStock(archive.db, id);
    archive.undo.record(`Change stock ${before.name}`, () =>
      orTaken('stock_name_taken', change.name ?? before.name, () => {
        const { formats, fixerFactor, ...columns } = change;
        changeRow(archive.db, 'stock', id, { ...columns, fixer_factor: fixerFactor });
        if (formats) setFormats(archive.db, id, formats);
      }),
    );
    return {};
  },
};
