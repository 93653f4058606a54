import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { appError } from '../../../shared/api/errors.ts';
import { sqliteCode } from './query.ts';

/** Gives the lock back. */
export type ReleaseLock = () => void;

/**
 * Locks an archive folder for this engine. The lock is the operating system's (an exclusive transaction held on
 * `archive.lock`), so a crash gives it back by itself; `archive.pid` only says who holds it.
 * @throws {AppError} archive_in_use when another engine has it open
 */
export function lockArchive(folder: string): ReleaseLock {
  const db = new Database(join(folder, 'archive.lock'), { timeout: 0 });
  const pidFile = join(folder, 'archive.pid');
  try {
    db.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    db.close();
    if (sqliteCode(error)?.startsWith('SQLITE_BUSY')) {
      throw appError('archive_in_use', { path: folder, pid: pidFrom(pidFile) }, error);
    }
    throw error;
  }
  writeFileSync(pidFile, String(process.pid));
  return () => {
    rmSync(pidFile, { force: true });
    db.close();
  };
}

function pidFrom(file: string): number {
  try {
    return Number.parseInt(readFileSync(file, 'utf8'), 10) || 0;
  } catch {
    // The holder may be between taking the lock and writing its number: then the number is unknown.
    return 0;
  }
}
