import { decodePage, MOST_LAB_PIXELS, type DecodeOptions, type FailOn } from './decode-page.ts';
import { sharp, type Sharp } from './image-library.ts';
import { walkJpegScans } from './jpeg-scans.ts';
import type { OpenScan } from './open-scan.ts';
import type { PageImage, ScanStructure } from './scan-image.ts';
import type { ScanReason, ScanRemark } from './scan-reason.ts';
import { checkTiffPage, findEndOfPixels, MOST_PIXELS } from './check-tiff.ts';
import { numberOf } from './tiff-directory.ts';
import { PHOTOMETRIC, TIFF_TAG } from './tiff-tags.ts';

/** Pixels in sRGB, three bytes each, upright. */
export interface Picture {
  readonly pixels: Buffer;
  readonly width: number;
  readonly height: number;
}

/** A page as a picture, with the judgement of the very decode that made it. */
export interface Rendered {
  /** Null where nothing can be shown. */
  readonly picture: Picture | null;
  readonly reason: ScanReason | null;
  readonly remarks: readonly ScanRemark[];
}

/** Bytes that a JPEG spends at the least on this many pixels. Our choice: far beyond a blank page's 340. */
const MOST_JPEG_PIXELS_PER_BYTE = 4000;
/** Deflate at its best. Source: zlib technical details, "maximum compression factor": 1032:1. */
const MOST_PNG_UNFOLDED = 1100;

/**
 * Decodes a page once, strictly, to judge and to show it; only where that fails again, leniently, to show what can be
 * shown. A picture whose size is impossible is refused before any decoding.
 */
export async function renderPage(
  scan: OpenScan,
  structure: ScanStructure,
  image: PageImage,
  wanted: Pick<DecodeOptions, 'longSide' | 'linear'>,
): Promise<Rendered> {
  const reason = checkClaims(scan, structure, image);
  const render = async (failOn: FailOn, input: Buffer | string = scan.input): Promise<Picture> =>
    toPicture(await decodePage(scan, image, input, { ...wanted, failOn }));
  if (reason === 'cut_off') {
    const picture = await orNull(render('none', await fillUp(scan, image)));
    return { picture, reason, remarks: [] };
  }
  if (reason !== null) return { picture: null, reason, remarks: [] };
  try {
    return { picture: await render('warning'), reason: null, remarks: [] };
  } catch {
    // Something is odd, or wrong: which of them, the second reading tells.
    return judgeAgain(scan, structure, image, render);
  }
}

/** No more than this is put behind a file that is cut off, in bytes. Our choice. */
const MOST_FILLED = 256 * 1024 * 1024;

/** A copy with zeros for what is missing: the decoder drops a whole strip where it lacks a single byte. */
async function fillUp(scan: OpenScan, { tiff }: PageImage): Promise<Buffer | string> {
  const missing = tiff === null ? 0 : findEndOfPixels(tiff) - scan.sizeBytes;
  if (missing <= 0 || missing > MOST_FILLED || typeof scan.input === 'string') return scan.input;
  return Buffer.concat([scan.input, Buffer.alloc(missing)]);
}

async function toPicture(pipeline: Sharp): Promise<Picture> {
  const { data, info } = await pipeline.raw().toBuffer({ resolveWithObject: true });
  return { pixels: data, width: info.width, height: info.height };
}

async function judgeAgain(
  scan: OpenScan,
  structure: ScanStructure,
  image: PageImage,
  render: (failOn: FailOn, input?: Buffer | string) => Promise<Picture>,
): Promise<Rendered> {
  if (structure.kind === 'jpeg') return judgeJpeg(scan, render);
  if (await oddOnlyInHeader(scan, image)) {
    const picture = await orNull(render('error'));
    if (picture !== null) return { picture, reason: null, remarks: ['odd_but_readable'] };
  }
  const picture = await orNull(render('none'));
  if (image.tiff !== null) {
    return { picture, reason: isStrangeCompression(image) ? 'compression' : 'pixels_damaged', remarks: [] };
  }
  return { picture, reason: (await endsEarly(scan, structure)) ? 'cut_off' : 'pixels_damaged', remarks: [] };
}

/** A JPEG whose end mark alone is damaged reads strictly once the mark is mended; one that is cut off does not. */
async function judgeJpeg(
  scan: OpenScan,
  render: (failOn: FailOn, input?: Buffer | string) => Promise<Picture>,
): Promise<Rendered> {
  const bytes = typeof scan.input === 'string' ? await scan.whole(0) : scan.input;
  const scans = walkJpegScans(bytes);
  if (!scans.ended && scans.coverAll) {
    const body = bytes.at(-1) === 0xff ? bytes.subarray(0, -1) : bytes;
    const mended = await orNull(render('warning', Buffer.concat([body, Buffer.from([0xff, 0xd9])])));
    if (mended !== null) return { picture: mended, reason: null, remarks: ['end_marker_missing'] };
  }
  return {
    picture: await orNull(render('none')),
    reason: scans.ended ? 'pixels_damaged' : 'cut_off',
    remarks: [],
  };
}

/**
 * Whether a strict look at the header alone already complains. Pixels compressed as JPEG report their damage as
 * warnings too, so there only a complaint of the header may be passed over.
 */
async function oddOnlyInHeader(scan: OpenScan, image: PageImage): Promise<boolean> {
  if (image.tiff === null || numberOf(image.tiff.directory, TIFF_TAG.compression, 1) !== 7) return true;
  try {
    await sharp(scan.input, {
      failOn: 'warning',
      limitInputPixels: false,
      page: image.tiff.chain,
    }).metadata();
    return false;
  } catch {
    // The header is odd by itself.
    return true;
  }
}

/** Compressions that every decoder knows; a failure on another most likely means that it is not read here. */
const KNOWN_COMPRESSIONS = new Set([1, 2, 3, 4, 5, 7, 8, 32_773, 32_946]);

function isStrangeCompression({ tiff }: PageImage): boolean {
  if (tiff === null) return false;
  const compression = numberOf(tiff.directory, TIFF_TAG.compression, 1);
  // A linear DNG with compression 7 holds lossless JPEG.
  return (
    !KNOWN_COMPRESSIONS.has(compression) || (compression === 7 && tiff.photometric === PHOTOMETRIC.linearRaw)
  );
}

async function endsEarly(scan: OpenScan, structure: ScanStructure): Promise<boolean> {
  if (structure.kind === 'webp') {
    const head = await scan.source.read(0, 8);
    return head.length < 8 || head.readUInt32LE(4) + 8 > scan.sizeBytes;
  }
  const tail = await scan.source.read(Math.max(0, scan.sizeBytes - 4096), 4096);
  return !tail.includes('IEND');
}

function checkClaims(scan: OpenScan, structure: ScanStructure, image: PageImage): ScanReason | null {
  const { page, tiff } = image;
  const pixels = page.width * page.height;
  if (tiff !== null) {
    const reason = checkTiffPage(tiff, scan.sizeBytes);
    const isLab = tiff.photometric === PHOTOMETRIC.cieLab || tiff.photometric === PHOTOMETRIC.iccLab;
    return reason === null && isLab && pixels > MOST_LAB_PIXELS ? 'too_large' : reason;
  }
  if (pixels === 0) return 'directory_damaged';
  if (structure.kind === 'jpeg' && pixels > scan.sizeBytes * MOST_JPEG_PIXELS_PER_BYTE)
    return 'size_impossible';
  const bytes = (pixels * page.channels * page.bits) / 8;
  // A PNG palette or less than 8 bits is read as more than it holds: the eighth part is the least.
  if (structure.kind === 'png' && bytes / 24 > scan.sizeBytes * MOST_PNG_UNFOLDED) return 'size_impossible';
  return pixels > MOST_PIXELS ? 'too_large' : null;
}

async function orNull(rendering: Promise<Picture>): Promise<Picture | null> {
  try {
    return await rendering;
  } catch {
    // Nothing can be shown of it; the caller has the reason.
    return null;
  }
}
