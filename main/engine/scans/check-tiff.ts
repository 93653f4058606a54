import type { ScanReason } from './scan-reason.ts';
import { numberOf, numbersOf } from './tiff-directory.ts';
import { findSampleBits, type TiffImage } from './tiff-pages.ts';
import { PHOTOMETRIC, TIFF_TAG } from './tiff-tags.ts';

/** The largest picture that is read, in pixels. Our choice: a whole sleeve at 4800 ppi, one hour never. */
export const MOST_PIXELS = 1_500_000_000;

/** More samples per pixel are no photograph's. Our choice. */
const MOST_CHANNELS = 32;

// Values of Compression. Source: TIFF 6.0 p. 30; Adobe Photoshop TIFF Technical Notes 2002 (8); TechNote 2 (6, 7).
const UNCOMPRESSED = 1;
const OLD_STYLE_JPEG = 6;

/**
 * The most that a byte can unfold to. Source: deflate at most 258 bytes from 2 bits (zlib technical details, 1032:1);
 * LZW a string of 4096 from 12 bits; PackBits 128 from 2 bytes. The rest, our choice: far above what is possible.
 */
const MOST_UNFOLDED: Readonly<Record<number, number>> = {
  5: 2800,
  7: 20_000,
  8: 1100,
  32_773: 64,
  32_946: 1100,
};
const MOST_UNFOLDED_ELSEWHERE = 1_000_000;

const READABLE_BITS = new Set([1, 2, 4, 8, 16, 32, 64]);
const READABLE_COLOURS = new Set<number>([
  PHOTOMETRIC.whiteIsZero,
  PHOTOMETRIC.blackIsZero,
  PHOTOMETRIC.rgb,
  PHOTOMETRIC.palette,
  PHOTOMETRIC.mask,
  PHOTOMETRIC.separated,
  PHOTOMETRIC.yCbCr,
  PHOTOMETRIC.cieLab,
  PHOTOMETRIC.iccLab,
  PHOTOMETRIC.linearRaw,
]);

/**
 * Judges a page by its directory alone, in no time: whether it is of a layout that is read, whether its picture can
 * lie where it should within `sizeBytes`, and whether so many pixels can come from so few bytes. Null: nothing wrong.
 */
export function checkTiffPage(image: TiffImage, sizeBytes: number): ScanReason | null {
  const { directory, page, photometric } = image;
  const compression = numberOf(directory, TIFF_TAG.compression, UNCOMPRESSED);
  const bits = findSampleBits(directory);
  if (!isWhole(page.width) || !isWhole(page.height) || !isWhole(page.channels)) return 'directory_damaged';
  if (compression === OLD_STYLE_JPEG) return 'old_style_jpeg';
  if (photometric === PHOTOMETRIC.colourFilterArray) return 'sensor_mosaic';
  if (!READABLE_COLOURS.has(photometric) || page.channels > MOST_CHANNELS) return 'colour_layout';
  if (bits === null || !READABLE_BITS.has(bits)) return 'sample_depth';
  const pieces = findPieces(image);
  if (pieces === null) return 'directory_damaged';
  const needed = countBytes(image, bits);
  const held = pieces.reduce((sum, { bytes }) => sum + bytes, 0);
  if (needed / Math.max(1, held) > mostUnfolded(compression)) {
    // A little short is a file still growing; far too short is a claim that was never true.
    return compression === UNCOMPRESSED && needed <= held * 8 ? 'cut_off' : 'size_impossible';
  }
  if (page.width * page.height > MOST_PIXELS) return 'too_large';
  return pieces.some(({ offset, bytes }) => offset + bytes > sizeBytes || offset === 0) ? 'cut_off' : null;
}

/** Where the last strip or tile of a page ends in the file, in bytes. */
export function findEndOfPixels(image: TiffImage): number {
  return (findPieces(image) ?? []).reduce((end, { offset, bytes }) => Math.max(end, offset + bytes), 0);
}

function mostUnfolded(compression: number): number {
  return compression === UNCOMPRESSED ? 1 : (MOST_UNFOLDED[compression] ?? MOST_UNFOLDED_ELSEWHERE);
}

function isWhole(value: number): boolean {
  return Number.isInteger(value) && value > 0;
}

/** The strips or tiles with their places; null where the directory does not say. */
function findPieces({ directory, page }: TiffImage): { offset: number; bytes: number }[] | null {
  const tiled = directory.entries.has(TIFF_TAG.tileOffsets);
  const offsets = numbersOf(directory, tiled ? TIFF_TAG.tileOffsets : TIFF_TAG.stripOffsets);
  const bytes = numbersOf(directory, tiled ? TIFF_TAG.tileByteCounts : TIFF_TAG.stripByteCounts);
  if (offsets.length === 0) return null;
  // Without byte counts (old writers leave them out) only an uncompressed single strip can be placed.
  if (bytes.length === 0 && offsets.length === 1 && !tiled) {
    const rowBytes = Math.ceil((page.width * page.channels * (findSampleBits(directory) ?? 1)) / 8);
    return [{ offset: offsets[0] ?? 0, bytes: rowBytes * page.height }];
  }
  if (bytes.length < offsets.length) return null;
  return offsets.map((offset, i) => ({ offset, bytes: bytes[i] ?? 0 }));
}

function countBytes({ directory, page, photometric }: TiffImage, bits: number): number {
  const pixels = page.width * page.height;
  // Colour may be stored for every second pixel each way; then a pixel takes half the bytes.
  const subsampled = photometric === PHOTOMETRIC.yCbCr ? 0.5 : 1;
  const rowsExact = numberOf(directory, TIFF_TAG.compression, UNCOMPRESSED) === UNCOMPRESSED;
  const bytes = (pixels * page.channels * bits * subsampled) / 8;
  return rowsExact ? Math.floor(bytes) : bytes;
}
