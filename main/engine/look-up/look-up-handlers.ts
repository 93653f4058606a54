import { basename, resolve } from 'node:path';
import { z } from 'zod';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import type { Likeness, PictureHit } from '../../../shared/api/methods/look-up-methods.ts';
import type { Hit, Region } from '../../../shared/domain/look-up/decide.ts';
import { countOnes } from '../../../shared/domain/look-up/mixing.ts';
import { turnHash } from '../../../shared/domain/look-up/frame-hash.ts';
import { compose, mapPoint, scaling, type Matrix } from '../../../shared/domain/look-up/matrix.ts';
import type { Archive } from '../archive/archive.ts';
import { query, type ReadableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { pictureId } from '../scans/picture-id.ts';
import { readScan } from '../scans/read-scan.ts';
import { describeReason } from '../scans/scan-reason.ts';
import { findHits } from '../search/hits.ts';
import { greyPreview } from './archive-pictures.ts';
import { countDescribed } from './describe-pictures.ts';
import type { Preview } from './look-up-index.ts';
import { startDescribing } from './start-describing.ts';

/** A picture file from anywhere, in greys. @throws {AppError} picture_unreadable, file_missing */
async function readPicture(archive: Archive, file: string): Promise<Preview> {
  const path = resolve(file);
  const today = archive.now().toISOString().slice(0, 10);
  const reading = await readScan(path, { today, curve: 'auto' });
  const shown = reading.pages.find((page) => page.index === reading.mainPage) ?? reading.pages[0];
  const preview = shown?.preview?.large ?? reading.pages.find((page) => page.preview)?.preview?.large ?? null;
  if (preview === null) {
    const reason = reading.reason === null ? 'it shows nothing' : describeReason(reading.reason);
    throw appError('picture_unreadable', { path, reason });
  }
  return greyPreview(preview);
}

const shownRow = z.object({
  frameId: z.number(),
  sha256: z.string(),
  page: z.number(),
  x: z.number(),
  y: z.number(),
  width: z.number(),
  height: z.number(),
});

/** The frame of a picture in which the middle of a region lies, and the region within that frame. */
function frameAt(
  db: ReadableDb,
  picture: number,
  region: Region,
): { frameId: number; region: Region; comparedWith: PictureHit['comparedWith'] } | null {
  const frames = query(
    db,
    shownRow,
    `SELECT frame_scan.frame_id AS frameId, picture.sha256, picture.page, frame_scan.x, frame_scan.y, frame_scan.width, frame_scan.height
     FROM picture JOIN scan ON scan.sha256 = picture.sha256
     JOIN frame_scan ON frame_scan.scan_id = scan.id AND frame_scan.page = picture.page
     WHERE picture.id = :picture ORDER BY frame_scan.id`,
  ).all({ picture });
  const middle = { x: region.x + region.width / 2, y: region.y + region.height / 2 };
  const at =
    frames.find(
      (frame) =>
        middle.x >= frame.x &&
        middle.x <= frame.x + frame.width &&
        middle.y >= frame.y &&
        middle.y <= frame.y + frame.height,
    ) ?? frames[0];
  if (!at) return null;
  return {
    frameId: at.frameId,
    region: {
      x: (region.x - at.x) / at.width,
      y: (region.y - at.y) / at.height,
      width: region.width / at.width,
      height: region.height / at.height,
    },
    comparedWith: {
      pictureId: pictureId(at.sha256, at.page),
      frame: { x: at.x, y: at.y, width: at.width, height: at.height },
    },
  };
}

/** `matrix`, which leads into a scan, leading into the frame that is `part` of the scan. */
function intoFrame(matrix: Matrix, part: Region): Matrix {
  return compose(
    scaling(1 / part.width, 1 / part.height),
    compose([1, 0, -part.x, 0, 1, -part.y, 0, 0, 1], matrix),
  );
}

function cornersOf(matrix: Matrix): PictureHit['corners'] {
  const at = (x: number, y: number) => {
    const [u, v] = mapPoint(matrix, x, y);
    return { x: u, y: v };
  };
  const corners: NonNullable<PictureHit['corners']> = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
  return corners.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y)) ? corners : null;
}

/** The hits as frames of the archive, each frame once, best first. */
function hitsAsFrames(db: ReadableDb, hits: readonly Hit[]): PictureHit[] {
  const frames = new Map<number, PictureHit>();
  for (const { pictureId: found, region, confidence, turned, mirrored, negative, homography } of hits) {
    const at = frameAt(db, found, region);
    if (!at || frames.has(at.frameId)) continue;
    const [hit] = findHits(db, 'frame.id = :frameId', { frameId: at.frameId });
    if (!hit) continue;
    const matrix = intoFrame(homography, at.comparedWith.frame);
    frames.set(at.frameId, {
      ...hit,
      confidence,
      region: at.region,
      turned,
      mirrored,
      negative,
      comparedWith: at.comparedWith,
      homography: [...matrix],
      corners: cornersOf(matrix),
    });
  }
  return [...frames.values()];
}

const scanRow = z.object({
  scanId: z.number(),
  sha256: z.string(),
  path: z.string(),
  frames: z.string(),
  pictureId: z.number().nullable(),
  hash: z.instanceof(Uint8Array).nullable(),
});

type ScanWithHash = z.output<typeof scanRow>;

const SCANS = `SELECT scan.id AS scanId, scan.sha256, scan_root.path || '/' || scan.path AS path,
  (SELECT json_group_array(DISTINCT roll.number || '/' || frame.label) FROM frame_scan
    JOIN frame ON frame.id = frame_scan.frame_id JOIN roll ON roll.id = frame.roll_id
    WHERE frame_scan.scan_id = scan.id) AS frames, picture.id AS pictureId, picture.hash
  FROM scan JOIN scan_root ON scan_root.id = scan.root_id
  LEFT JOIN picture ON picture.sha256 = scan.sha256 AND picture.role = 'scan'
  WHERE scan.missing_since IS NULL GROUP BY scan.id ORDER BY scan.path_compare, scan.id`;

function shown(scan: ScanWithHash): Likeness['scans'][number] {
  return { scanId: scan.scanId, path: scan.path, frames: z.array(z.string()).parse(JSON.parse(scan.frames)) };
}

/** Bits in which two hashes may differ for their pictures to be compared. Our choice: wide, since a comparison decides. */
const NEAR_BITS = 12;

function hashOf(bytes: Uint8Array): { high: number; low: number } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, 8);
  return { high: view.getUint32(0), low: view.getUint32(4) };
}

function sameFiles(scans: readonly ScanWithHash[]): Likeness[] {
  const byContent = new Map<string, ScanWithHash[]>();
  for (const scan of scans) byContent.set(scan.sha256, [...(byContent.get(scan.sha256) ?? []), scan]);
  return [...byContent.values()]
    .filter((group) => group.length > 1)
    .map((group) => ({
      kind: 'same file',
      reason: 'Their contents are the same, byte for byte (SHA-256).',
      confidence: 1,
      scans: group.map(shown),
    }));
}

/** Pairs of different files whose pictures are near by hash and are the same when laid over each other. */
async function samePictures(
  archive: Archive,
  scans: readonly ScanWithHash[],
  signal: AbortSignal,
): Promise<Likeness[]> {
  const index = archive.pictures.index();
  const found: Likeness[] = [];
  const hashed = scans.flatMap((scan) => (scan.hash ? [{ scan, hash: hashOf(scan.hash) }] : []));
  for (const [at, { scan, hash }] of hashed.entries()) {
    if (signal.aborted) throw appError('cancelled', {});
    const turns = turnHash(hash);
    const near = hashed
      .slice(at + 1)
      .filter(
        (other) =>
          other.scan.sha256 !== scan.sha256 &&
          turns.some(
            (turn) =>
              countOnes(turn.high ^ other.hash.high) + countOnes(turn.low ^ other.hash.low) <= NEAR_BITS,
          ),
      );
    const preview =
      near.length > 0 && scan.pictureId !== null
        ? await archive.pictures.preview(scan.pictureId, 'large')
        : null;
    if (!preview) continue;
    const { answer, hits } = await index.find(preview.luma, preview.width, preview.height, { limit: 8 });
    if (answer !== 'frame' && answer !== 'scene') continue;
    for (const other of near) {
      const hit = hits.find((each) => each.pictureId === other.scan.pictureId);
      if (!hit || !coversWhole(hit.region) || showSameFrame(scan, other.scan)) continue;
      const reason = 'They look like scans of one frame when laid over each other; look before you decide.';
      const pair = [shown(scan), shown(other.scan)];
      found.push({ kind: 'same picture', reason, confidence: hit.confidence, scans: pair });
    }
  }
  return found;
}

/** Whether a region is about the whole frame: a crop or a neighbouring view is no duplicate. */
function coversWhole({ x, y, width, height }: Region): boolean {
  return Math.max(Math.abs(x), Math.abs(y), Math.abs(1 - x - width), Math.abs(1 - y - height)) < 0.08;
}

/** Whether two scans are known as versions of one frame already. */
function showSameFrame(one: ScanWithHash, other: ScanWithHash): boolean {
  const frames = shown(other).frames;
  return shown(one).frames.some((frame) => frames.includes(frame));
}

export const LOOK_UP_HANDLERS: HandlersOf<
  'pictures.describe' | 'pictures.indexed' | 'pictures.which' | 'pictures.duplicates'
> = {
  'pictures.describe': (archive, _input, { jobs }) => {
    archive.pictures.index();
    return startDescribing(archive, jobs);
  },
  'pictures.indexed': (archive) => {
    archive.pictures.index();
    return countDescribed(archive.db);
  },
  'pictures.which': async (archive, { file, limit }) => {
    const picture = await readPicture(archive, file).catch((error: unknown) => {
      if (isAppError(error, 'scan_unreadable')) {
        throw appError('picture_unreadable', { path: basename(file), reason: error.details.reason }, error);
      }
      throw error;
    });
    const found = await archive.pictures.index().find(picture.luma, picture.width, picture.height, { limit });
    return { answer: found.answer, hits: hitsAsFrames(archive.db, found.hits) };
  },
  'pictures.duplicates': async (archive, _input, { signal }) => {
    const scans = query(archive.db, scanRow, SCANS).all();
    return [...sameFiles(scans), ...(await samePictures(archive, scans, signal))];
  },
};
