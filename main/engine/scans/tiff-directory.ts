import { accept, refuse, type Checked } from '../../../shared/domain/checked.ts';
import type { ByteSource } from './byte-source.ts';
import { isKnownTag, TIFF_TAG } from './tiff-tags.ts';

/** One entry of a directory with its value bytes, in the byte order of the file. */
export interface TiffEntry {
  readonly type: number;
  readonly count: number;
  /** Null when the value does not lie within the file, or is larger than any such value should be. */
  readonly value: Buffer | null;
  /** The entry as it stands in the file: 12 bytes, in a BigTIFF 20. */
  readonly raw: Buffer;
}

/** One directory (a page, or facts about one), known tags only. */
export interface TiffDirectory {
  readonly offset: number;
  readonly littleEndian: boolean;
  readonly entries: ReadonlyMap<number, TiffEntry>;
}

/** A directory of the main chain with its sub-directories. */
interface TiffPage {
  readonly directory: TiffDirectory;
  readonly subDirectories: readonly TiffDirectory[];
}

/** The directories of a file; `looped` and `broken` say how its chain ended where it did not end well. */
export interface TiffFile {
  readonly big: boolean;
  readonly littleEndian: boolean;
  readonly pages: readonly TiffPage[];
  readonly looped: boolean;
  readonly broken: boolean;
}

export type TiffRefusal = 'not_tiff' | 'directory_not_written' | 'directory_damaged';

interface Layout {
  readonly big: boolean;
  readonly littleEndian: boolean;
  readonly source: ByteSource;
}

/** Bytes per value by field type. Source: TIFF 6.0 p. 15–16; BigTIFF design (types 16–18). */
const TYPE_BYTES: Readonly<Record<number, number>> = {
  1: 1,
  2: 1,
  3: 2,
  4: 4,
  5: 8,
  6: 1,
  7: 1,
  8: 2,
  9: 4,
  10: 8,
  11: 4,
  12: 8,
  13: 4,
  16: 8,
  17: 8,
  18: 8,
};

// Our choice, all four: far above what scanners write, far below what could hurt.
const MOST_ENTRIES = 4096;
const MOST_PAGES = 2000;
const MOST_SUB_DIRECTORIES = 64;
const LARGEST_VALUE_BYTES = 32 * 1024 * 1024;

/** Reads the directories of a TIFF or BigTIFF: nothing but the directories and the values that are used. */
export async function readTiff(source: ByteSource): Promise<Checked<TiffFile, TiffRefusal>> {
  const head = await source.read(0, 16);
  const layout = readLayout(head, source);
  if (layout === null) return refuse('not_tiff');
  const first = readOffset(layout, head, layout.big ? 8 : 4);
  if (first < 8 || first >= source.sizeBytes) return refuse('directory_not_written');
  const pages: TiffPage[] = [];
  const seen = new Set<number>();
  let next = first;
  let looped = false;
  let broken = false;
  while (next !== 0 && pages.length < MOST_PAGES) {
    if (seen.has(next)) {
      looped = true;
      break;
    }
    seen.add(next);
    const read = await readDirectory(layout, next);
    if (read === null) {
      broken = true;
      break;
    }
    pages.push({
      directory: read.directory,
      subDirectories: await readSubDirectories(layout, read.directory),
    });
    next = read.next;
  }
  if (pages.length === 0) return refuse('directory_damaged');
  return accept({ big: layout.big, littleEndian: layout.littleEndian, pages, looped, broken });
}

/** The directory at `offset` of the same source (Exif keeps one of its own), or null when it is not there. */
export async function readDirectoryAt(
  file: Pick<TiffFile, 'big' | 'littleEndian'>,
  source: ByteSource,
  offset: number,
): Promise<TiffDirectory | null> {
  return (await readDirectory({ ...file, source }, offset))?.directory ?? null;
}

function readLayout(head: Buffer, source: ByteSource): Layout | null {
  if (head.length < 8) return null;
  const order = head.toString('latin1', 0, 2);
  if (order !== 'II' && order !== 'MM') return null;
  const littleEndian = order === 'II';
  const version = littleEndian ? head.readUInt16LE(2) : head.readUInt16BE(2);
  if (version === 42) return { big: false, littleEndian, source };
  return version === 43 && head.length === 16 ? { big: true, littleEndian, source } : null;
}

async function readDirectory(
  layout: Layout,
  offset: number,
): Promise<{ directory: TiffDirectory; next: number } | null> {
  const countBytes = layout.big ? 8 : 2;
  const entryBytes = layout.big ? 20 : 12;
  const head = await layout.source.read(offset, countBytes);
  if (head.length < countBytes) return null;
  const count = layout.big ? readOffset(layout, head, 0) : readUnsigned(layout.littleEndian, head, 0, 2);
  if (count === 0 || count > MOST_ENTRIES) return null;
  const nextBytes = layout.big ? 8 : 4;
  const body = await layout.source.read(offset + countBytes, count * entryBytes + nextBytes);
  if (body.length < count * entryBytes) return null;
  const entries = new Map<number, TiffEntry>();
  for (let i = 0; i < count; i++) {
    const raw = body.subarray(i * entryBytes, (i + 1) * entryBytes);
    const tag = readUnsigned(layout.littleEndian, raw, 0, 2);
    // The first of two equal tags counts, as in the readers that the rest of the world uses.
    if (isKnownTag(tag) && !entries.has(tag)) entries.set(tag, await readEntry(layout, raw));
  }
  // A file that ends right behind its last entry has no next directory.
  const next =
    body.length < count * entryBytes + nextBytes ? 0 : readOffset(layout, body, count * entryBytes);
  return { directory: { offset, littleEndian: layout.littleEndian, entries }, next };
}

async function readEntry(layout: Layout, raw: Buffer): Promise<TiffEntry> {
  const type = readUnsigned(layout.littleEndian, raw, 2, 2);
  const count = layout.big ? readOffset(layout, raw, 4) : readUnsigned(layout.littleEndian, raw, 4, 4);
  const bytes = (TYPE_BYTES[type] ?? 0) * count;
  const inlineAt = layout.big ? 12 : 8;
  if (bytes === 0 || bytes > LARGEST_VALUE_BYTES) return { type, count, value: null, raw };
  if (bytes <= raw.length - inlineAt)
    return { type, count, value: raw.subarray(inlineAt, inlineAt + bytes), raw };
  const offset = readOffset(layout, raw, inlineAt);
  if (offset + bytes > layout.source.sizeBytes) return { type, count, value: null, raw };
  const value = await layout.source.read(offset, bytes);
  return { type, count, value: value.length === bytes ? value : null, raw };
}

async function readSubDirectories(layout: Layout, directory: TiffDirectory): Promise<TiffDirectory[]> {
  const found: TiffDirectory[] = [];
  for (const offset of new Set(numbersOf(directory, TIFF_TAG.subIfds).slice(0, MOST_SUB_DIRECTORIES))) {
    if (offset < 8 || offset === directory.offset) continue;
    const read = await readDirectory(layout, offset);
    if (read !== null) found.push(read.directory);
  }
  return found;
}

function readOffset(layout: Layout, bytes: Buffer, at: number): number {
  if (!layout.big) return readUnsigned(layout.littleEndian, bytes, at, 4);
  const value = layout.littleEndian ? bytes.readBigUInt64LE(at) : bytes.readBigUInt64BE(at);
  // Beyond every file there is: clamped so that it stays an exact number.
  return value > BigInt(Number.MAX_SAFE_INTEGER) ? Number.MAX_SAFE_INTEGER : Number(value);
}

function readUnsigned(littleEndian: boolean, bytes: Buffer, at: number, length: 2 | 4): number {
  return littleEndian ? bytes.readUIntLE(at, length) : bytes.readUIntBE(at, length);
}

/** The values of a tag as numbers (a rational as its quotient; of 0/0 and n/0, NaN), or none when it is not there. */
export function numbersOf(directory: TiffDirectory, tag: number): number[] {
  const entry = directory.entries.get(tag);
  if (!entry?.value) return [];
  const size = TYPE_BYTES[entry.type] ?? 0;
  if (entry.type === 2 || size === 0) return [];
  const numbers = new Array<number>(entry.count);
  for (let i = 0; i < entry.count; i++) {
    numbers[i] = readNumber(entry.value, i * size, entry.type, directory.littleEndian);
  }
  return numbers;
}

/** The first value of a tag, or `absent`. */
export function numberOf(directory: TiffDirectory, tag: number, absent: number): number {
  return numbersOf(directory, tag)[0] ?? absent;
}

/** The bytes of a tag's value as they stand in the file, or null. */
export function bytesOf(directory: TiffDirectory, tag: number): Buffer | null {
  return directory.entries.get(tag)?.value ?? null;
}

function readNumber(bytes: Buffer, at: number, type: number, littleEndian: boolean): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset + at);
  switch (type) {
    case 3:
      return view.getUint16(0, littleEndian);
    case 4:
    case 13:
      return view.getUint32(0, littleEndian);
    case 5:
      return quotient(view.getUint32(0, littleEndian), view.getUint32(4, littleEndian));
    case 6:
      return view.getInt8(0);
    case 8:
      return view.getInt16(0, littleEndian);
    case 9:
      return view.getInt32(0, littleEndian);
    case 10:
      return quotient(view.getInt32(0, littleEndian), view.getInt32(4, littleEndian));
    case 11:
      return view.getFloat32(0, littleEndian);
    case 12:
      return view.getFloat64(0, littleEndian);
    case 16:
    case 18:
      return Number(view.getBigUint64(0, littleEndian));
    case 17:
      return Number(view.getBigInt64(0, littleEndian));
    default:
      return view.getUint8(0);
  }
}

function quotient(above: number, below: number): number {
  return below === 0 ? Number.NaN : above / below;
}
