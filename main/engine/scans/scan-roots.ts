import { existsSync, realpathSync, statSync } from 'node:fs';
import { relative, resolve, sep } from 'node:path';
import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import { translateFileError } from '../files/file-error.ts';

const rootRow = z.object({ id: z.number(), path: z.string() });

export type ScanRoot = z.output<typeof rootRow>;

/** The folder as it really lies on the disk. @throws {AppError} folder_missing, folder_unreadable */
export function realFolder(folder: string): string {
  const path = resolve(folder);
  try {
    const real = realpathSync(path);
    if (!statSync(real).isDirectory())
      throw appError('folder_unreadable', { path, reason: 'it is not a folder' });
    return real;
  } catch (error) {
    throw translateFileError(error, path, 'folder');
  }
}

/** Whether `path` is `folder` or lies in it. */
export function liesIn(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith(sep) ? folder : `${folder}${sep}`);
}

/** Every scan root, those that lie deepest first. */
export function allRoots(db: ReadableDb): ScanRoot[] {
  return query(db, rootRow, 'SELECT id, path FROM scan_root ORDER BY length(path) DESC, id').all();
}

/** The scan root that holds `folder`, or null. */
export function findRoot(db: ReadableDb, folder: string): ScanRoot | null {
  return allRoots(db).find((root) => liesIn(folder, root.path)) ?? null;
}

/** The scan root that holds `folder`; the folder becomes one when none does. */
export function ensureRoot(archive: Archive, folder: string): ScanRoot {
  const at = archive.now().toISOString();
  const found = findRoot(archive.db, folder);
  if (found) {
    command(archive.db, 'UPDATE scan_root SET last_seen_at = :at WHERE id = :id')({ id: found.id, at });
    return found;
  }
  const { id } = command(
    archive.db,
    'INSERT INTO scan_root (path, last_seen_at, created_at) VALUES (:path, :at, :at)',
  )({ path: folder, at });
  return { id, path: folder };
}

/** The path of a file within its root, with `/` on every system. */
export function pathInRoot(root: ScanRoot, path: string): string {
  return relative(root.path, path).split(sep).join('/');
}

/** Whether the disk or folder of a root is there now. Nothing is ever created under a root. */
export function isPresent(root: Pick<ScanRoot, 'path'>): boolean {
  return existsSync(root.path);
}
