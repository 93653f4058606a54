import { deflateSync } from 'node:zlib';

/** A page to write: its pixels as stored, and any tags beyond those that follow from them. */
export interface TiffPageToWrite {
  readonly width: number;
  readonly height: number;
  /** Samples per pixel. */
  readonly channels: number;
  readonly bits: 8 | 16;
  /** Interleaved samples; 16-bit ones are written in the byte order of the file. */
  readonly pixels: Uint8Array | Uint16Array;
  readonly photometric: number;
  readonly deflate?: boolean;
  /** Further tags, or others in place of the usual ones: SHORTs as numbers, text, or bytes. */
  readonly tags?: Readonly<Record<number, readonly number[] | string | Buffer>>;
  /** Rationals, as value over 1000. */
  readonly rationals?: Readonly<Record<number, number>>;
  readonly subPages?: readonly TiffPageToWrite[];
  /** Tags of the Exif directory. */
  readonly exif?: Readonly<Record<number, readonly number[] | string | Buffer>>;
}

export interface TiffOptions {
  readonly bigEndian?: boolean;
  readonly big?: boolean;
}

interface Field {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  readonly value: Buffer;
}

/** Writes a TIFF by the letter of the standard: pixels first, directories behind them, as scanners do. For tests only. */
export function writeTiff(
  pages: readonly TiffPageToWrite[],
  { bigEndian = false, big = false }: TiffOptions = {},
): Buffer {
  const parts: Buffer[] = [];
  let length = 0;
  const number = (value: number, bytes: 2 | 4 | 8): Buffer => {
    const out = Buffer.alloc(bytes);
    if (bytes === 8) {
      if (bigEndian) out.writeBigUInt64BE(BigInt(value));
      else out.writeBigUInt64LE(BigInt(value));
    } else if (bigEndian) out.writeUIntBE(value, 0, bytes);
    else out.writeUIntLE(value, 0, bytes);
    return out;
  };
  const offsetBytes = big ? 8 : 4;
  const add = (bytes: Buffer): number => {
    if (length % 2 === 1) {
      parts.push(Buffer.alloc(1));
      length += 1;
    }
    const at = length;
    parts.push(bytes);
    length += bytes.length;
    return at;
  };

  const field = (tag: number, value: readonly number[] | string | Buffer): Field => {
    if (typeof value === 'string') {
      const bytes = Buffer.from(`${value}\0`);
      return { tag, type: 2, count: bytes.length, value: bytes };
    }
    if (Buffer.isBuffer(value)) return { tag, type: 7, count: value.length, value };
    return { tag, type: 3, count: value.length, value: Buffer.concat(value.map((each) => number(each, 2))) };
  };
  const long = (tag: number, values: readonly number[]): Field => ({
    tag,
    type: 4,
    count: values.length,
    value: Buffer.concat(values.map((each) => number(each, 4))),
  });

  /** Adds a directory with its pixels; where it stands and where its pointer to the next one stands. */
  const addPage = (page: TiffPageToWrite): { at: number; nextAt: number } => {
    const stored = storedPixels(page, bigEndian);
    const strip = page.deflate === true ? deflateSync(stored) : stored;
    const stripAt = add(strip);
    const subs = (page.subPages ?? []).map((sub) => addPage(sub).at);
    const fields = new Map<number, Field>();
    const set = (made: Field) => fields.set(made.tag, made);
    set(long(256, [page.width]));
    set(long(257, [page.height]));
    set(field(258, new Array<number>(page.channels).fill(page.bits)));
    set(field(259, [page.deflate === true ? 8 : 1]));
    set(field(262, [page.photometric]));
    set(long(273, [stripAt]));
    set(field(277, [page.channels]));
    set(long(278, [page.height]));
    set(long(279, [strip.length]));
    if (subs.length > 0) set(long(330, subs));
    for (const [tag, value] of Object.entries(page.rationals ?? {})) {
      const value1000 = Buffer.concat([number(Math.round(value * 1000), 4), number(1000, 4)]);
      set({ tag: Number(tag), type: 5, count: 1, value: value1000 });
    }
    for (const [tag, value] of Object.entries(page.tags ?? {})) set(field(Number(tag), value));

    if (page.exif !== undefined) {
      const exif = Object.entries(page.exif).map(([tag, value]) => field(Number(tag), value));
      set(long(34_665, [addDirectory(exif).at]));
    }
    return addDirectory([...fields.values()]);
  };

  const addDirectory = (unsorted: readonly Field[]): { at: number; nextAt: number } => {
    const sorted = [...unsorted].sort((a, b) => a.tag - b.tag);
    const entries = sorted.map(({ tag, type, count, value }) => {
      const inline = value.length <= offsetBytes;
      const last = inline
        ? Buffer.concat([value, Buffer.alloc(offsetBytes - value.length)])
        : number(add(value), offsetBytes);
      return Buffer.concat([number(tag, 2), number(type, 2), number(count, offsetBytes), last]);
    });
    const body = Buffer.concat([number(entries.length, big ? 8 : 2), ...entries]);
    const at = add(Buffer.concat([body, number(0, offsetBytes)]));
    return { at, nextAt: at + body.length };
  };

  add(
    Buffer.concat([
      Buffer.from(bigEndian ? 'MM' : 'II'),
      number(big ? 43 : 42, 2),
      Buffer.alloc(big ? 12 : 4),
    ]),
  );
  const placed = pages.map(addPage);
  const file = Buffer.concat(parts);
  if (big) number(8, 2).copy(file, 4);
  let pointerAt = big ? 8 : 4;
  for (const { at, nextAt } of placed) {
    number(at, offsetBytes).copy(file, pointerAt);
    pointerAt = nextAt;
  }
  return file;
}

function storedPixels(page: TiffPageToWrite, bigEndian: boolean): Buffer {
  if (page.pixels instanceof Uint8Array) return Buffer.from(page.pixels);
  const out = Buffer.alloc(page.pixels.length * 2);
  page.pixels.forEach((value, i) =>
    bigEndian ? out.writeUInt16BE(value, i * 2) : out.writeUInt16LE(value, i * 2),
  );
  return out;
}
