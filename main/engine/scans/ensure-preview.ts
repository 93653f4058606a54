import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { isAppError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { query } from '../db/query.ts';
import { makePreview } from './make-preview.ts';
import { parsePictureId } from './picture-id.ts';
import { keepPreview, previewPath } from './preview-store.ts';

const fileRow = z.object({ root: z.string(), path: z.string() });

/**
 * The file of a picture's preview as scanned, whatever it is shown as, made again from a scan of that content when it is not there. Null when no such scan
 * can be reached or read: the archive is whole without it.
 */
export async function ensurePreview(
  archive: Archive,
  picture: string,
  size: 'small' | 'large',
): Promise<string | null> {
  const parsed = parsePictureId(picture);
  if (!parsed) return null;
  const file = previewPath(archive.folder, parsed.sha256, parsed.page, size);
  if (existsSync(file) && statSync(file).size > 0) return file;
  const scans = query(
    archive.db,
    fileRow,
    `SELECT scan_root.path AS root, scan.path FROM scan JOIN scan_root ON scan_root.id = scan.root_id
     WHERE scan.sha256 = :sha256 ORDER BY scan.missing_since IS NOT NULL, scan.id`,
  ).all({ sha256: parsed.sha256 });
  const reachable = scans.map((scan) => join(scan.root, scan.path)).find((path) => existsSync(path));
  if (reachable === undefined) return null;
  try {
    const preview = await makePreview(reachable, parsed.page);
    const keep = (which: 'small' | 'large', jpeg: Uint8Array | null) => {
      if (jpeg) keepPreview(previewPath(archive.folder, parsed.sha256, parsed.page, which), jpeg);
    };
    keep('large', preview.large);
    keep('small', preview.small);
    return file;
  } catch (error) {
    if (isAppError(error)) return null;
    throw error;
  }
}
