import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { isAppError } from '../../../shared/api/errors.ts';
import type { Picture } from '../../../shared/domain/colour/picture.ts';
import type { Archive } from '../archive/archive.ts';
import { query } from '../db/query.ts';
import { decodeDeep } from '../scans/decode-whole.ts';
import { MEASURED_LONG_SIDE } from './load-picture.ts';
import { findLevels } from './look-in-file.ts';

const fileRow = z.object({ root: z.string(), path: z.string(), remarks: z.string() });

/**
 * A page of a scan from the scan itself, small, with all its bits; null where no scan of it can be reached or read.
 * The preview of a dense negative is a few steps of eight bits with the noise of JPEG: measured, that moves its greys.
 */
export async function loadDeep(archive: Archive, sha256: string, page: number): Promise<Picture | null> {
  const files = query(
    archive.db,
    fileRow,
    `SELECT scan_root.path AS root, scan.path, scan.remarks_json AS remarks FROM scan
     JOIN scan_root ON scan_root.id = scan.root_id
     WHERE scan.sha256 = :sha256 ORDER BY scan.missing_since IS NOT NULL, scan.id`,
  ).all({ sha256 });
  const file = files.find(({ root, path }) => existsSync(join(root, path)));
  if (file === undefined) return null;
  const linear = z.array(z.string()).parse(JSON.parse(file.remarks)).includes('linear');
  try {
    const deep = await decodeDeep(join(file.root, file.path), page, { longSide: MEASURED_LONG_SIDE, linear });
    const { width, height, samples, encoding, colour } = deep;
    const levels = encoding === 'linear' ? findLevels(colour) : null;
    if (levels !== null && samples instanceof Uint16Array)
      for (let at = 0; at + 2 < samples.length; at += 3) levels(samples, at);
    return { width, height, channels: 3, samples, encoding };
  } catch (error) {
    if (isAppError(error)) return null;
    throw error;
  }
}
