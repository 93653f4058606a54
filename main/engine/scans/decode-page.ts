import { convertLab } from './convert-lab.ts';
import { convertLinear, PLAIN_LINEAR, readDngColour, type LinearColour } from './convert-linear.ts';
import { sharp, type Sharp, type SharpOptions } from './image-library.ts';
import type { OpenScan } from './open-scan.ts';
import { RETAG_ROOM_BYTES, retagTiff } from './retag-tiff.ts';
import type { PageImage } from './scan-image.ts';
import { numbersOf } from './tiff-directory.ts';
import type { TiffImage } from './tiff-pages.ts';
import { PHOTOMETRIC, TIFF_TAG } from './tiff-tags.ts';

/** How strictly the decoder judges: `warning` stops at anything odd, `none` shows what can be shown. */
export type FailOn = 'warning' | 'error' | 'none';

/** What is asked of a decode. */
export interface DecodeOptions {
  /** The longer side, in px; a smaller picture is not enlarged. */
  readonly longSide: number;
  readonly failOn: FailOn;
  /** Take the values as linear light, whatever the file says. */
  readonly linear: boolean;
}

/** Lab is converted at full size (its signed values cannot be averaged by the library); above this it is refused. */
export const MOST_LAB_PIXELS = 120_000_000;

/**
 * A pipeline that gives the page upright, opaque, in sRGB, with 8 bits and 3 channels, not larger than asked. Reading
 * may happen here or when the pipeline runs; failures of the decoder pass through as they are.
 * `input` is the file, or a mended copy of it in memory.
 */
export async function decodePage(
  scan: OpenScan,
  image: PageImage,
  input: Buffer | string,
  options: DecodeOptions,
): Promise<Sharp> {
  const { tiff } = image;
  if (tiff !== null && isLab(tiff)) return decodeLab(scan, image, tiff, options);
  if (tiff?.photometric === PHOTOMETRIC.linearRaw) {
    const first = image.file?.pages[0]?.directory ?? tiff.directory;
    const retagged = await retag(scan, image, tiff);
    return decodeLinear(retagged, {}, image, options, readDngColour(tiff.directory, first, image.page.bits));
  }
  const [source, place] =
    tiff !== null && needsRetag(tiff) ? [await retag(scan, image, tiff), {}] : [input, placeOf(tiff)];
  if (options.linear) return decodeLinear(source, place, image, options, PLAIN_LINEAR);
  return image.profileUse === 'convert' && image.page.channels < 4 && image.page.bits <= 16
    ? decodeWithProfile(source, place, image, options)
    : decodePlain(source, place, image, options);
}

function decodePlain(
  source: Buffer | string,
  place: SharpOptions,
  image: PageImage,
  options: DecodeOptions,
): Sharp {
  const convert = image.profileUse === 'convert';
  const pipeline = sharp(source, { ...common(options), ...place, ignoreIcc: !convert }).removeAlpha();
  // Eight bits before the resize: less than half the time. On other input the same call would cost more.
  if (image.page.bits === 16 && !convert && !image.isCmyk) pipeline.pipelineColourspace('srgb');
  resize(pipeline, options.longSide);
  turnUpright(pipeline, image.page.orientation);
  return convert ? pipeline.withIccProfile('srgb') : pipeline.toColourspace('srgb');
}

/** Shrinks in the colours of the file and converts the little that is left: the whole would take seconds. */
async function decodeWithProfile(
  source: Buffer | string,
  place: SharpOptions,
  image: PageImage,
  options: DecodeOptions,
): Promise<Sharp> {
  const deep = image.page.bits === 16;
  const grey = image.page.channels < 3;
  const space = grey ? (deep ? 'grey16' : 'b-w') : deep ? 'rgb16' : 'srgb';
  const shrunk = sharp(source, { ...common(options), ...place })
    .removeAlpha()
    .keepIccProfile();
  if (deep) shrunk.pipelineColourspace(space);
  const small = await resize(shrunk, options.longSide)
    .toColourspace(space)
    .tiff({ compression: 'none', predictor: 'none' })
    .toBuffer();
  return turnUpright(sharp(small).withIccProfile('srgb'), image.page.orientation);
}

async function decodeLinear(
  source: Buffer | string,
  place: SharpOptions,
  image: PageImage,
  options: DecodeOptions,
  colour: LinearColour,
): Promise<Sharp> {
  const grey = image.page.channels < 3;
  const pipeline = sharp(source, { ...common(options), ...place, ignoreIcc: true })
    .removeAlpha()
    .pipelineColourspace(grey ? 'grey16' : 'rgb16')
    .toColourspace(grey ? 'grey16' : 'rgb16');
  const { data, info } = await resize(pipeline, options.longSide)
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  return fromPixels(
    convertLinear(asUint16(data), info.channels, colour),
    info.width,
    info.height,
    image,
    options,
  );
}

async function decodeLab(
  scan: OpenScan,
  image: PageImage,
  tiff: TiffImage,
  options: DecodeOptions,
): Promise<Sharp> {
  const deep = image.page.bits === 16;
  const pipeline = sharp(await retag(scan, image, tiff), {
    ...common(options),
    ignoreIcc: true,
  }).removeAlpha();
  if (deep) pipeline.pipelineColourspace('rgb16').toColourspace('rgb16');
  const { data, info } = await pipeline
    .raw({ depth: deep ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const encoding = tiff.photometric === PHOTOMETRIC.iccLab ? 'offset' : 'signed';
  const pixels = convertLab(deep ? asUint16(data) : data, info.channels, encoding);
  return fromPixels(pixels, info.width, info.height, image, options);
}

function fromPixels(
  pixels: Buffer,
  width: number,
  height: number,
  image: PageImage,
  options: DecodeOptions,
): Sharp {
  const pipeline = sharp(pixels, { raw: { width, height, channels: 3 }, limitInputPixels: false });
  return turnUpright(resize(pipeline, options.longSide), image.page.orientation);
}

/** What every decode is opened with. */
export function common(options: Pick<DecodeOptions, 'failOn'>): SharpOptions {
  // Sizes were judged before anything is decoded, better than by one limit for all.
  return { failOn: options.failOn, limitInputPixels: false, unlimited: true, sequentialRead: true };
}

/** Where a page stands in its file, for the library. */
export function placeOf(tiff: TiffImage | null): SharpOptions {
  if (tiff === null) return {};
  return tiff.sub === null ? { page: tiff.chain } : { page: tiff.chain, subifd: tiff.sub };
}

/** Not larger than `longSide` px; a smaller picture is not enlarged. */
export function resize(pipeline: Sharp, longSide: number): Sharp {
  return pipeline.resize(longSide, longSide, { fit: 'inside', withoutEnlargement: true });
}

/** Turns a stored picture as its tag asks; the library mirrors before it turns. Source: Exif 2.32 4.6.4, tag 274. */
export function turnUpright(pipeline: Sharp, orientation: number): Sharp {
  switch (orientation) {
    case 2:
      return pipeline.flop();
    case 3:
      return pipeline.rotate(180);
    case 4:
      return pipeline.flip();
    case 5:
      return pipeline.flop().rotate(270);
    case 6:
      return pipeline.rotate(90);
    case 7:
      return pipeline.flop().rotate(90);
    case 8:
      return pipeline.rotate(270);
    default:
      return pipeline;
  }
}

/** Whether the page holds Lab values, in either of their two codings. */
export function isLab(tiff: TiffImage): boolean {
  return tiff.photometric === PHOTOMETRIC.cieLab || tiff.photometric === PHOTOMETRIC.iccLab;
}

const ASSOCIATED_ALPHA = 1;

/** Whether its tags would make the decoder divide by the infrared, or complain about samples nobody announced. */
export function needsRetag(tiff: TiffImage): boolean {
  const extra = tiff.page.channels - tiff.colourChannels;
  if (extra <= 0) return false;
  const tagged = numbersOf(tiff.directory, TIFF_TAG.extraSamples);
  return tagged.length !== extra || tagged.includes(ASSOCIATED_ALPHA);
}

/** A copy of the file in memory whose tags the library understands. @throws {AppError} scan_unreadable above 1 GiB */
export async function retag(scan: OpenScan, image: PageImage, tiff: TiffImage): Promise<Buffer> {
  const extra = tiff.page.channels - tiff.colourChannels;
  const changes = new Map<number, readonly number[]>();
  if (extra > 0) changes.set(TIFF_TAG.extraSamples, new Array<number>(extra).fill(0));
  if (isLab(tiff) || tiff.photometric === PHOTOMETRIC.linearRaw) {
    changes.set(TIFF_TAG.photometric, [
      tiff.colourChannels === 3 ? PHOTOMETRIC.rgb : PHOTOMETRIC.blackIsZero,
    ]);
  }
  const bytes = await scan.whole(RETAG_ROOM_BYTES);
  retagTiff(bytes, image.file?.big ?? false, tiff.directory, changes);
  return bytes;
}

function asUint16(bytes: Buffer): Uint16Array {
  return new Uint16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2);
}
