import { cleanText, cleanWords } from './clean-text.ts';
import { findPhysicalSize, type PhysicalSize, type Resolution } from './physical-size.ts';
import { sortScanDates } from './scan-dates.ts';
import type { PageImage, ScanStructure } from './scan-image.ts';
import { isTurnedSideways } from './scan-page.ts';
import type { ScanRemark } from './scan-reason.ts';
import { bytesOf, numberOf, type TiffDirectory } from './tiff-directory.ts';
import { TIFF_TAG } from './tiff-tags.ts';

/** A caption with the place in the file where it stands. */
interface Caption {
  readonly where: 'exif' | 'iptc' | 'xmp';
  readonly text: string;
}

/** What a file says about its picture. Null throughout: it does not say. */
export interface ScanMetadata {
  /** Name of the embedded colour profile. */
  readonly profile: string | null;
  /** Size on film, upright, in mm, and the resolution behind it: only where the file's makes sense for film. */
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly ppi: number | null;
  /** Of the device that made the file: the scanner, or the camera of a copy stand. */
  readonly maker: string | null;
  readonly model: string | null;
  readonly software: string | null;
  /** All places, also where they differ. */
  readonly captions: readonly Caption[];
  /** When the picture was taken, EDTF; never a scanner's time. */
  readonly captured: string | null;
  readonly capturedRaw: string | null;
  /** When it was scanned: ISO 8601 wall time, with its offset from UTC where the file has one. */
  readonly scanned: string | null;
  readonly scannedRaw: string | null;
}

/** Weighs the notes of a file. `today` (YYYY-MM-DD) serves only to tell dates that lie in the future. */
export function readMetadata(
  structure: ScanStructure,
  image: PageImage,
  today: string,
): { metadata: ScanMetadata; remarks: readonly ScanRemark[] } {
  const { blocks } = structure;
  const { exif, xmp, iptc } = blocks;
  // The page's own directory speaks first, then the file's first.
  const directories =
    image.tiff === null ? blocks.directories : [image.tiff.directory, ...blocks.directories];
  const text = (tag: number): string | null =>
    directories.map((directory) => cleanText(bytesOf(directory, tag))).find((found) => found !== null) ??
    null;
  const exifText = (tag: number): string | null => (exif === null ? null : rawText(exif, tag));

  const dates = sortScanDates(
    {
      exifOriginal: exifText(TIFF_TAG.dateTimeOriginal),
      exifDigitized: exifText(TIFF_TAG.dateTimeDigitized),
      digitizedFraction: exifText(TIFF_TAG.subSecTimeDigitized),
      digitizedOffset: exifText(TIFF_TAG.offsetTimeDigitized),
      iptcCreated: cleanText(iptc?.created ?? null),
      xmpPhotoshopCreated: xmp?.photoshopCreated ?? null,
      xmpOriginal: xmp?.exifOriginal ?? null,
      xmpDigitized: xmp?.exifDigitized ?? null,
      xmpCreate: xmp?.create ?? null,
      fileSource: findFileSource(exif) ?? xmp?.fileSource ?? null,
    },
    today,
  );
  const captions = collectCaptions({
    exif: text(TIFF_TAG.imageDescription),
    iptc: cleanText(iptc?.caption ?? null),
    xmp: cleanWords(xmp?.description ?? ''),
  });
  const size = findFileSource(exif) === DIGITAL_CAMERA ? null : findSize(structure, image);
  const remarks: ScanRemark[] = [...dates.remarks];
  if (new Set(captions.map((caption) => caption.text)).size > 1) remarks.push('captions_differ');
  if (blocks.damaged) remarks.push('metadata_damaged');
  return {
    metadata: {
      profile: image.profile?.name ?? null,
      widthMm: size?.widthMm ?? null,
      heightMm: size?.heightMm ?? null,
      ppi: size?.ppi ?? null,
      maker: text(TIFF_TAG.make),
      model: text(TIFF_TAG.model),
      software: text(TIFF_TAG.software),
      captions,
      captured: dates.captured,
      capturedRaw: dates.capturedRaw,
      scanned: dates.scanned,
      scannedRaw: dates.scannedRaw,
    },
    remarks,
  };
}

/** Value of FileSource for a digital camera: what it writes as resolution says nothing about film. */
const DIGITAL_CAMERA = 3;

/** Text as it stands, blanks kept, for dates; null for rubbish. */
function rawText(directory: TiffDirectory, tag: number): string | null {
  const bytes = bytesOf(directory, tag);
  if (bytes === null) return null;
  const whole = bytes.toString('latin1').replace(/\0.*$/s, '').slice(0, 100);
  return whole === '' || /\p{Cc}/u.test(whole) ? null : whole;
}

function findFileSource(exif: TiffDirectory | null): number | null {
  const source = exif === null ? -1 : numberOf(exif, TIFF_TAG.fileSource, -1);
  return source >= 0 ? source : null;
}

function collectCaptions(found: Readonly<Record<Caption['where'], string | null>>): Caption[] {
  return (['exif', 'iptc', 'xmp'] as const).flatMap((where) => {
    const text = found[where];
    return text === null ? [] : [{ where, text }];
  });
}

function findSize(structure: ScanStructure, image: PageImage): PhysicalSize | null {
  const { page } = image;
  const sideways = isTurnedSideways(page.orientation);
  const size = findPhysicalSize(
    sideways ? page.height : page.width,
    sideways ? page.width : page.height,
    findResolution(structure, image),
  );
  if (size === null || !sideways) return size;
  return { widthMm: size.heightMm, heightMm: size.widthMm, ppi: size.ppi };
}

function findResolution(structure: ScanStructure, image: PageImage): Resolution | null {
  // In a TIFF only the page itself can say it: the first page may be a preview.
  const tagged = image.tiff?.directory ?? structure.blocks.directories[0];
  if (tagged?.entries.has(TIFF_TAG.xResolution) === true) {
    const x = numberOf(tagged, TIFF_TAG.xResolution, Number.NaN);
    // Inches unless said otherwise. Source: TIFF 6.0 p. 38.
    return {
      unit: numberOf(tagged, TIFF_TAG.resolutionUnit, 2),
      x,
      y: numberOf(tagged, TIFF_TAG.yResolution, x),
    };
  }
  const density = structure.jpeg?.density ?? null;
  return density === null || density.unit === 0
    ? null
    : { unit: density.unit + 1, x: density.x, y: density.y };
}
