import { appError } from '../../../shared/api/errors.ts';
import { PLAIN_LINEAR, readDngColour, type LinearColour } from './convert-linear.ts';
import { common, decodePage, isLab, needsRetag, placeOf, resize, retag, turnUpright } from './decode-page.ts';
import { sharp, type Sharp } from './image-library.ts';
import { withOpenScan, type OpenScan } from './open-scan.ts';
import { recogniseImage } from './recognise.ts';
import { readStructure, type PageImage } from './scan-image.ts';
import { describeReason } from './scan-reason.ts';
import { PHOTOMETRIC } from './tiff-tags.ts';

/** What is asked of a page decoded whole. */
export interface WholeOptions {
  /** The longer side in px; null for every pixel of the scan. */
  readonly longSide: number | null;
  /** Whether the values are light itself: a raw linear scan that does not say so. */
  readonly linear: boolean;
}

/** A page on its way into a file, upright, opaque, with three channels. */
export interface WholePage {
  /** As many bits as the scan has: 16, or 8. */
  readonly bits: 8 | 16;
  /** Codes of sRGB, or light itself, which `colour` turns into linear sRGB. */
  readonly encoding: 'srgb' | 'linear';
  readonly colour: LinearColour;
}

/** Larger than any picture: the library wants a number where no limit is meant. */
const NO_LIMIT = 1_000_000;

/**
 * Decodes a page of a scan into `out`, an uncompressed TIFF, in stripes as it comes: memory does not grow with the
 * picture, except for the few layouts that are read from memory (Lab, infrared in untagged samples, turned pictures).
 * Profiles are applied; the scan is only read.
 * @throws {AppError} file_missing, file_unreadable, scan_unreadable
 */
export async function decodeWhole(
  path: string,
  page: number,
  options: WholeOptions,
  out: string,
): Promise<WholePage> {
  const { result } = await withOpenScan(path, async (scan) => {
    const image = await findPage(scan, page);
    const { pipeline, ...whole } = await wholePipeline(scan, image, options);
    const tiff = { compression: 'none', predictor: 'none', bigtiff: isHuge(image) } as const;
    try {
      await pipeline.tiff(tiff).toFile(out);
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      if (/space|write error|no space/i.test(reason)) throw appError('disk_full', { path: out }, error);
      throw appError('scan_unreadable', { path, reason }, error);
    }
    return whole;
  });
  return result;
}

/** A page shrunk to fit in memory, with all the bits of the scan: what previews have lost is still there. */
export interface DeepPage extends WholePage {
  readonly width: number;
  readonly height: number;
  /** Three a pixel; 8 or 16 bits. */
  readonly samples: Uint8Array | Uint16Array;
}

/**
 * Decodes a page of a scan, at most `longSide` px, without rounding to eight bits and without JPEG between.
 * @throws {AppError} file_missing, file_unreadable, scan_unreadable
 */
export async function decodeDeep(path: string, page: number, options: WholeOptions): Promise<DeepPage> {
  const { result } = await withOpenScan(path, async (scan) => {
    const image = await findPage(scan, page);
    const { pipeline, ...whole } = await wholePipeline(scan, image, options);
    try {
      const raw = pipeline.raw({ depth: whole.bits === 16 ? 'ushort' : 'uchar' });
      const { data, info } = await raw.toBuffer({ resolveWithObject: true });
      const samples =
        whole.bits === 16 ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : data;
      return { ...whole, width: info.width, height: info.height, samples };
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      throw appError('scan_unreadable', { path, reason }, error);
    }
  });
  return result;
}

async function findPage(scan: OpenScan, page: number): Promise<PageImage> {
  const kind = await recogniseImage(scan.source);
  const structure = kind === null ? 'not_an_image' : await readStructure(scan, kind);
  if (typeof structure === 'string')
    throw appError('scan_unreadable', { path: scan.path, reason: describeReason(structure) });
  const image = structure.images.find((candidate) => candidate.page.index === page);
  if (image === undefined)
    throw appError('scan_unreadable', { path: scan.path, reason: `it has no page ${page + 1}` });
  return image;
}

/** More than plain TIFF can hold: offsets of 32 bits. */
function isHuge({ page }: PageImage): boolean {
  return page.width * page.height * 3 * 2 > 4_000_000_000;
}

async function wholePipeline(
  scan: OpenScan,
  image: PageImage,
  { longSide, linear }: WholeOptions,
): Promise<WholePage & { readonly pipeline: Sharp }> {
  const { tiff } = image;
  const failOn = 'error';
  const most = longSide ?? NO_LIMIT;
  const srgb = { encoding: 'srgb', colour: PLAIN_LINEAR } as const;
  const isDeep = image.page.bits === 16;
  if ((tiff !== null && isLab(tiff)) || image.isCmyk || image.page.bits > 16) {
    const options = { longSide: most, failOn, linear: false } as const;
    return { pipeline: declared(await decodePage(scan, image, scan.input, options)), bits: 8, ...srgb };
  }
  const isRaw = tiff?.photometric === PHOTOMETRIC.linearRaw;
  const source = tiff !== null && (isRaw || needsRetag(tiff)) ? await retag(scan, image, tiff) : scan.input;
  const place = source === scan.input ? placeOf(tiff) : {};
  const convert = image.profileUse === 'convert' && !isRaw && !linear;
  const pipeline = sharp(source, { ...common({ failOn }), ...place, ignoreIcc: !convert }).removeAlpha();
  resize(pipeline, most);
  turnUpright(pipeline, image.page.orientation);
  if (isRaw || linear) {
    const first = image.file?.pages[0]?.directory ?? tiff?.directory;
    const colour =
      isRaw && first !== undefined ? readDngColour(tiff.directory, first, image.page.bits) : PLAIN_LINEAR;
    return { pipeline: deep(pipeline, image), bits: 16, encoding: 'linear', colour };
  }
  if (!isDeep) return { pipeline: declared(pipeline.toColourspace('srgb')), bits: 8, ...srgb };
  if (!convert) return { pipeline: declared(deep(pipeline, image)), bits: 16, ...srgb };
  return { pipeline: declared(deep(pipeline, image)), bits: 16, ...srgb };
}

/** Sixteen bits all the way; a grey scan gets three channels at the end. */
function deep(pipeline: Sharp, image: PageImage): Sharp {
  return pipeline.pipelineColourspace(image.page.channels < 3 ? 'grey16' : 'rgb16').toColourspace('rgb16');
}

/** With the profile of sRGB in it, to which other profiles are converted. */
function declared(pipeline: Sharp): Sharp {
  return pipeline.withIccProfile('srgb');
}
