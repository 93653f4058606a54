import type { TiffDirectory, TiffEntry } from './tiff-directory.ts';
import { TIFF_TAG } from './tiff-tags.ts';

/** What the pixels need to be read; everything else (notes, previews, further pages) is left out. */
const STRUCTURE: readonly number[] = [
  TIFF_TAG.imageWidth,
  TIFF_TAG.imageLength,
  TIFF_TAG.bitsPerSample,
  TIFF_TAG.compression,
  TIFF_TAG.photometric,
  TIFF_TAG.fillOrder,
  TIFF_TAG.stripOffsets,
  TIFF_TAG.samplesPerPixel,
  TIFF_TAG.rowsPerStrip,
  TIFF_TAG.stripByteCounts,
  TIFF_TAG.planarConfiguration,
  TIFF_TAG.predictor,
  TIFF_TAG.tileWidth,
  TIFF_TAG.tileLength,
  TIFF_TAG.tileOffsets,
  TIFF_TAG.tileByteCounts,
  TIFF_TAG.extraSamples,
  TIFF_TAG.sampleFormat,
  TIFF_TAG.jpegTables,
  TIFF_TAG.yCbCrSubSampling,
  TIFF_TAG.yCbCrPositioning,
  TIFF_TAG.referenceBlackWhite,
];

const SHORT = 3;

/** Room that `retagTiff` needs behind a file: 22 entries of up to 20 bytes, and values of up to 64 samples. */
export const RETAG_ROOM_BYTES = 1024;

/**
 * Changes a TIFF in memory so that its first and only directory is `directory`, with some tags set anew (up to 64
 * values each). The pixels stay where they are; the directory goes into the `RETAG_ROOM_BYTES` behind the file. With it
 * a page is read as what it is where its own tags mislead the decoder: infrared tagged as transparency, linear sensor
 * colours, Lab.
 */
export function retagTiff(
  out: Buffer,
  big: boolean,
  directory: TiffDirectory,
  changes: ReadonlyMap<number, readonly number[]>,
): void {
  const kept = STRUCTURE.flatMap((tag): [number, TiffEntry | readonly number[]][] => {
    const entry = changes.get(tag) ?? directory.entries.get(tag);
    return entry === undefined ? [] : [[tag, entry]];
  }).sort(([a], [b]) => a - b);

  const fileBytes = out.length - RETAG_ROOM_BYTES;
  const start = fileBytes + (fileBytes % 2);
  const countBytes = big ? 8 : 2;
  const entryBytes = big ? 20 : 12;
  const valuesAt = start + countBytes + kept.length * entryBytes + (big ? 8 : 4);
  const write = writerFor(out, directory.littleEndian);

  if (big) write(8, 8, start);
  else write(4, 4, start);
  write(start, countBytes, kept.length);
  let nextValue = valuesAt;
  kept.forEach(([tag, value], i) => {
    const at = start + countBytes + i * entryBytes;
    if ('raw' in value) {
      value.raw.copy(out, at);
      return;
    }
    write(at, 2, tag);
    write(at + 2, 2, SHORT);
    write(at + 4, big ? 8 : 4, value.length);
    const inlineAt = at + (big ? 12 : 8);
    const isInline = value.length * 2 <= (big ? 8 : 4);
    if (!isInline) write(inlineAt, big ? 8 : 4, nextValue);
    value.forEach((number, k) => write((isInline ? inlineAt : nextValue) + k * 2, 2, number));
    if (!isInline) nextValue += value.length * 2;
  });
}

function writerFor(
  out: Buffer,
  littleEndian: boolean,
): (at: number, length: 2 | 4 | 8, value: number) => void {
  return (at, length, value) => {
    if (length === 8) {
      if (littleEndian) out.writeBigUInt64LE(BigInt(value), at);
      else out.writeBigUInt64BE(BigInt(value), at);
    } else if (littleEndian) out.writeUIntLE(value, at, length);
    else out.writeUIntBE(value, at, length);
  };
}
