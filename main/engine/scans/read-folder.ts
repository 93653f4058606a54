import { join } from 'node:path';
import { z } from 'zod';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { inTransaction } from '../db/query.ts';
import type { Work } from '../jobs/jobs.ts';
import { keepPreview, previewPath } from './preview-store.ts';
import { readScan, type ScanReading } from './read-scan.ts';
import { ensureRoot, pathInRoot, realFolder, type ScanRoot } from './scan-roots.ts';
import {
  type FoundFile,
  isUnchanged,
  knownScans,
  noteMissing,
  recordPicture,
  recordScan,
} from './scan-store.ts';
import { type SkippedEntry, walkFolder } from './walk-folder.ts';

/** Files read at once: two per core on a small machine. Source: measured, see test/bench/scans-in.ts. */
const IN_FLIGHT = 4;
/** Files per transaction: a commit flushes the disk, so it is shared. */
const PER_TRANSACTION = 16;

/** What became of one file of a folder. */
export interface FileReport {
  readonly path: string;
  readonly outcome: 'read' | 'unchanged' | 'failed';
  /** Why it failed, in words; null otherwise. */
  readonly reason: string | null;
}

export interface FolderReport {
  readonly folder: string;
  readonly files: readonly FileReport[];
  readonly litter: readonly SkippedEntry[];
  readonly missing: number;
}

interface ReadFile {
  readonly file: FoundFile;
  readonly reading: ScanReading;
}

const jobInput = z.object({ folder: z.string() });

/**
 * Reads every scan of a folder that is new or changed: checksum, facts, previews, measures. Previews are on the disk
 * before the row that speaks of them; rows are written whole. So it may be killed at any moment, and a second run
 * does what is left.
 */
export const readFolder: Work = async (archive, input, progress, signal): Promise<FolderReport> => {
  const folder = realFolder(jobInput.parse(input).folder);
  const root = ensureRoot(archive, folder);
  const walked = await walkFolder(folder, { signal });
  const files = walked.files.map((file) => ({
    ...file,
    path: pathInRoot(root, join(folder, file.relativePath)),
  }));
  progress.total(files.length);
  const known = knownScans(archive.db, root.id);
  const reports = new Map<string, FileReport>();
  const waiting: ReadFile[] = [];

  const write = () => {
    const batch = waiting.splice(0);
    if (batch.length > 0)
      inTransaction(archive.db, () => batch.forEach((each) => record(archive, root, each)));
  };
  const one = async (file: FoundFile & { readonly absolutePath: string }) => {
    if (isUnchanged(known.get(file.path), file)) {
      reports.set(file.path, { path: file.path, outcome: 'unchanged', reason: null });
      progress.step();
      return;
    }
    const read = await readOne(archive, file);
    if ('reading' in read) {
      waiting.push(read);
      reports.set(file.path, { path: file.path, outcome: 'read', reason: null });
      if (waiting.length >= PER_TRANSACTION) write();
    } else {
      reports.set(file.path, { path: file.path, outcome: 'failed', reason: read.reason });
    }
    progress.step(!('reading' in read));
  };
  try {
    await eachInFlight(files, IN_FLIGHT, signal, one);
  } finally {
    // What was read before a stop is kept.
    write();
  }
  const under = pathInRoot(root, folder);
  const missing = inTransaction(archive.db, () =>
    noteMissing(archive, root.id, under, new Set(files.map((file) => file.path))),
  );
  return {
    folder,
    files: files.map((file) => reports.get(file.path)).filter((file) => file !== undefined),
    litter: walked.skipped,
    missing,
  };
};

function record(archive: Archive, root: ScanRoot, { file, reading }: ReadFile): void {
  recordScan(archive, root, file, reading);
  for (const page of reading.pages) recordPicture(archive, reading.sha256, page);
}

async function readOne(
  archive: Archive,
  file: FoundFile & { readonly absolutePath: string },
): Promise<ReadFile | { readonly reason: string }> {
  try {
    const reading = await readScan(file.absolutePath, { today: archive.now().toISOString().slice(0, 10) });
    keepPreviews(archive, reading);
    return { file, reading };
  } catch (error) {
    if (isAppError(error, 'cancelled') || isAppError(error, 'disk_full')) throw error;
    if (isAppError(error)) return { reason: error.code };
    throw error;
  }
}

/** Puts the previews of a reading on the disk. */
export function keepPreviews(archive: Archive, { sha256, pages }: ScanReading): void {
  for (const { index, preview } of pages) {
    if (preview === null) continue;
    if (preview.large) keepPreview(previewPath(archive.folder, sha256, index, 'large'), preview.large);
    keepPreview(previewPath(archive.folder, sha256, index, 'small'), preview.small);
  }
}

/** Does `work` for every item, `most` at once, until done or called off. @throws {AppError} cancelled */
async function eachInFlight<Item>(
  items: readonly Item[],
  most: number,
  signal: AbortSignal,
  work: (item: Item) => Promise<void>,
): Promise<void> {
  const rest = items[Symbol.iterator]();
  const lane = async () => {
    for (const item of rest) {
      if (signal.aborted) throw appError('cancelled', {});
      await work(item);
    }
  };
  const lanes = await Promise.allSettled(Array.from({ length: most }, lane));
  const failed = lanes.find((each) => each.status === 'rejected');
  if (failed) throw failed.reason;
}
