import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { foldText } from '../../../shared/domain/text/fold.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import type { ScanReading } from './read-scan.ts';
import type { ScanRoot } from './scan-roots.ts';
import { describeReason, describeRemark } from './scan-reason.ts';

const knownRow = z.object({
  id: z.number(),
  path: z.string(),
  sizeBytes: z.number(),
  modifiedNs: z.string(),
  sha256: z.string(),
  state: z.enum(['complete', 'damaged', 'unfinished', 'refused']),
  reason: z.string().nullable(),
  missing: z.string().nullable(),
});

/** What the archive knows of a file. */
export type KnownScan = z.output<typeof knownRow>;

const KNOWN = `SELECT id, path, size_bytes AS sizeBytes, modified_ns AS modifiedNs, sha256, state, reason,
  missing_since AS missing FROM scan`;

/** What the archive knows of the files of a root, by path within it. */
export function knownScans(db: ReadableDb, rootId: number): Map<string, KnownScan> {
  const rows = query(db, knownRow, `${KNOWN} WHERE root_id = :rootId`).all({ rootId });
  return new Map(rows.map((row) => [row.path, row]));
}

/** A file as it was found on the disk. */
export interface FoundFile {
  readonly path: string;
  readonly sizeBytes: number;
  readonly modifiedNs: bigint;
}

/** Whether a file is as it was when it was read last; an unfinished one is always read again. */
export function isUnchanged(
  known: KnownScan | undefined,
  file: Pick<FoundFile, 'sizeBytes' | 'modifiedNs'>,
): known is KnownScan {
  return (
    known !== undefined &&
    known.state !== 'unfinished' &&
    known.sizeBytes === file.sizeBytes &&
    known.modifiedNs === String(file.modifiedNs)
  );
}

const movedRow = z.object({ id: z.number(), path: z.string(), root: z.string() });

/** The scan of the same content whose own file is gone: the file has moved, and its frames go with it. */
function findMoved(db: ReadableDb, sha256: string): number | null {
  const rows = query(
    db,
    movedRow,
    `SELECT scan.id, scan.path, scan_root.path AS root FROM scan JOIN scan_root ON scan_root.id = scan.root_id
     WHERE scan.sha256 = :sha256 ORDER BY scan.id`,
  ).all({ sha256 });
  return rows.find((row) => !existsSync(join(row.root, row.path)))?.id ?? null;
}

const COLUMNS = [
  'root_id', 'path', 'path_compare', 'size_bytes', 'modified_ns', 'sha256', 'kind', 'state', 'reason', 'reason_code', 'remarks_json',
  'pages', 'width', 'height', 'bits', 'channels', 'profile', 'orientation', 'infrared', 'ppi', 'phys_width_mm',
  'phys_height_mm', 'captured', 'captured_raw', 'scanned', 'scanned_raw', 'maker', 'model', 'software',
  'captions_json', 'checked_at', 'missing_since',
] as const; // prettier-ignore

/**
 * Records a file as it was read: anew, in place of what was known at its path, or under its new path when it has
 * moved. One row per file, whatever happened before.
 */
export function recordScan(archive: Archive, root: ScanRoot, file: FoundFile, reading: ScanReading): number {
  const { db } = archive;
  const at = archive.now().toISOString();
  const values = { ...columnsOf(root, file, reading), checked_at: at, missing_since: null };
  const here = query(db, knownRow, `${KNOWN} WHERE root_id = :rootId AND path = :path`).find({
    rootId: root.id,
    path: file.path,
  });
  const scanId = here?.id ?? findMoved(db, reading.sha256);
  if (scanId === null) {
    return command(
      db,
      `INSERT INTO scan (${COLUMNS.join(', ')}, found_at) VALUES (${COLUMNS.map((name) => `:${name}`).join(', ')}, :found_at)`,
    )({ ...values, found_at: at }).id;
  }
  const assignments = COLUMNS.map((name) => `${name} = :${name}`).join(', ');
  command(db, `UPDATE scan SET ${assignments} WHERE id = :id`)({ ...values, id: scanId });
  return scanId;
}

function columnsOf(root: ScanRoot, file: FoundFile, reading: ScanReading) {
  const main = reading.pages.find((page) => page.index === reading.mainPage);
  const { metadata } = reading;
  return {
    root_id: root.id,
    path: file.path,
    path_compare: foldText(file.path),
    size_bytes: file.sizeBytes,
    modified_ns: String(file.modifiedNs),
    sha256: reading.sha256,
    kind: reading.kind ?? 'unknown',
    state: reading.state,
    reason: reading.reason === null ? null : describeReason(reading.reason),
    reason_code: reading.reason,
    remarks_json: JSON.stringify(reading.remarks.map(describeRemark)),
    pages: Math.max(1, reading.pages.length),
    width: main?.width ?? null,
    height: main?.height ?? null,
    bits: main?.bits ?? null,
    channels: main?.channels ?? null,
    profile: metadata?.profile ?? null,
    orientation: main?.orientation ?? null,
    infrared: Number(reading.pages.some((page) => page.role === 'infrared' || page.infraredChannel !== null)),
    ppi: metadata?.ppi ?? null,
    phys_width_mm: metadata?.widthMm ?? null,
    phys_height_mm: metadata?.heightMm ?? null,
    captured: metadata?.captured ?? null,
    captured_raw: metadata?.capturedRaw ?? null,
    scanned: metadata?.scanned ?? null,
    scanned_raw: metadata?.scannedRaw ?? null,
    maker: metadata?.maker ?? null,
    model: metadata?.model ?? null,
    software: metadata?.software ?? null,
    captions_json: JSON.stringify(metadata?.captions ?? []),
  };
}

/** Records what was measured on a page. */
export function recordPicture(archive: Archive, sha256: string, page: ScanReading['pages'][number]): void {
  const { preview } = page;
  command(
    archive.db,
    `INSERT INTO picture (sha256, page, role, width, height, hash, statistics_json)
     VALUES (:sha256, :page, :role, :width, :height, :hash, :statistics)
     ON CONFLICT (sha256, page) DO UPDATE SET role = excluded.role, width = excluded.width, height = excluded.height,
       hash = excluded.hash, statistics_json = excluded.statistics_json`,
  )({
    sha256,
    page: page.index,
    role: page.role,
    width: page.width,
    height: page.height,
    hash: preview === null ? null : hashBytes(preview.hash),
    statistics: preview === null ? null : JSON.stringify(preview.statistics),
  });
}

/** The 64 bits of a hash, high half first. */
function hashBytes({ high, low }: { readonly high: number; readonly low: number }): Buffer {
  const bytes = Buffer.alloc(8);
  bytes.writeUInt32BE(high >>> 0, 0);
  bytes.writeUInt32BE(low >>> 0, 4);
  return bytes;
}

/** Notes which files of a folder are gone, and which of those gone before are back. */
export function noteMissing(
  archive: Archive,
  rootId: number,
  under: string,
  present: ReadonlySet<string>,
): number {
  const at = archive.now().toISOString();
  const inFolder = [...knownScans(archive.db, rootId).values()].filter(
    (known) => under === '' || known.path.startsWith(`${under}/`),
  );
  const gone = inFolder.filter((known) => !present.has(known.path));
  const mark = command(
    archive.db,
    'UPDATE scan SET missing_since = coalesce(missing_since, :at) WHERE id = :id',
  );
  for (const known of gone) mark({ id: known.id, at });
  const back = command(archive.db, 'UPDATE scan SET missing_since = NULL WHERE id = :id');
  for (const known of inFolder) if (known.missing !== null && present.has(known.path)) back({ id: known.id });
  return gone.length;
}
