import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { storagePlace, type Batch } from '../../../shared/api/methods/batch-methods.ts';
import { findFilmFormat } from '../../../shared/domain/film/film-format.ts';
import type { Archive } from '../archive/archive.ts';
import { dateColumns, dateFromRow, dateValues } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import { idRow } from '../db/rows.ts';
import type { HandlersOf } from '../handler.ts';

const batchRow = z.object({
  id: z.number(),
  stockId: z.number(),
  stock: z.string(),
  filmFormat: z.string(),
  emulsionNumber: z.string().nullable(),
  note: z.string().nullable(),
  rolls: z.number(),
  ...dateColumns('expires'),
});

const storageRow = z.object({ place: storagePlace, ...dateColumns('since') });

const SELECT = `SELECT batch.id, stock.id AS stockId, stock.name AS stock, batch.film_format AS filmFormat,
  emulsion_number AS emulsionNumber, batch.note, expires_edtf, expires_typed, expires_earliest, expires_latest,
  (SELECT count(*) FROM roll WHERE roll.batch_id = batch.id) AS rolls
  FROM batch JOIN stock ON stock.id = batch.stock_id`;

function batchFromRow(db: ReadableDb, row: z.output<typeof batchRow>): Batch {
  const storage = query(
    db,
    storageRow,
    `SELECT place, since_edtf, since_typed, since_earliest, since_latest FROM batch_storage
     WHERE batch_id = :id ORDER BY since_earliest IS NOT NULL, since_earliest, id`,
  ).all({ id: row.id });
  return {
    id: row.id,
    stock: { id: row.stockId, name: row.stock },
    filmFormat: row.filmFormat,
    emulsionNumber: row.emulsionNumber,
    expires: dateFromRow(row, 'expires'),
    note: row.note,
    storage: storage.map((each) => ({ place: each.place, since: dateFromRow(each, 'since') })),
    rolls: row.rolls,
  };
}

function setStorage(
  { db }: Archive,
  batchId: number,
  storage: readonly { readonly place: string; readonly since: string | null }[],
): void {
  command(db, 'DELETE FROM batch_storage WHERE batch_id = :batchId')({ batchId });
  const add = command(
    db,
    `INSERT INTO batch_storage (batch_id, place, since_edtf, since_typed, since_earliest, since_latest)
     VALUES (:batchId, :place, :since_edtf, :since_typed, :since_earliest, :since_latest)`,
  );
  for (const { place, since } of storage) add({ batchId, place, ...dateValues('since', since) });
}

function checkFormat(filmFormat: string): void {
  if (!findFilmFormat(filmFormat))
    throw appError('value_not_valid', { field: 'film format', value: filmFormat, reason: 'it is not known' });
}

function requireStock(db: ReadableDb, stockId: number): void {
  const found = query(db, idRow, 'SELECT id FROM stock WHERE id = :stockId').find({ stockId });
  if (!found) throw appError('stock_not_found', { name: String(stockId) });
}

export const BATCH_HANDLERS: HandlersOf<'batches.list' | 'batches.add' | 'batches.change'> = {
  'batches.list': ({ db }) =>
    query(db, batchRow, `${SELECT} ORDER BY fold(stock.name), expires_latest, batch.id`)
      .all()
      .map((row) => batchFromRow(db, row)),

  'batches.add': (archive, batch) => {
    requireStock(archive.db, batch.stockId);
    checkFormat(batch.filmFormat);
    return archive.undo.record('Add a batch of stock', () => {
      const { id } = command(
        archive.db,
        `INSERT INTO batch (stock_id, film_format, emulsion_number, expires_edtf, expires_typed, expires_earliest,
           expires_latest, note, created_at)
         VALUES (:stockId, :filmFormat, :emulsionNumber, :expires_edtf, :expires_typed, :expires_earliest,
           :expires_latest, :note, :at)`,
      )({
        stockId: batch.stockId,
        filmFormat: batch.filmFormat,
        emulsionNumber: batch.emulsionNumber ?? null,
        ...dateValues('expires', batch.expires),
        note: batch.note ?? null,
        at: archive.now().toISOString(),
      });
      setStorage(archive, id, batch.storage ?? []);
      return { id };
    });
  },

  'batches.change': (archive, { id, change }) => {
    const found = query(archive.db, batchRow, `${SELECT} WHERE batch.id = :id`).find({ id });
    if (!found) throw appError('batch_not_found', { name: String(id) });
    if (change.stockId !== undefined) requireStock(archive.db, change.stockId);
    if (change.filmFormat !== undefined) checkFormat(change.filmFormat);
    archive.undo.record('Change a batch of stock', () => {
      changeRow(archive.db, 'batch', id, {
        stock_id: change.stockId,
        film_format: change.filmFormat,
        emulsion_number: change.emulsionNumber,
        note: change.note,
        ...(change.expires === undefined ? {} : dateValues('expires', change.expires)),
      });
      if (change.storage !== undefined) setStorage(archive, id, change.storage);
    });
    return {};
  },
};
