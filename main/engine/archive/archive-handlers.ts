import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Output } from '../../../shared/api/contract.ts';
import { measureReadOtherwise, readingsOfRolls } from '../colour/measure-rolls.ts';
import { ARCHIVE_VERSION } from '../db/migrate.ts';
import { query, translate } from '../db/query.ts';
import { translateFileError } from '../files/file-error.ts';
import type { HandlersOf } from '../handler.ts';
import type { Archive } from './archive.ts';

const countsRow = z.object({
  identity: z.string(),
  name: z.string(),
  rolls: z.number(),
  frames: z.number(),
  scans: z.number(),
  binders: z.number(),
});

/** What an open archive says of itself. */
export function archiveState(archive: Archive): NonNullable<Output<'archive.state'>> {
  const counts = query(
    archive.db,
    countsRow,
    `SELECT (SELECT value FROM setting WHERE name = 'identity') AS identity,
       (SELECT value FROM setting WHERE name = 'name') AS name,
       (SELECT count(*) FROM roll) AS rolls, (SELECT count(*) FROM frame) AS frames,
       (SELECT count(*) FROM scan) AS scans, (SELECT count(*) FROM binder) AS binders`,
  ).find();
  if (!counts) throw new Error('An archive without settings');
  return { folder: archive.folder, version: ARCHIVE_VERSION, ...counts, ...archive.undo.next() };
}

const findingRow = z.object({ finding: z.string() });
const foreignRow = z.object({ table: z.string(), parent: z.string(), count: z.number() });

function findingsOf(archive: Archive): string[] {
  const integrity = query(
    archive.db,
    findingRow,
    'SELECT integrity_check AS finding FROM pragma_integrity_check',
  ).all();
  const foreign = query(
    archive.db,
    foreignRow,
    `SELECT "table", parent, count(*) AS count FROM pragma_foreign_key_check GROUP BY "table", parent`,
  ).all();
  return [
    ...integrity.map((row) => row.finding).filter((finding) => finding !== 'ok'),
    ...foreign.map((row) => `${row.count} rows of ${row.table} name a ${row.parent} that is not there`),
  ];
}

/**
 * Writes a whole copy of the archive's database to `file`, checks it, and only then gives it its name.
 * @throws {AppError} file_exists, file_not_written, disk_full
 */
function backUp(archive: Archive, file: string): number {
  const path = resolve(file);
  if (existsSync(path)) throw appError('file_exists', { path });
  const beside = `${path}.part`;
  try {
    rmSync(beside, { force: true });
    translate(path, () => archive.db.prepare('VACUUM INTO ?').run(beside));
    const copy = new Database(beside, { readonly: true });
    try {
      const sound = copy.pragma('integrity_check', { simple: true });
      if (sound !== 'ok')
        throw appError('file_not_written', { path, reason: 'the copy did not pass its check' });
    } finally {
      copy.close();
    }
    renameSync(beside, path);
    return statSync(path).size;
  } catch (error) {
    rmSync(beside, { force: true });
    throw translateFileError(error, path, 'output');
  }
}

export const ARCHIVE_HANDLERS: HandlersOf<
  'archive.check' | 'archive.backUp' | 'archive.undo' | 'archive.redo'
> = {
  'archive.check': (archive) => {
    const findings = findingsOf(archive);
    return { sound: findings.length === 0, findings };
  },
  'archive.backUp': (archive, { file }) => ({ sizeBytes: backUp(archive, file) }),
  'archive.undo': (archive, _input, { jobs }) => {
    const before = readingsOfRolls(archive);
    const label = archive.undo.undo();
    measureReadOtherwise(archive, jobs, before);
    return { label };
  },
  'archive.redo': (archive, _input, { jobs }) => {
    const before = readingsOfRolls(archive);
    const label = archive.undo.redo();
    measureReadOtherwise(archive, jobs, before);
    return { label };
  },
};
