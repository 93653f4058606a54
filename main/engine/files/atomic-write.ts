import { randomBytes } from 'node:crypto';
import { link, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import { fileErrorCode, translateFileError } from './file-error.ts';

/** The longest name of a file on common systems, bytes. Source: NAME_MAX of Linux, NTFS and APFS (255 units each). */
const NAME_MOST_BYTES = 255;

/**
 * Writes a whole file or nothing: beside it, flushed to disk, then renamed over it. Without `overwrite` a file that is
 * there stays as it is, also one that appears while we write.
 * @throws {AppError} file_exists when it is there and must not be replaced
 * @throws {AppError} disk_full
 * @throws {AppError} file_not_written for every other reason of the file system
 */
export async function writeFileAtomically(
  path: string,
  content: Uint8Array | string,
  options: { readonly overwrite: boolean },
): Promise<void> {
  await makeFileAtomically(
    path,
    async (beside) => {
      const file = await open(beside, 'wx', 0o666);
      try {
        await file.writeFile(content);
      } finally {
        await file.close();
      }
    },
    options,
  );
}

/**
 * The same for content that is too large to hold: `make` writes it all to the path it is given, in the folder of
 * `path`. What it leaves there after a failure is removed.
 * @throws {AppError} file_exists, disk_full, file_not_written, and what `make` throws
 */
export async function makeFileAtomically(
  path: string,
  make: (beside: string) => Promise<void>,
  options: { readonly overwrite: boolean },
): Promise<void> {
  if (!options.overwrite && (await isThere(path))) throw appError('file_exists', { path });
  const beside = besidePath(path);
  try {
    await make(beside);
    await flush(beside);
    if (options.overwrite) await rename(beside, path);
    else await moveWithoutReplacing(beside, path);
    await syncFolder(dirname(path));
  } catch (error) {
    await rm(beside, { force: true });
    if (!options.overwrite && fileErrorCode(error) === 'EEXIST')
      throw appError('file_exists', { path }, error);
    throw asOutputError(error, path);
  }
}

/** A hidden path in the folder of `path` that nothing else has: for a file on its way. */
export function besidePath(path: string): string {
  return join(dirname(path), besideName(basename(path)));
}

async function flush(path: string): Promise<void> {
  const file = await open(path, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}

async function isThere(path: string): Promise<boolean> {
  try {
    await stat(path);
    return true;
  } catch (error) {
    if (fileErrorCode(error) === 'ENOENT') return false;
    throw asOutputError(error, path);
  }
}

function asOutputError(error: unknown, path: string): unknown {
  if (isAppError(error)) return error;
  const translated = translateFileError(error, path, 'output');
  if (translated !== error || fileErrorCode(error) === null) return translated;
  return appError('file_not_written', { path, reason: fileErrorCode(error) ?? 'unknown' }, error);
}

/** A hidden name of its own in the same folder, no longer than the file system takes. */
function besideName(name: string): string {
  const mark = `.${randomBytes(6).toString('hex')}.part`;
  let kept = name;
  while (Buffer.byteLength(`.${kept}${mark}`) > NAME_MOST_BYTES) kept = [...kept].slice(0, -1).join('');
  return `.${kept}${mark}`;
}

/** A hard link fails where something is already; a file system without links gets a check and a rename instead. */
async function moveWithoutReplacing(beside: string, path: string): Promise<void> {
  try {
    await link(beside, path);
    await rm(beside);
  } catch (error) {
    const code = fileErrorCode(error);
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'EOPNOTSUPP' && code !== 'ENOSYS') throw error;
    if (await isThere(path)) throw appError('file_exists', { path }, error);
    await rename(beside, path);
  }
}

/** Makes the new name itself survive a loss of power; systems that cannot open a folder do without. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    const code = fileErrorCode(error);
    if (code !== 'EISDIR' && code !== 'EPERM' && code !== 'EACCES' && code !== 'EINVAL') throw error;
  }
}
