import { appError, isAppError } from '../../../shared/api/errors.ts';

/** The code of a file system failure (`ENOENT`), or null for anything else. */
export function fileErrorCode(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error)) return null;
  return typeof error.code === 'string' ? error.code : null;
}

/**
 * A failure of the file system in the user's words. `what` was touched: a file to read, a file to write, a folder
 * or an archive. Anything not understood comes back as it was.
 */
export function translateFileError(
  error: unknown,
  path: string,
  what: 'file' | 'output' | 'folder' | 'archive',
): unknown {
  if (isAppError(error)) return error;
  const code = fileErrorCode(error);
  if (code === 'ENOSPC' || code === 'EDQUOT' || code === 'SQLITE_FULL')
    return appError('disk_full', { path }, error);
  if (
    what === 'archive' &&
    (code === 'SQLITE_CANTOPEN' || code === 'SQLITE_READONLY' || code === 'EACCES' || code === 'EROFS')
  ) {
    return appError('archive_read_only', { path }, error);
  }
  const reason = code === null ? null : (REASONS[code] ?? null);
  if (reason === null) return error;
  if (what === 'output') return appError('file_not_written', { path, reason }, error);
  if (code === 'ENOENT')
    return appError(what === 'file' ? 'file_missing' : 'folder_missing', { path }, error);
  return appError(what === 'file' ? 'file_unreadable' : 'folder_unreadable', { path, reason }, error);
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'it is not there',
  EACCES: 'reading or writing it is not allowed',
  EPERM: 'reading or writing it is not allowed',
  EROFS: 'the disk can only be read',
  ENOTDIR: 'it is not a folder',
  EISDIR: 'it is a folder',
  ENAMETOOLONG: 'its name is too long for this system',
  EMFILE: 'too many files are open',
  EIO: 'the disk gave an error',
  ELOOP: 'its links go in a circle',
  EEXIST: 'something is there already',
};
