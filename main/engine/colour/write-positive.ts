import { rm } from 'node:fs/promises';
import { extname } from 'node:path';
import { appError } from '../../../shared/api/errors.ts';
import type { Look } from '../../../shared/domain/colour/look.ts';
import { besidePath, makeFileAtomically } from '../files/atomic-write.ts';
import { decodeWhole } from '../scans/decode-whole.ts';
import { sharp, type Sharp } from '../scans/image-library.ts';
import { applyLookInFile } from './look-in-file.ts';

/** Kinds of file a positive is written as. */
export type PositiveFormat = 'png' | 'tiff' | 'jpeg';

/** What is to be written. */
export interface Positive {
  readonly scan: string;
  readonly page: number;
  /** Whether the scan's values are light itself without saying so. */
  readonly linear: boolean;
  readonly look: Look;
  /** The part that shows the frame, in fractions of the upright scan. */
  readonly region: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
  readonly turned: number;
  readonly mirrored: boolean;
}

/** How it is to be written. */
export interface PositiveFile {
  readonly path: string;
  readonly format: PositiveFormat;
  /** 16 gives 16 bits where the scan has them; JPEG always has 8. */
  readonly bits: 8 | 16;
  /** The longer side in px; null for every pixel of the scan. */
  readonly longSide: number | null;
  readonly overwrite: boolean;
}

/** What was written. */
export interface WrittenPositive {
  readonly path: string;
  readonly width: number;
  readonly height: number;
  readonly bits: 8 | 16;
}

/** The kind of file a name asks for by its ending; null for any other ending. */
export function findPositiveFormat(path: string): PositiveFormat | null {
  switch (extname(path).toLowerCase()) {
    case '.png':
      return 'png';
    case '.tif':
    case '.tiff':
      return 'tiff';
    case '.jpg':
    case '.jpeg':
      return 'jpeg';
    default:
      return null;
  }
}

/**
 * Writes a scan as it is shown, with every pixel it has, in sRGB; the scan itself is only read. It is decoded into a
 * file, given its look there, and encoded from there, so that memory does not grow with the picture.
 * @throws {AppError} file_exists, disk_full, file_not_written; file_missing, file_unreadable, scan_unreadable; cancelled
 */
export async function writePositive(
  positive: Positive,
  file: PositiveFile,
  signal: AbortSignal,
): Promise<WrittenPositive> {
  const between = `${besidePath(file.path)}.tif`;
  let written: WrittenPositive | null = null;
  await makeFileAtomically(
    file.path,
    async (beside) => {
      try {
        const { scan, page, linear } = positive;
        const longSide = isWhole(positive.region) ? file.longSide : null;
        const whole = await decodeWhole(scan, page, { longSide, linear }, between);
        if (signal.aborted) throw appError('cancelled', {});
        await applyLookInFile(between, whole, positive.look);
        if (signal.aborted) throw appError('cancelled', {});
        const bits = file.format === 'jpeg' || file.bits === 8 ? 8 : whole.bits;
        const pipeline = await arrange(between, whole.bits, bits, positive, file.longSide);
        const { width, height } = await encode(pipeline, file.format, beside);
        written = { path: file.path, width, height, bits };
      } finally {
        await rm(between, { force: true });
      }
    },
    file,
  );
  if (written === null) throw new Error('A positive that was neither written nor failed');
  return written;
}

function isWhole({ x, y, width, height }: Positive['region']): boolean {
  return x === 0 && y === 0 && width === 1 && height === 1;
}

/** The part of the decoded page that is wanted, mirrored left to right, then turned clockwise. */
async function arrange(
  path: string,
  from: 8 | 16,
  bits: 8 | 16,
  { region, turned, mirrored }: Positive,
  longSide: number | null,
): Promise<Sharp> {
  const options = { limitInputPixels: false, unlimited: true, failOn: 'error' } as const;
  const { width, height } = await sharp(path, options).metadata();
  const pipeline = sharp(path, { ...options, sequentialRead: turned % 180 === 0 }).keepIccProfile();
  const space = bits === 16 ? 'rgb16' : 'srgb';
  if (from === 16) pipeline.pipelineColourspace(space);
  pipeline.toColourspace(space);
  if (!isWhole(region)) {
    const left = Math.min(width - 1, Math.round(region.x * width));
    const top = Math.min(height - 1, Math.round(region.y * height));
    pipeline.extract({
      left,
      top,
      width: Math.max(1, Math.min(width - left, Math.round(region.width * width))),
      height: Math.max(1, Math.min(height - top, Math.round(region.height * height))),
    });
  }
  if (longSide !== null) pipeline.resize(longSide, longSide, { fit: 'inside', withoutEnlargement: true });
  // The library mirrors before it turns, as a frame is.
  if (mirrored) pipeline.flop();
  return turned === 0 ? pipeline : pipeline.rotate(turned);
}

async function encode(
  pipeline: Sharp,
  format: PositiveFormat,
  path: string,
): Promise<{ readonly width: number; readonly height: number }> {
  const encoded =
    format === 'png'
      ? pipeline.png({ compressionLevel: 6 })
      : format === 'tiff'
        ? pipeline.tiff({ compression: 'deflate', predictor: 'horizontal' })
        : pipeline.jpeg({ quality: 92, chromaSubsampling: '4:4:4' });
  try {
    return await encoded.toFile(path);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    if (/space|write error/i.test(reason)) throw appError('disk_full', { path }, error);
    throw appError('file_not_written', { path, reason }, error);
  }
}
