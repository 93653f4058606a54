import { open, type FileHandle } from 'node:fs/promises';
import { linearToSrgb } from '../../../shared/domain/colour/srgb.ts';
import { lookUp, type Look } from '../../../shared/domain/colour/look.ts';
import { readFully, sourceFromHandle } from '../scans/byte-source.ts';
import type { WholePage } from '../scans/decode-whole.ts';
import { numbersOf, readTiff } from '../scans/tiff-directory.ts';
import { TIFF_TAG } from '../scans/tiff-tags.ts';

/** How much is taken at once, bytes: a multiple of 6, so that pixels are never cut. Our choice. */
const PIECE_BYTES = 6 * 512 * 1024;

/**
 * Puts a look on every pixel of an uncompressed TIFF of three channels that we decoded ourselves, in place, piece by
 * piece: memory does not grow with the picture.
 */
export async function applyLookInFile(path: string, page: WholePage, look: Look): Promise<void> {
  const handle = await open(path, 'r+');
  try {
    const { size } = await handle.stat();
    const file = await readTiff(sourceFromHandle(handle, size));
    const directory = file.ok ? file.value.pages[0]?.directory : undefined;
    if (directory === undefined) throw new Error('A TIFF of our own that cannot be read');
    const offsets = numbersOf(directory, TIFF_TAG.stripOffsets);
    const counts = numbersOf(directory, TIFF_TAG.stripByteCounts);
    const show = page.bits === 16 ? pixels16(page, look) : pixels8(look);
    for (const [at, offset] of offsets.entries()) {
      await changeStrip(handle, offset, counts[at] ?? 0, show);
    }
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function changeStrip(
  handle: FileHandle,
  offset: number,
  count: number,
  show: (bytes: Buffer) => void,
): Promise<void> {
  const piece = Buffer.allocUnsafeSlow(Math.min(PIECE_BYTES, count));
  for (let done = 0; done < count;) {
    const bytes = piece.subarray(0, Math.min(piece.length, count - done));
    if ((await readFully(handle, bytes, offset + done)) < bytes.length)
      throw new Error('A TIFF of our own that ends early');
    show(bytes);
    await handle.write(bytes, 0, bytes.length, offset + done);
    done += bytes.length;
  }
}

function pixels8(look: Look): (bytes: Buffer) => void {
  const tables = look.tables.map((table) =>
    Uint8Array.from({ length: 256 }, (_, code) => Math.round(255 * lookUp(table, code / 255))),
  );
  return (bytes) => {
    for (let at = 0; at + 2 < bytes.length; at += 3) {
      const green = bytes[at + 1] ?? 0;
      bytes[at] = tables[0]?.[look.single ? green : (bytes[at] ?? 0)] ?? 0;
      bytes[at + 1] = tables[1]?.[green] ?? 0;
      bytes[at + 2] = tables[2]?.[look.single ? green : (bytes[at + 2] ?? 0)] ?? 0;
    }
  };
}

function pixels16({ encoding, colour }: WholePage, look: Look): (bytes: Buffer) => void {
  const codeOf = (value: number) => (encoding === 'linear' ? linearToSrgb(value / 65_535) : value / 65_535);
  const tables = look.tables.map((table) =>
    Uint16Array.from({ length: 65_536 }, (_, value) => Math.round(65_535 * lookUp(table, codeOf(value)))),
  );
  const levels = findLevels(colour);
  return (bytes) => {
    const samples = new Uint16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2);
    const [red, green, blue] = tables;
    for (let at = 0; at + 2 < samples.length; at += 3) {
      if (levels !== null) levels(samples, at);
      const middle = samples[at + 1] ?? 0;
      samples[at] = red?.[look.single ? middle : (samples[at] ?? 0)] ?? 0;
      samples[at + 1] = green?.[middle] ?? 0;
      samples[at + 2] = blue?.[look.single ? middle : (samples[at + 2] ?? 0)] ?? 0;
    }
  };
}

/** What turns one pixel of a sensor into linear sRGB, in place; null where it already is. */
export function findLevels(colour: WholePage['colour']): ((samples: Uint16Array, at: number) => void) | null {
  const isPlain = colour.matrix === null && colour.black.every((black) => black === 0);
  return isPlain && colour.white.every((white) => white === 65_535) ? null : levelsOf(colour);
}

/** Values of a sensor to linear sRGB, as previews are converted. */
function levelsOf({ black, white, matrix }: WholePage['colour']): (samples: Uint16Array, at: number) => void {
  const [a, b, c, d, e, f, g, h, i] = matrix ?? [1, 0, 0, 0, 1, 0, 0, 0, 1];
  const scale = white.map((value, channel) => 1 / Math.max(1, value - (black[channel] ?? 0)));
  const full = (light: number) => Math.round(65_535 * Math.min(1, Math.max(0, light)));
  return (samples, at) => {
    const red = ((samples[at] ?? 0) - black[0]) * (scale[0] ?? 0);
    const green = ((samples[at + 1] ?? 0) - black[1]) * (scale[1] ?? 0);
    const blue = ((samples[at + 2] ?? 0) - black[2]) * (scale[2] ?? 0);
    samples[at] = full(a * red + b * green + c * blue);
    samples[at + 1] = full(d * red + e * green + f * blue);
    samples[at + 2] = full(g * red + h * green + i * blue);
  };
}
