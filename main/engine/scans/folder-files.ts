import { join } from 'node:path';
import { z } from 'zod';
import { isAppError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { readScan } from './read-scan.ts';
import { describeReason, describeRemark, type ScanState } from './scan-reason.ts';
import { findRoot, pathInRoot, realFolder } from './scan-roots.ts';
import { isUnchanged, knownScans, type FoundFile, type KnownScan } from './scan-store.ts';
import { type SkippedEntry, walkFolder } from './walk-folder.ts';

/** A page that shows frames: its place in the file and its upright size in px. */
interface ShownPage {
  readonly index: number;
  readonly width: number;
  readonly height: number;
}

/** What is known of a file of a folder, from the archive or (not recorded yet) from the file itself. */
export interface FolderFile {
  /** Within the folder, `/` on every system. */
  readonly path: string;
  readonly scanId: number | null;
  readonly sha256: string | null;
  readonly state: ScanState | 'failed';
  /** Short, for scripts; null when all is well. */
  readonly code: string | null;
  /** In words; null when there is nothing to say. */
  readonly remark: string | null;
  readonly scannedAt: string | null;
  readonly shows: readonly ShownPage[];
  /** When the file was changed last, in milliseconds since 1970. */
  readonly modifiedMs: number;
  /** Labels of frames that it shows already, by roll. */
  readonly frames: readonly { readonly roll: string; readonly label: string }[];
}

export interface FolderListing {
  readonly folder: string;
  readonly files: readonly FolderFile[];
  readonly litter: readonly SkippedEntry[];
}

/**
 * The files of a folder with what is known of them. Those that the archive has not read are read now, quickly and
 * without recording anything.
 * @throws {AppError} folder_missing, folder_unreadable
 */
export async function listFolder(
  archive: Archive,
  path: string,
  signal: AbortSignal,
): Promise<FolderListing> {
  const folder = realFolder(path);
  const root = findRoot(archive.db, folder);
  const known = root === null ? new Map<string, KnownScan>() : knownScans(archive.db, root.id);
  const walked = await walkFolder(folder, { signal });
  const files: FolderFile[] = [];
  for (const file of walked.files) {
    signal.throwIfAborted();
    const absolute = join(folder, file.relativePath);
    const scan = root === null ? undefined : known.get(pathInRoot(root, absolute));
    const modifiedMs = Number(file.modifiedNs / 1_000_000n);
    const place = { path: file.relativePath, modifiedMs };
    files.push({
      ...place,
      ...(isFresh(scan, file) ? fromArchive(archive.db, scan) : await fromFile(archive, absolute, scan)),
    });
  }
  return { folder, files, litter: walked.skipped };
}

/** Whether the archive's reading of a file still holds, an unfinished one included. */
function isFresh(
  scan: KnownScan | undefined,
  file: Pick<FoundFile, 'sizeBytes' | 'modifiedNs'>,
): scan is KnownScan {
  return scan !== undefined && isUnchanged({ ...scan, state: 'complete' }, file);
}

const pageRow = z.object({ index: z.number(), width: z.number(), height: z.number() });
const detailRow = z.object({
  code: z.string().nullable(),
  remarks: z.string(),
  scanned: z.string().nullable(),
});
const frameRow = z.object({ roll: z.string(), label: z.string() });

function fromArchive(db: ReadableDb, scan: KnownScan): Omit<FolderFile, 'path' | 'modifiedMs'> {
  const detail = query(
    db,
    detailRow,
    'SELECT reason_code AS code, remarks_json AS remarks, scanned FROM scan WHERE id = :id',
  ).find({ id: scan.id });
  const remarks = z.array(z.string()).parse(JSON.parse(detail?.remarks ?? '[]'));
  return {
    scanId: scan.id,
    sha256: scan.sha256,
    state: scan.state,
    code: detail?.code ?? null,
    remark: scan.reason ?? remarks[0] ?? null,
    scannedAt: detail?.scanned ?? null,
    shows: query(
      db,
      pageRow,
      `SELECT page AS "index", width, height FROM picture WHERE sha256 = :sha256 AND role = 'scan' ORDER BY page`,
    ).all({ sha256: scan.sha256 }),
    frames: query(
      db,
      frameRow,
      `SELECT DISTINCT roll.number AS roll, frame.label FROM frame_scan JOIN frame ON frame.id = frame_scan.frame_id
       JOIN roll ON roll.id = frame.roll_id WHERE frame_scan.scan_id = :id ORDER BY frame.ordinal`,
    ).all({ id: scan.id }),
  };
}

async function fromFile(
  archive: Archive,
  path: string,
  scan: KnownScan | undefined,
): Promise<Omit<FolderFile, 'path' | 'modifiedMs'>> {
  const unknown = { scanId: scan?.id ?? null, sha256: null, scannedAt: null, shows: [], frames: [] };
  try {
    const today = archive.now().toISOString().slice(0, 10);
    const reading = await readScan(path, { today, size: 'small' });
    return {
      ...unknown,
      sha256: reading.sha256,
      state: reading.state,
      code: reading.reason,
      remark:
        reading.reason === null
          ? (reading.remarks.map(describeRemark)[0] ?? null)
          : describeReason(reading.reason),
      scannedAt: reading.metadata?.scanned ?? null,
      shows: reading.pages
        .filter((page) => page.role === 'scan')
        .map(({ index, width, height }) => ({ index, width, height })),
    };
  } catch (error) {
    if (!isAppError(error)) throw error;
    return { ...unknown, state: 'failed', code: error.code, remark: 'The file could not be opened.' };
  }
}
