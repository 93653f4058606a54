import Database from 'better-sqlite3';
import { foldText } from '../../../shared/domain/text/fold.ts';
import { appError } from '../../../shared/api/errors.ts';
import { APPLICATION_ID, archiveVersion, migrate } from './migrate.ts';
import { translate, type WritableDb } from './query.ts';

/**
 * The connection to an archive's database, migrated and ready.
 * `synchronous = FULL`: an archive is kept for decades and written rarely; a lost power supply must not cost the
 * last edit, which is what WAL with NORMAL allows. Source: SQLite documentation, PRAGMA synchronous.
 * @throws {AppError} archive_too_new, archive_damaged, disk_full
 */
export function openDatabase(file: string, now: Date): WritableDb {
  const db = new Database(file);
  try {
    translate(file, () => {
      refuseForeign(db, file);
      db.pragma('journal_mode = WAL');
      db.pragma('synchronous = FULL');
      db.pragma('foreign_keys = ON');
      db.pragma('cache_size = -65536');
      db.pragma('temp_store = MEMORY');
      migrate(db, now);
      db.function('fold', { deterministic: true }, (text: unknown) =>
        typeof text === 'string' ? foldText(text) : null,
      );
    });
  } catch (error) {
    db.close();
    throw error;
  }
  return db;
}

function refuseForeign(db: WritableDb, file: string): void {
  const id = Number(db.pragma('application_id', { simple: true }));
  const tables = Number(db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
  if (tables > 0 && (id !== APPLICATION_ID || archiveVersion(db) === 0)) {
    throw appError('archive_damaged', { path: file, reason: 'it is a database of another program' });
  }
}
