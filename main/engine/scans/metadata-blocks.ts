import { sourceFromBuffer, type ByteSource } from './byte-source.ts';
import { readIptc, type IptcFields } from './iptc.ts';
import {
  bytesOf,
  numberOf,
  readDirectoryAt,
  readTiff,
  type TiffDirectory,
  type TiffFile,
} from './tiff-directory.ts';
import { TIFF_TAG } from './tiff-tags.ts';
import { readXmp, type XmpFields } from './xmp.ts';

/** The three kinds of notes a file may carry, read but not yet weighed against each other. */
export interface MetadataBlocks {
  /** Directories with the camera's or scanner's tags, the file's first directory first. */
  readonly directories: readonly TiffDirectory[];
  readonly exif: TiffDirectory | null;
  readonly xmp: XmpFields | null;
  readonly iptc: IptcFields | null;
  readonly damaged: boolean;
}

interface RawBlocks {
  readonly exif: Buffer | null;
  readonly xmp: Buffer | null;
  readonly iptc: Buffer | null;
}

/** Reads the blocks of a file: cut out of it already, or to be found in the directories of a TIFF. */
export async function readBlocks(
  from: RawBlocks | { readonly tiff: TiffFile; readonly scan: { readonly source: ByteSource } },
): Promise<MetadataBlocks> {
  if ('tiff' in from) {
    const directories = from.tiff.pages.map((page) => page.directory);
    const find = (tag: number): Buffer | null =>
      directories.map((directory) => bytesOf(directory, tag)).find((bytes) => bytes !== null) ?? null;
    return readParts(from.tiff, from.scan.source, directories, {
      xmp: find(TIFF_TAG.xmp),
      iptc: find(TIFF_TAG.iptc),
    });
  }
  if (from.exif === null) return readParts(null, null, [], from);
  const source = sourceFromBuffer(from.exif);
  const read = await readTiff(source);
  if (!read.ok) return { ...(await readParts(null, null, [], from)), damaged: true };
  // The second directory of an Exif block describes its thumbnail, not the picture.
  const first = read.value.pages.slice(0, 1).map((page) => page.directory);
  return readParts(read.value, source, first, from);
}

async function readParts(
  file: TiffFile | null,
  source: ByteSource | null,
  directories: readonly TiffDirectory[],
  raw: Pick<RawBlocks, 'xmp' | 'iptc'>,
): Promise<MetadataBlocks> {
  const at =
    directories.map((directory) => numberOf(directory, TIFF_TAG.exifDirectory, 0)).find((n) => n > 0) ?? 0;
  const exif = file !== null && source !== null && at > 0 ? await readDirectoryAt(file, source, at) : null;
  const xmp = raw.xmp === null ? null : await readXmp(raw.xmp);
  return {
    directories,
    exif,
    xmp,
    iptc: raw.iptc === null ? null : readIptc(raw.iptc),
    damaged: (at > 0 && exif === null) || (raw.xmp !== null && xmp === null),
  };
}

/** Exif orientation 1 to 8; anything else counts as 1. */
export function readOrientation(blocks: MetadataBlocks): number {
  const first = blocks.directories[0];
  const value = first === undefined ? 1 : numberOf(first, TIFF_TAG.orientation, 1);
  return Number.isInteger(value) && value >= 1 && value <= 8 ? value : 1;
}
