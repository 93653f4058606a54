import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { createArchive, openArchive } from '../../../../main/engine/archive/open-archive.ts';
import { APPLICATION_ID, ARCHIVE_VERSION } from '../../../../main/engine/db/migrate.ts';
import { isAppError } from '../../../../shared/api/errors.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const now = () => new Date('2026-05-02T10:00:00Z');

function codeOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return isAppError(error) ? error.code : String(error);
  }
  return 'nothing was refused';
}

describe('archive database', () => {
  it('is marked as ours with its version', () => {
    const folder = tempFolder();
    createArchive(folder, now).close();
    const db = new Database(join(folder, 'archive.sqlite'), { readonly: true });
    expect(db.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
    expect(db.pragma('user_version', { simple: true })).toBe(ARCHIVE_VERSION);
    db.close();
  });

  it('has only strict tables, save for the word index', () => {
    const archive = createArchive(tempFolder(), now);
    const loose = archive.db
      .prepare(
        `SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0
         AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'frame_words%'`,
      )
      .pluck()
      .all();
    archive.close();
    expect(loose).toEqual([]);
  });

  it('can look rows up by every foreign key that makes them go with their parent', () => {
    const archive = createArchive(tempFolder(), now);
    const bare = archive.db
      .prepare(
        `SELECT child.name || '.' || key."from" FROM sqlite_schema AS child, pragma_foreign_key_list(child.name) AS key
         WHERE child.type = 'table' AND key.on_delete <> 'NO ACTION' AND NOT EXISTS (
           SELECT 1 FROM pragma_index_list(child.name) AS list, pragma_index_info(list.name) AS info
           WHERE info.seqno = 0 AND info.name = key."from")
         AND NOT EXISTS (SELECT 1 FROM pragma_table_info(child.name) AS column
           WHERE column.name = key."from" AND column.pk = 1)`,
      )
      .pluck()
      .all();
    archive.close();
    expect(bare).toEqual([]);
  });

  it('refuses an archive of a newer version', () => {
    const folder = tempFolder();
    createArchive(folder, now).close();
    const db = new Database(join(folder, 'archive.sqlite'));
    db.pragma(`user_version = ${ARCHIVE_VERSION + 1}`);
    db.close();
    expect(codeOf(() => openArchive(folder, now))).toBe('archive_too_new');
  });

  it('refuses the database of another program and leaves it as it was', () => {
    const folder = tempFolder();
    const db = new Database(join(folder, 'archive.sqlite'));
    db.exec('CREATE TABLE thing (id INTEGER)');
    db.close();
    expect(codeOf(() => openArchive(folder, now))).toBe('archive_damaged');
  });

  it('refuses a file that is no database', () => {
    const folder = tempFolder();
    writeFileSync(
      join(folder, 'archive.sqlite'),
      'not a database at all, but long enough to be read as one'.repeat(100),
    );
    expect(codeOf(() => openArchive(folder, now))).toBe('archive_damaged');
  });

  it('says so when there is no archive, and makes nothing', () => {
    const folder = tempFolder();
    expect(codeOf(() => openArchive(join(folder, 'absent'), now))).toBe('archive_missing');
    expect(existsSync(join(folder, 'absent'))).toBe(false);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is opened by one engine at a time', () => {
    const folder = tempFolder();
    const first = createArchive(folder, now);
    expect(codeOf(() => openArchive(folder, now))).toBe('archive_in_use');
    first.close();
    openArchive(folder, now).close();
  });
});
