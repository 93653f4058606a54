import { appError } from '../../../shared/api/errors.ts';
import { hashFrame, type FrameHash } from '../../../shared/domain/look-up/frame-hash.ts';
import { lumaFrom } from '../../../shared/domain/look-up/luma.ts';
import { measureChannels, type ChannelStatistics } from './channel-statistics.ts';
import { declareSrgb, sharp, type Sharp } from './image-library.ts';
import { withOpenScan, type OpenScan } from './open-scan.ts';
import { recogniseImage } from './recognise.ts';
import { renderPage, type Picture, type Rendered } from './render-page.ts';
import { readStructure, type PageImage, type ScanStructure } from './scan-image.ts';
import { describeReason } from './scan-reason.ts';

/** What a page looks like, upright, opaque, in sRGB (declared in the files by an embedded profile). */
export interface PagePreview {
  /** JPEG, at most 1600 px on the long side; null in a first pass that only makes the small one. */
  readonly large: Buffer | null;
  /** JPEG, at most 256 px on the long side. */
  readonly small: Buffer;
  readonly smallWidth: number;
  readonly smallHeight: number;
  readonly hash: FrameHash;
  readonly statistics: ChannelStatistics;
  /** Whether the values were taken as linear light and brightened for showing. */
  readonly linear: boolean;
}

/** How to make a preview. */
export interface PreviewOptions {
  /** `small` makes only the small one, several times faster, for a first pass. */
  readonly size: 'large' | 'small';
  /** `auto` brightens what looks like a raw linear scan; the user may decide for a roll. */
  readonly curve: 'auto' | 'linear' | 'as stored';
}

/** The large preview's longer side in px. Our choice, measured: sheets at 600 dpi from it score 39 dB. */
const LARGE_LONG_SIDE = 1600;
/** The small preview's longer side in px. Our choice, measured. */
const SMALL_LONG_SIDE = 256;

/** What is made unless asked otherwise. */
export const WHOLE_PREVIEW: PreviewOptions = { size: 'large', curve: 'auto' };

/**
 * Makes the preview of one page of a file, again or for the first time; `page` is `ScanPage.index`. Of a damaged file
 * it shows what can be shown.
 * @throws {AppError} file_missing, file_unreadable; scan_unreadable when there is no such page or nothing to show.
 */
export async function makePreview(
  path: string,
  page: number,
  options: PreviewOptions = WHOLE_PREVIEW,
): Promise<PagePreview> {
  const { result } = await withOpenScan(path, async (scan) => {
    const kind = await recogniseImage(scan.source);
    const structure = kind === null ? 'not_an_image' : await readStructure(scan, kind);
    if (typeof structure === 'string') {
      throw appError('scan_unreadable', { path, reason: describeReason(structure) });
    }
    const image = structure.images.find((candidate) => candidate.page.index === page);
    if (image === undefined)
      throw appError('scan_unreadable', { path, reason: `it has no page ${page + 1}` });
    const { preview, rendered } = await previewPage(scan, structure, image, options);
    if (preview !== null) return preview;
    const reason = rendered.reason === null ? 'nothing can be shown' : describeReason(rendered.reason);
    throw appError('scan_unreadable', { path, reason });
  });
  return result;
}

/** The preview of a page of an open file with the judgement of its decode; no preview where nothing can be shown. */
export async function previewPage(
  scan: OpenScan,
  structure: ScanStructure,
  image: PageImage,
  options: PreviewOptions,
): Promise<{ preview: PagePreview | null; rendered: Rendered }> {
  const longSide = options.size === 'large' ? LARGE_LONG_SIDE : SMALL_LONG_SIDE;
  const linear = options.curve === 'linear' && mayBeLinear(image);
  const rendered = await renderPage(scan, structure, image, { longSide, linear });
  if (rendered.picture === null) return { preview: null, rendered };
  const small = await shrink(rendered.picture);
  const statistics = measureChannels(small.pixels);
  if (!linear && options.curve === 'auto' && mayBeLinear(image) && looksLinear(statistics)) {
    // Rare, so a second decode, this time with all 16 bits, is better than one of 16 bits for every file.
    const again = await renderPage(scan, structure, image, { longSide, linear: true });
    if (again.picture !== null) {
      const bright = await shrink(again.picture);
      const preview = await assemble(again.picture, bright, measureChannels(bright.pixels), options, true);
      return { preview, rendered: { ...again, remarks: [...again.remarks, 'linear'] } };
    }
  }
  return { preview: await assemble(rendered.picture, small, statistics, options, linear), rendered };
}

/** Everything is made from the one decoded picture: decoding the scan again would cost several times as much. */
async function shrink(picture: Picture): Promise<Picture> {
  if (Math.max(picture.width, picture.height) <= SMALL_LONG_SIDE) return picture;
  const { data, info } = await pipelineFor(picture)
    .resize(SMALL_LONG_SIDE, SMALL_LONG_SIDE, { fit: 'inside' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { pixels: data, width: info.width, height: info.height };
}

async function assemble(
  large: Picture,
  small: Picture,
  statistics: ChannelStatistics,
  options: PreviewOptions,
  linear: boolean,
): Promise<PagePreview> {
  return {
    large: options.size === 'large' ? await encode(large) : null,
    small: await encode(small),
    smallWidth: small.width,
    smallHeight: small.height,
    hash: hashFrame(lumaFrom(toLuma(small.pixels), small.width, small.height)),
    statistics,
    linear,
  };
}

function pipelineFor({ pixels, width, height }: Picture): Sharp {
  return sharp(pixels, { raw: { width, height, channels: 3 } });
}

/** JPEG as previews are kept: WebP takes seven times as long, a better search for small files twenty times. */
async function encode(picture: Picture): Promise<Buffer> {
  return declareSrgb(await pipelineFor(picture).jpeg({ quality: 82, optimiseCoding: false }).toBuffer());
}

/** Luma of sRGB values. Source: ITU-R BT.709-6, item 3.2. */
function toLuma(pixels: Buffer): Uint8Array {
  const luma = new Uint8Array(pixels.length / 3);
  for (let i = 0; i < luma.length; i++) {
    const at = i * 3;
    luma[i] =
      0.2126 * (pixels[at] ?? 0) + 0.7152 * (pixels[at + 1] ?? 0) + 0.0722 * (pixels[at + 2] ?? 0) + 0.5;
  }
  return luma;
}

/** Only 16-bit data without a profile can be raw and linear without saying so. */
function mayBeLinear(image: PageImage): boolean {
  return image.tiff !== null && image.page.bits === 16 && image.profile === null && !image.isCmyk;
}

/** Raw linear scans fill a small, dark part of the range, highlights included. Our choice of limits. */
const DARKEST_HIGHLIGHT = 100;
const DARKEST_MIDDLE = 32;

function looksLinear({ percentiles }: ChannelStatistics): boolean {
  return Math.max(...percentiles.p99) < DARKEST_HIGHLIGHT && Math.max(...percentiles.p50) < DARKEST_MIDDLE;
}
