import { cpSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import { makeFolder } from '../files/make-folder.ts';
import { ARCHIVE_SQL } from './migrations/0001-archive.ts';
import { HOLDERS_SQL } from './migrations/0002-holders.ts';
import type { WritableDb } from './query.ts';

/** One step from version n-1 to n. Never edited once released. */
interface Migration {
  readonly version: number;
  readonly run: (db: WritableDb) => void;
}

const MIGRATIONS: readonly Migration[] = [
  { version: 1, run: (db) => db.exec(ARCHIVE_SQL) },
  { version: 2, run: (db) => db.exec(HOLDERS_SQL) },
];

/** The version of archive that this program writes. */
export const ARCHIVE_VERSION = MIGRATIONS.length;

/** Marks the file as an archive of ours (`PRAGMA application_id`); our choice: ASCII "EDGP". */
export const APPLICATION_ID = 0x45444750;

/** The version of an archive; 0 for an empty file. */
export function archiveVersion(db: WritableDb): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/**
 * Brings an archive to the newest version, one transaction per step, after copying it to `backups/`.
 * @throws {AppError} archive_too_new when a newer program wrote it
 */
export function migrate(db: WritableDb, now: Date): void {
  const from = archiveVersion(db);
  if (from > ARCHIVE_VERSION) {
    throw appError('archive_too_new', { path: db.name, version: from, known: ARCHIVE_VERSION });
  }
  if (from > 0 && from < ARCHIVE_VERSION) copyBefore(db, from, now);
  for (const migration of MIGRATIONS.filter((step) => step.version > from)) {
    db.transaction(() => {
      migration.run(db);
      db.pragma(`user_version = ${migration.version}`);
      db.pragma(`application_id = ${APPLICATION_ID}`);
    }).immediate();
  }
}

function copyBefore(db: WritableDb, version: number, now: Date): void {
  const folder = join(dirname(db.name), 'backups');
  makeFolder(folder);
  db.pragma('wal_checkpoint(TRUNCATE)');
  const stamp = now.toISOString().replaceAll(/[:.]/g, '-');
  cpSync(db.name, join(folder, `before-version-${version + 1}-${stamp}.sqlite`), { errorOnExist: true });
}
