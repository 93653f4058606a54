import {
  lstatSync,
  readdirSync,
  readSync,
  openSync,
  closeSync,
  statSync,
  type BigIntStats,
  type Dirent,
} from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { appError } from '../../../shared/api/errors.ts';
import { naturalKey } from '../../../shared/domain/numbering/natural-key.ts';
import { fileErrorCode, translateFileError } from '../files/file-error.ts';
import { findLitter } from './litter.ts';
import { pictureByName } from './picture-name.ts';
import { startsLikePicture } from './recognise.ts';

/** A file that may be a scan. Names are kept exactly as the file system spells them, accents included. */
interface WalkedFile {
  readonly absolutePath: string;
  /** From the folder walked, with `/` between names on every system. */
  readonly relativePath: string;
  readonly sizeBytes: number;
  readonly modifiedNs: bigint;
}

/** Something passed over, with the reason in words; a folder passed over stands for all it holds. */
export interface SkippedEntry {
  readonly path: string;
  readonly reason: string;
  /** Whether a person should see it: something that may be a scan could not be reached. Litter is only counted. */
  readonly matters: boolean;
}

/** What a folder holds. */
export interface WalkedFolder {
  /** In natural order of their paths. */
  readonly files: readonly WalkedFile[];
  readonly skipped: readonly SkippedEntry[];
}

interface Walk {
  readonly files: WalkedFile[];
  readonly skipped: SkippedEntry[];
  /** Device and number of each folder entered: each real folder once, whatever links lead to it. */
  readonly entered: Set<string>;
  readonly links: Place[];
}

interface Place {
  readonly absolutePath: string;
  readonly relativePath: string;
}

/**
 * Lists what may be scans in a folder and below it. Nothing stops the walk: folders that cannot be read, dead links,
 * names that cannot be used are listed as passed over. The events of the process go on between folders.
 * @throws {AppError} folder_missing, folder_unreadable for the folder itself; cancelled.
 */
export async function walkFolder(
  folder: string,
  { signal }: { readonly signal?: AbortSignal } = {},
): Promise<WalkedFolder> {
  const walk: Walk = { files: [], skipped: [], entered: new Set(), links: [] };
  const top = { absolutePath: folder, relativePath: '' };
  try {
    if (!statSync(folder).isDirectory())
      throw appError('folder_unreadable', { path: folder, reason: 'it is not a folder' });
    readdirSync(folder);
  } catch (error) {
    throw translateFileError(error, folder, 'folder');
  }
  // Real folders first: a link to a folder that is met anyway must not give its files another path.
  await enterAll([top], walk, signal);
  for (let link = walk.links.shift(); link !== undefined; link = walk.links.shift()) {
    await enterAll([link], walk, signal);
  }
  const keyed = walk.files.map((file) => ({ file, key: naturalKey(file.relativePath) }));
  keyed.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
  return { files: keyed.map(({ file }) => file), skipped: walk.skipped };
}

async function enterAll(places: Place[], walk: Walk, signal: AbortSignal | undefined): Promise<void> {
  for (let place = places.pop(); place !== undefined; place = places.pop()) {
    if (signal?.aborted === true) throw appError('cancelled', {});
    places.push(...enter(place, walk));
    await setImmediate();
  }
}

/** Reads one folder synchronously: several times faster than asking for each file by itself. The folders within. */
function enter(place: Place, walk: Walk): Place[] {
  const within: Place[] = [];
  try {
    const { dev, ino } = statSync(place.absolutePath, { bigint: true });
    if (walk.entered.has(`${dev}:${ino}`)) {
      skip(walk, place, 'this folder was met already under another path', false);
      return within;
    }
    walk.entered.add(`${dev}:${ino}`);
    for (const entry of readdirSync(place.absolutePath, { withFileTypes: true })) {
      look(entry, place, walk, within);
    }
  } catch (error) {
    skip(walk, place, reasonOf(error, 'this folder'), true);
  }
  return within;
}

function look(entry: Dirent, parent: Place, walk: Walk, within: Place[]): void {
  const place = {
    absolutePath: join(parent.absolutePath, entry.name),
    relativePath: parent.relativePath === '' ? entry.name : `${parent.relativePath}/${entry.name}`,
  };
  const litter = findLitter(entry.name, entry.isDirectory());
  if (litter !== null) return skip(walk, place, litter, false);
  // The system gives names as text; bytes that are none come as this mark and would not find the file again.
  if (entry.name.includes('\uFFFD')) return skip(walk, place, 'its name is not text', true);
  if (entry.isDirectory()) {
    within.push(place);
    return;
  }
  try {
    const stats = statSync(place.absolutePath, { bigint: true });
    if (entry.isSymbolicLink() && stats.isDirectory()) walk.links.push(place);
    else lookAtFile(place, entry.name, stats, walk);
  } catch (error) {
    skip(
      walk,
      place,
      isDeadLink(place, error) ? 'a link that leads nowhere' : reasonOf(error, 'this file'),
      true,
    );
  }
}

function lookAtFile(place: Place, name: string, stats: BigIntStats, walk: Walk): void {
  if (!stats.isFile()) return skip(walk, place, 'not a file', false);
  const byName = pictureByName(name);
  if (byName === 'other kind of picture')
    return skip(walk, place, 'a kind of picture that is not read here', true);
  if (byName === 'no') return skip(walk, place, 'not a picture', false);
  // A name without an ending says nothing; then the first bytes speak.
  if (byName === 'unknown' && !startsLikePicture(readStart(place.absolutePath))) {
    return skip(walk, place, 'not a picture', false);
  }
  walk.files.push({ ...place, sizeBytes: Number(stats.size), modifiedNs: stats.mtimeNs });
}

function readStart(path: string): Buffer {
  const handle = openSync(path, 'r');
  try {
    const bytes = Buffer.alloc(16);
    return bytes.subarray(0, readSync(handle, bytes, 0, bytes.length, 0));
  } finally {
    closeSync(handle);
  }
}

function isDeadLink(place: Place, error: unknown): boolean {
  const code = fileErrorCode(error);
  if (code !== 'ENOENT' && code !== 'ELOOP') return false;
  try {
    return lstatSync(place.absolutePath).isSymbolicLink();
  } catch {
    // Gone in the meantime: then it is no link either.
    return false;
  }
}

function reasonOf(error: unknown, what: string): string {
  switch (fileErrorCode(error)) {
    case 'EACCES':
    case 'EPERM':
      return `${what} may not be read`;
    case 'ENAMETOOLONG':
      return `the path of ${what} is too long for this system`;
    case 'ENOENT':
      return `${what} went away meanwhile`;
    default:
      return `${what} cannot be read`;
  }
}

function skip(walk: Walk, place: Place, reason: string, matters: boolean): void {
  walk.skipped.push({ path: place.relativePath, reason, matters });
}
