import { existsSync, readdirSync, statSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { basename, join, resolve } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import { createSharedWork } from '../colour/share-work.ts';
import { lockArchive } from '../db/archive-lock.ts';
import { openDatabase } from '../db/open-database.ts';
import { command } from '../db/query.ts';
import { createUndo } from '../db/undo.ts';
import { makeFolder } from '../files/make-folder.ts';
import { createArchivePictures } from '../look-up/archive-pictures.ts';
import { translateFileError } from '../files/file-error.ts';
import { watchSearch } from '../search/watch-search.ts';
import type { Archive } from './archive.ts';

/** The database inside an archive's folder. */
const DATABASE = 'archive.sqlite';

/**
 * Makes an empty archive in `folder`, which may exist when nothing of ours is in it yet.
 * @throws {AppError} archive_exists, folder_unreadable, disk_full, archive_in_use
 */
export function createArchive(folder: string, now: () => Date): Archive {
  const path = resolve(folder);
  if (existsSync(join(path, DATABASE))) throw appError('archive_exists', { path });
  try {
    makeFolder(path);
    readdirSync(path);
  } catch (error) {
    throw translateFileError(error, path, 'folder');
  }
  const archive = open(path, now);
  const set = command(archive.db, 'INSERT INTO setting (name, value) VALUES (:name, :value)');
  set({ name: 'identity', value: randomUUID() });
  set({ name: 'name', value: basename(path) });
  set({ name: 'created_at', value: now().toISOString() });
  return archive;
}

/**
 * Opens the archive in `folder`.
 * @throws {AppError} archive_missing, archive_in_use, archive_too_new, archive_damaged
 */
export function openArchive(folder: string, now: () => Date): Archive {
  const path = resolve(folder);
  const file = join(path, DATABASE);
  if (!existsSync(file) || statSync(file).size === 0) throw appError('archive_missing', { path });
  return open(path, now);
}

function open(folder: string, now: () => Date): Archive {
  let release: () => void;
  try {
    release = lockArchive(folder);
  } catch (error) {
    throw translateFileError(error, folder, 'archive');
  }
  try {
    const db = openDatabase(join(folder, DATABASE), now());
    const undo = createUndo(db, now);
    const stopWatching = watchSearch(db);
    const pictures = createArchivePictures(folder, db);
    const close = () => {
      stopWatching();
      pictures.close();
      db.close();
      release();
    };
    return { folder, db, undo, pictures, measuring: createSharedWork(), now, close };
  } catch (error) {
    release();
    throw error;
  }
}
