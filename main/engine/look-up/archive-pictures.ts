import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { readCodebook } from '../../../shared/domain/look-up/codebook.ts';
import { DESCRIBED_LONG_SIDE } from '../../../shared/domain/look-up/luma.ts';
import { command, query, type WritableDb } from '../db/query.ts';
import { ASSETS } from '../files/assets.ts';
import { sharp } from '../scans/image-library.ts';
import { previewPath } from '../scans/preview-store.ts';
import { createFastKernels } from './fast-kernels.ts';
import { type LookUpIndex, openLookUpIndex, type Preview } from './look-up-index.ts';

const pictureRow = z.object({ sha256: z.string(), page: z.number() });
const neighbourRow = z.object({ id: z.number() });

/** The index of an archive's pictures, opened when it is first asked for. It is a cache: it may be deleted. */
export interface ArchivePictures {
  index(): LookUpIndex;
  /** The grey preview of a picture of the archive, 512 px long or (small) 256, or null when it has none. */
  preview(pictureId: number, size: 'small' | 'large'): Promise<Preview | null>;
  close(): void;
}

/** A picture file in greys, 512 px on its long side at the most. */
export async function greyPreview(file: string | Buffer): Promise<Preview> {
  const { data, info } = await sharp(file)
    .resize(DESCRIBED_LONG_SIDE, DESCRIBED_LONG_SIDE, { fit: 'inside', withoutEnlargement: true })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (info.channels === 1) return { luma: data, width: info.width, height: info.height };
  const luma = new Uint8Array(info.width * info.height);
  for (let at = 0; at < luma.length; at += 1) luma[at] = data[at * info.channels] ?? 0;
  return { luma, width: info.width, height: info.height };
}

/** The pictures of the archive in `folder`. */
export function createArchivePictures(folder: string, db: WritableDb): ArchivePictures {
  let open: LookUpIndex | null = null;

  async function preview(pictureId: number, size: 'small' | 'large'): Promise<Preview | null> {
    const sql = 'SELECT sha256, page FROM picture WHERE id = :pictureId';
    const picture = query(db, pictureRow, sql).find({ pictureId });
    if (!picture) return null;
    const paths = (size === 'small' ? (['small', 'large'] as const) : (['large'] as const)).map((each) =>
      previewPath(folder, picture.sha256, picture.page, each),
    );
    const file = paths.find((path) => existsSync(path));
    return file === undefined ? null : greyPreview(file);
  }

  function openIndex(): LookUpIndex {
    const codebook = readCodebook(readFileSync(new URL('codebook.bin', ASSETS)));
    if (!codebook.ok) throw new Error('The codebook that came with the program is damaged');
    const cache = join(folder, 'previews', 'look-up');
    const options = {
      folder: cache,
      codebook: codebook.value,
      kernels: createFastKernels(),
      verify: preview,
      neighbours: (pictureId: number) => neighboursOf(db, pictureId),
    };
    let index: LookUpIndex;
    try {
      index = openLookUpIndex(options);
    } catch {
      // Whatever is wrong with a cache, it is made again; the archive's truth is elsewhere.
      rmSync(cache, { recursive: true, force: true });
      index = openLookUpIndex(options);
    }
    if (index.size() === 0)
      command(db, 'UPDATE picture SET described_at = NULL WHERE described_at IS NOT NULL')();
    return index;
  }

  return {
    index: () => (open ??= openIndex()),
    preview,
    close: () => {
      open?.close();
      open = null;
    },
  };
}

/** How many frames to either side may belong to the same burst. Source: the measured method, three. */
const REACH_ON_ROLL = 3;

function neighboursOf(db: WritableDb, pictureId: number): number[] {
  return query(
    db,
    neighbourRow,
    `SELECT DISTINCT other.id FROM picture
     JOIN scan ON scan.sha256 = picture.sha256
     JOIN frame_scan ON frame_scan.scan_id = scan.id AND frame_scan.page = picture.page
     JOIN frame ON frame.id = frame_scan.frame_id
     JOIN frame AS near ON near.roll_id = frame.roll_id AND near.id <> frame.id
       AND near.ordinal BETWEEN frame.ordinal - ${REACH_ON_ROLL} AND frame.ordinal + ${REACH_ON_ROLL}
     JOIN frame_scan AS near_scan ON near_scan.frame_id = near.id
     JOIN scan AS near_file ON near_file.id = near_scan.scan_id
     JOIN picture AS other ON other.sha256 = near_file.sha256 AND other.page = near_scan.page
     WHERE picture.id = :pictureId AND other.id <> picture.id`,
  )
    .all({ pictureId })
    .map((row) => row.id);
}
