import { readIccProfile, type IccProfile } from './icc-profile.ts';
import { sharp } from './image-library.ts';
import { readJpegHeader, type JpegHeader } from './jpeg-header.ts';
import type { OpenScan } from './open-scan.ts';
import { readBlocks, readOrientation, type MetadataBlocks } from './metadata-blocks.ts';
import type { ImageKind } from './recognise.ts';
import type { ScanReason, ScanRemark } from './scan-reason.ts';
import { isTurnedSideways, type ScanPage } from './scan-page.ts';
import { bytesOf, readTiff, type TiffFile } from './tiff-directory.ts';
import { listTiffPages, type TiffImage } from './tiff-pages.ts';
import { PHOTOMETRIC, TIFF_TAG } from './tiff-tags.ts';

/** A page with what the decoder needs to know. */
export interface PageImage {
  readonly page: ScanPage;
  readonly tiff: TiffImage | null;
  readonly file: TiffFile | null;
  readonly profile: IccProfile | null;
  /** Whether the profile is to be applied, or is left out (there is none, it is sRGB, is damaged, does not fit). */
  readonly profileUse: 'convert' | 'leave out';
  readonly isCmyk: boolean;
  readonly remarks: readonly ScanRemark[];
}

/** The structure of a scan file: its pages and its blocks of metadata; nothing is decoded yet. */
export interface ScanStructure {
  readonly kind: ImageKind;
  readonly images: readonly PageImage[];
  readonly jpeg: JpegHeader | null;
  readonly file: TiffFile | null;
  readonly blocks: MetadataBlocks;
  readonly remarks: readonly ScanRemark[];
}

/** Reads the structure of a file of a known kind, or tells why there is none to read. */
export async function readStructure(scan: OpenScan, kind: ImageKind): Promise<ScanStructure | ScanReason> {
  if (kind === 'tiff' || kind === 'dng') return readTiffStructure(scan, kind);
  return kind === 'jpeg' ? readJpegStructure(scan) : readOtherStructure(scan, kind);
}

async function readTiffStructure(scan: OpenScan, kind: ImageKind): Promise<ScanStructure | ScanReason> {
  const read = await readTiff(scan.source);
  if (!read.ok) return read.reason === 'not_tiff' ? 'not_an_image' : read.reason;
  const file = read.value;
  const images = listTiffPages(file, kind).map((tiff): PageImage => {
    const isCmyk = tiff.photometric === PHOTOMETRIC.separated;
    const use = chooseProfile(bytesOf(tiff.directory, TIFF_TAG.iccProfile), tiff.colourChannels);
    const remarks = [...use.remarks];
    if (tiff.page.infraredChannel !== null) remarks.push('has_infrared');
    else if (tiff.page.channels > tiff.colourChannels) remarks.push('extra_samples');
    if (isCmyk && use.profileUse === 'leave out') remarks.push('colours_approximate');
    return { page: tiff.page, tiff, file, ...use, isCmyk, remarks };
  });
  const remarks: ScanRemark[] = [];
  if (file.looped) remarks.push('page_loop');
  if (file.broken) remarks.push('page_chain_broken');
  return { kind, images, jpeg: null, file, blocks: await readBlocks({ tiff: file, scan }), remarks };
}

async function readJpegStructure(scan: OpenScan): Promise<ScanStructure | ScanReason> {
  const jpeg = await readJpegHeader(scan.source);
  if (jpeg.width === null || jpeg.height === null || jpeg.components === 0) return 'cut_off';
  const blocks = await readBlocks({ exif: jpeg.exif, xmp: jpeg.xmp, iptc: jpeg.iptc });
  const image = describeSingle(
    { width: jpeg.width, height: jpeg.height, bits: jpeg.bits, channels: jpeg.components, alpha: false },
    readOrientation(blocks),
    jpeg.icc,
    jpeg.components === 4,
  );
  return { kind: 'jpeg', images: [image], jpeg, file: null, blocks, remarks: [] };
}

async function readOtherStructure(scan: OpenScan, kind: ImageKind): Promise<ScanStructure | ScanReason> {
  let header;
  try {
    header = await sharp(scan.input, { failOn: 'none', limitInputPixels: false }).metadata();
  } catch {
    // The start of the file is right and the rest of its header is not: the reason says so.
    return 'directory_damaged';
  }
  const blocks = await readBlocks({
    exif: withoutExifStart(header.exif ?? null),
    xmp: header.xmp ?? null,
    iptc: header.iptc ?? null,
  });
  const image = describeSingle(
    {
      width: header.width,
      height: header.height,
      bits: header.depth === 'ushort' ? 16 : 8,
      channels: header.channels,
      alpha: header.hasAlpha,
    },
    readOrientation(blocks),
    header.icc ?? null,
    false,
  );
  return { kind, images: [image], jpeg: null, file: null, blocks, remarks: [] };
}

function withoutExifStart(block: Buffer | null): Buffer | null {
  return block !== null && block.toString('latin1', 0, 4) === 'Exif' ? block.subarray(6) : block;
}

function describeSingle(
  stored: { width: number; height: number; bits: number; channels: number; alpha: boolean },
  orientation: number,
  icc: Buffer | null,
  isCmyk: boolean,
): PageImage {
  const sideways = isTurnedSideways(orientation);
  const use = chooseProfile(icc, stored.channels - (stored.alpha ? 1 : 0));
  const remarks = [...use.remarks];
  if (stored.alpha) remarks.push('transparency_ignored');
  if (isCmyk && use.profileUse === 'leave out') remarks.push('colours_approximate');
  const page: ScanPage = {
    index: 0,
    role: 'scan',
    width: sideways ? stored.height : stored.width,
    height: sideways ? stored.width : stored.height,
    orientation,
    bits: stored.bits,
    channels: stored.channels,
    infraredChannel: null,
  };
  return { page, tiff: null, file: null, ...use, isCmyk, remarks };
}

const SPACE_FOR_CHANNELS: Readonly<Record<number, readonly string[]>> = {
  1: ['GRAY'],
  3: ['RGB ', 'Lab '],
  4: ['CMYK'],
};

function chooseProfile(
  icc: Buffer | null,
  colourChannels: number,
): { profile: IccProfile | null; profileUse: PageImage['profileUse']; remarks: ScanRemark[] } {
  if (icc === null) return { profile: null, profileUse: 'leave out', remarks: [] };
  const profile = readIccProfile(icc);
  if (profile === null) return { profile, profileUse: 'leave out', remarks: ['profile_damaged'] };
  if (!(SPACE_FOR_CHANNELS[colourChannels] ?? []).includes(profile.space)) {
    return { profile, profileUse: 'leave out', remarks: ['profile_does_not_fit'] };
  }
  return { profile, profileUse: profile.isSrgb ? 'leave out' : 'convert', remarks: [] };
}
