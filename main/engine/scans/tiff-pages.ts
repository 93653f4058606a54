import type { ImageKind } from './recognise.ts';
import { isTurnedSideways, type PageRole, type ScanPage } from './scan-page.ts';
import { numberOf, numbersOf, type TiffDirectory, type TiffFile } from './tiff-directory.ts';
import { PHOTOMETRIC, TIFF_TAG } from './tiff-tags.ts';

/** A page of a TIFF with where it stands: which directory of the chain, and which sub-directory of that. */
export interface TiffImage {
  readonly page: ScanPage;
  readonly chain: number;
  readonly sub: number | null;
  readonly directory: TiffDirectory;
  readonly photometric: number;
  readonly colourChannels: number;
}

// Bits of NewSubfileType. Source: TIFF 6.0 p. 36.
const REDUCED = 1;
const TRANSPARENCY_MASK = 4;

/** An unmarked page of the same proportions counts as a preview from half the size down. Our choice. */
const PREVIEW_SCALE = 0.5;
const SAME_PROPORTIONS = 0.02;

/** The pages of a TIFF or DNG with the part each plays: scans, small previews, and infrared kept as a page. */
export function listTiffPages(file: TiffFile, kind: ImageKind): TiffImage[] {
  const found: { chain: number; sub: number | null; directory: TiffDirectory }[] = [
    ...file.pages.map(({ directory }, chain) => ({ chain, sub: null, directory })),
    ...file.pages.flatMap(({ subDirectories }, chain) =>
      subDirectories.map((directory, sub) => ({ chain, sub, directory })),
    ),
  ];
  const turned = numberOf(found[0]?.directory ?? EMPTY, TIFF_TAG.orientation, 1);
  const images = found.map((place, index) => describeImage(place, index, kind === 'dng' ? turned : 1));
  const largest = images.reduce((most, { page }) => Math.max(most, page.width * page.height), 0);
  const scans = images.filter((image) => isMarkedScan(image));
  return images.map((image) => ({
    ...image,
    page: { ...image.page, role: roleOf(image, scans, largest) },
  }));
}

const EMPTY: TiffDirectory = { offset: 0, littleEndian: true, entries: new Map() };

function describeImage(
  place: { chain: number; sub: number | null; directory: TiffDirectory },
  index: number,
  orientationOfFile: number,
): TiffImage {
  const { directory } = place;
  const channels = numberOf(directory, TIFF_TAG.samplesPerPixel, 1);
  const photometric = numberOf(
    directory,
    TIFF_TAG.photometric,
    channels >= 3 ? PHOTOMETRIC.rgb : PHOTOMETRIC.blackIsZero,
  );
  const colourChannels = Math.min(channels, countColourChannels(photometric, channels));
  const tag = numberOf(directory, TIFF_TAG.orientation, orientationOfFile);
  const orientation = tag >= 1 && tag <= 8 ? tag : 1;
  const width = numberOf(directory, TIFF_TAG.imageWidth, 0);
  const height = numberOf(directory, TIFF_TAG.imageLength, 0);
  const sideways = isTurnedSideways(orientation);
  const page: ScanPage = {
    index,
    role: 'scan',
    width: sideways ? height : width,
    height: sideways ? width : height,
    orientation,
    bits: numberOf(directory, TIFF_TAG.bitsPerSample, 1),
    channels,
    // One sample more than the colours need, on a grey or RGB scan, is infrared, however it is tagged.
    infraredChannel: channels === colourChannels + 1 && isGreyOrRgb(photometric) ? colourChannels : null,
  };
  return { ...place, page, photometric, colourChannels };
}

function countColourChannels(photometric: number, channels: number): number {
  switch (photometric) {
    case PHOTOMETRIC.rgb:
    case PHOTOMETRIC.yCbCr:
    case PHOTOMETRIC.cieLab:
    case PHOTOMETRIC.iccLab:
      return 3;
    case PHOTOMETRIC.separated:
      return 4;
    case PHOTOMETRIC.linearRaw:
      return channels >= 3 ? 3 : 1;
    default:
      return 1;
  }
}

function isGreyOrRgb(photometric: number): boolean {
  return (
    photometric === PHOTOMETRIC.whiteIsZero ||
    photometric === PHOTOMETRIC.blackIsZero ||
    photometric === PHOTOMETRIC.rgb ||
    photometric === PHOTOMETRIC.linearRaw
  );
}

function subfileType(image: TiffImage): number {
  return numberOf(image.directory, TIFF_TAG.newSubfileType, 0);
}

function isMarkedScan(image: TiffImage): boolean {
  return (subfileType(image) & (REDUCED | TRANSPARENCY_MASK)) === 0;
}

function roleOf(image: TiffImage, scans: readonly TiffImage[], largest: number): PageRole {
  const { page } = image;
  if ((subfileType(image) & TRANSPARENCY_MASK) !== 0 || isInfraredPage(image, scans)) return 'infrared';
  // A file whose only picture is marked as reduced still has that picture as its scan.
  if ((subfileType(image) & REDUCED) !== 0) return page.width * page.height < largest ? 'preview' : 'scan';
  return scans.some((other) => isSmallerCopy(page, other.page)) ? 'preview' : 'scan';
}

/** A grey page of exactly the size of a colour page, beside it in the file. */
function isInfraredPage(image: TiffImage, scans: readonly TiffImage[]): boolean {
  if (image.colourChannels !== 1 || image.sub !== null) return false;
  return scans.some(
    (other) =>
      other.sub === null &&
      other.colourChannels === 3 &&
      other.page.width === image.page.width &&
      other.page.height === image.page.height &&
      Math.abs(other.chain - image.chain) === 1,
  );
}

function isSmallerCopy(page: ScanPage, other: ScanPage): boolean {
  if (page.width > other.width * PREVIEW_SCALE || page.height > other.height * PREVIEW_SCALE) return false;
  const proportions = (page.width * other.height) / Math.max(1, page.height * other.width);
  return Math.abs(proportions - 1) <= SAME_PROPORTIONS;
}

/** Bits of each sample, one number where all are alike, or null where they differ. */
export function findSampleBits(directory: TiffDirectory): number | null {
  const bits = new Set(numbersOf(directory, TIFF_TAG.bitsPerSample));
  return bits.size > 1 ? null : ([...bits][0] ?? 1);
}
