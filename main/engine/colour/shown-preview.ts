import { existsSync, readdirSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { z } from 'zod';
import type { Look } from '../../../shared/domain/colour/look.ts';
import { applyLook, makePositiveLook } from '../../../shared/domain/colour/look.ts';
import type { Picture } from '../../../shared/domain/colour/picture.ts';
import type { Archive } from '../archive/archive.ts';
import { query } from '../db/query.ts';
import { ensurePreview } from '../scans/ensure-preview.ts';
import { declareSrgb, sharp } from '../scans/image-library.ts';
import { parsePictureId, pictureId } from '../scans/picture-id.ts';
import { keepPreview, previewPath } from '../scans/preview-store.ts';
import { loadPicture } from './load-picture.ts';
import { adjustOfFrame, shownName } from './looks.ts';
import { readMeasured } from './measured-roll.ts';

/** Long sides of the two previews, px: as those of the scan. */
const LONG_SIDE = { large: 1600, small: 256 } as const;

/** JPEG quality of a rendering: a little above that of the preview it is made from, so that little is lost twice. */
const QUALITY = 86;

const shownRow = z.object({
  key: z.string(),
  shown: z.string().nullable(),
  measured: z.string(),
  rollLook: z.string().nullable(),
  frameLook: z.string().nullable(),
});

const SHOWN = `SELECT roll_colour.key, roll_colour.shown, roll_colour.measured_json AS measured,
  roll.look_json AS rollLook, frame.look_json AS frameLook
FROM scan JOIN frame_scan ON frame_scan.scan_id = scan.id AND frame_scan.page = :page
JOIN frame ON frame.id = frame_scan.frame_id JOIN roll ON roll.id = frame.roll_id
JOIN roll_colour ON roll_colour.roll_id = roll.id
WHERE scan.sha256 = :sha256`;

/** The looks that a picture is shown in at present, by their names. */
function looksOfPicture(archive: Archive, sha256: string, page: number): Map<string, () => Look> {
  const looks = new Map<string, () => Look>();
  for (const row of query(archive.db, shownRow, SHOWN).all({ sha256, page })) {
    const adjust = adjustOfFrame(row.rollLook, row.frameLook);
    const name = shownName(row, adjust);
    const measured = readMeasured(row.measured);
    if (name !== null && measured !== null)
      looks.set(name, () => makePositiveLook(measured.rendering, adjust));
  }
  return looks;
}

/**
 * The file of a picture as it is shown: its rendering where its name tells of one, made now when it is not there yet.
 * The one way from a picture's name to its pixels, for window and sheet alike. Null when no scan of it can be reached,
 * or when nothing is shown under this name any more.
 */
export async function shownPreview(
  archive: Archive,
  picture: string,
  size: 'small' | 'large',
): Promise<string | null> {
  const parsed = parsePictureId(picture);
  if (parsed === null) return null;
  const { sha256, page, shown } = parsed;
  if (shown === null) return ensurePreview(archive, picture, size);
  const file = previewPath(archive.folder, sha256, page, size, shown);
  if (existsSync(file)) return file;
  const looks = looksOfPicture(archive, sha256, page);
  const look = looks.get(shown)?.();
  // The large one serves both sizes: the small one of the scan was rounded twice already.
  const scanned = look === undefined ? null : await ensurePreview(archive, pictureId(sha256, page), 'large');
  if (look === undefined || scanned === null) return null;
  keepPreview(file, await encodeShown(applyLook(await loadPicture(scanned, LONG_SIDE[size]), look)));
  forgetOthers(file, size, pictureId(sha256, page), new Set(looks.keys()));
  return file;
}

/** A picture as JPEG, as previews are kept. */
export async function encodeShown(picture: Picture): Promise<Buffer> {
  const { width, height, channels, samples } = picture;
  const bytes = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
  return declareSrgb(
    await sharp(bytes, { raw: { width, height, channels } }).jpeg({ quality: QUALITY }).toBuffer(),
  );
}

/** Removes renderings of the picture that nothing is shown in any more: they are made again when they are asked for. */
function forgetOthers(file: string, size: string, scanned: string, names: ReadonlySet<string>): void {
  const folder = dirname(file);
  const ending = `-${size}.jpg`;
  for (const entry of readdirSync(folder)) {
    if (!entry.startsWith(`${scanned}-`) || !entry.endsWith(ending) || entry === basename(file)) continue;
    const name = entry.slice(scanned.length + 1, -ending.length);
    if (/^[0-9a-f]{16}$/.test(name) && !names.has(name)) rmSync(join(folder, entry), { force: true });
  }
}
