import { availableParallelism } from 'node:os';
import sharp from 'sharp';
import type { Metadata, Sharp } from 'sharp';
import type { ImageItem, QuarterTurn } from '../../../shared/sheet/display-list.ts';
import { mmToPx } from '../../../shared/units/length.ts';
import { drawWordsTile } from './words-tile.ts';
import type { FontShelf } from './font-file.ts';

/** Where the file of a picture is, by its id; null when there is none. */
export type PictureFile = (pictureId: string) => string | null | Promise<string | null>;

/** A picture made ready for its place: 8 bits per channel, sRGB (3 channels) or grey (1), exactly as many pixels. */
export interface Tile {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: 1 | 3;
  readonly pixels: Buffer;
}

/** A picture that could not be shown; the words stand in its place on the sheet. */
export interface UnreadablePicture {
  readonly frameKey: string;
  readonly pictureId: string;
  readonly reason: string;
}

const NOT_READABLE = 'scan cannot be read';

/** Gives one tile per item, in their order, a few at a time, and what could not be read. One bad picture stops nothing. */
export async function makeTiles(
  items: readonly ImageItem[],
  ppi: number,
  pictureFile: PictureFile,
  shelf: FontShelf,
  signal: AbortSignal | null,
): Promise<{ readonly tiles: readonly Tile[]; readonly unreadable: readonly UnreadablePicture[] }> {
  const tiles: Tile[] = [];
  const unreadable: UnreadablePicture[] = [];
  let next = 0;
  const work = async (): Promise<void> => {
    for (;;) {
      signal?.throwIfAborted();
      const index = next;
      next += 1;
      const item = items[index];
      if (!item) return;
      try {
        const path = await pictureFile(item.pictureId);
        if (path === null) throw new Error('its file is not there');
        tiles[index] = await makeTile(item, ppi, path);
      } catch (error) {
        const reason = error instanceof Error ? error.message : String(error);
        unreadable.push({ frameKey: item.frameKey, pictureId: item.pictureId, reason });
        tiles[index] = drawWordsTile(NOT_READABLE, sizePx(item, ppi), item.heightMm, item.ground, shelf);
      }
    }
  };
  await Promise.all(Array.from({ length: 2 * availableParallelism() }, work));
  unreadable.sort((a, b) => keyOrder(items, a) - keyOrder(items, b));
  return { tiles, unreadable };
}

function keyOrder(items: readonly ImageItem[], picture: UnreadablePicture): number {
  return items.findIndex((item) => item.frameKey === picture.frameKey);
}

/** Pixels of an item's place: its edges each rounded to the pixel grid of the page, so that neighbours never overlap. */
function sizePx(item: ImageItem, ppi: number): { readonly widthPx: number; readonly heightPx: number } {
  const widthPx = mmToPx(item.xMm + item.widthMm, ppi) - mmToPx(item.xMm, ppi);
  const heightPx = mmToPx(item.yMm + item.heightMm, ppi) - mmToPx(item.yMm, ppi);
  return { widthPx: Math.max(1, widthPx), heightPx: Math.max(1, heightPx) };
}

async function makeTile(item: ImageItem, ppi: number, path: string): Promise<Tile> {
  const { widthPx, heightPx } = sizePx(item, ppi);
  const lying = item.turned === 90 || item.turned === 270;
  const { data, info } = await cutRegion(await openUpright(path), item)
    .resize(lying ? heightPx : widthPx, lying ? widthPx : heightPx, { fit: 'inside' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  const channels = info.channels === 1 ? 1 : 3;
  const small = { widthPx: info.width, heightPx: info.height, channels, pixels: data } as const;
  return layOnGround(turnTile(small, item.turned, item.mirrored), widthPx, heightPx, item.ground);
}

interface UprightPicture {
  readonly picture: Sharp;
  readonly width: number;
  readonly height: number;
}

/** The picture the right way up, in 8-bit sRGB or grey, without a fourth sample. */
async function openUpright(path: string): Promise<UprightPicture> {
  const file = sharp(path, { failOn: 'none', limitInputPixels: 2 ** 31 });
  const metadata = await file.metadata();
  const grey = metadata.space === 'b-w' || metadata.space === 'grey16';
  const upright = (grey ? file.toColourspace('b-w') : toSrgb(file, metadata)).autoOrient();
  const { width, height } = metadata.autoOrient;
  if (!metadata.hasAlpha) return { picture: upright, width, height };
  // The fourth sample of a scan is infrared as often as transparency. A resize would multiply the colours by it, so it
  // goes before, at full size.
  const { data, info } = await upright.removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const raw = { width: info.width, height: info.height, channels: info.channels };
  const plain = sharp(data, { raw, limitInputPixels: false });
  return { picture: grey ? plain.toColourspace('b-w') : plain, width, height };
}

/**
 * In sRGB. Measured on scans of known colour: 16 bits with a profile are only right by way of `withIccProfile` (otherwise
 * wrong by 40 of 255), 16 bits without one only when brought to sRGB first (otherwise wrong by 5). On 8-bit JPEG the
 * latter would forbid the fast shrink on load.
 */
function toSrgb(file: Sharp, metadata: Metadata): Sharp {
  if (metadata.icc) return file.withIccProfile('srgb');
  return metadata.depth === 'ushort' ? file.pipelineColourspace('srgb') : file.toColourspace('srgb');
}

function cutRegion({ picture, width, height }: UprightPicture, { region }: ImageItem): Sharp {
  if (region.x === 0 && region.y === 0 && region.width === 1 && region.height === 1) return picture;
  const left = Math.min(width - 1, Math.round(region.x * width));
  const top = Math.min(height - 1, Math.round(region.y * height));
  return picture.extract({
    left,
    top,
    width: Math.max(1, Math.min(width - left, Math.round(region.width * width))),
    height: Math.max(1, Math.min(height - top, Math.round(region.height * height))),
  });
}

/** Mirrors left to right, then turns clockwise. */
function turnTile(tile: Tile, turned: QuarterTurn, mirrored: boolean): Tile {
  if (turned === 0 && !mirrored) return tile;
  const { channels, pixels } = tile;
  const swapped = turned === 90 || turned === 270;
  const widthPx = swapped ? tile.heightPx : tile.widthPx;
  const heightPx = swapped ? tile.widthPx : tile.heightPx;
  const result = Buffer.alloc(pixels.length);
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const [u, v] = sourceOf(x, y, widthPx, heightPx, turned);
      const column = mirrored ? tile.widthPx - 1 - u : u;
      const from = (v * tile.widthPx + column) * channels;
      const to = (y * widthPx + x) * channels;
      for (let channel = 0; channel < channels; channel += 1) {
        result[to + channel] = pixels[from + channel] ?? 0;
      }
    }
  }
  return { widthPx, heightPx, channels, pixels: result };
}

/** Which pixel of the picture shows at `x`, `y` once it is turned clockwise into a place `width` × `height`. */
function sourceOf(
  x: number,
  y: number,
  width: number,
  height: number,
  turned: QuarterTurn,
): readonly [number, number] {
  if (turned === 90) return [y, width - 1 - x];
  if (turned === 180) return [width - 1 - x, height - 1 - y];
  if (turned === 270) return [height - 1 - y, x];
  return [x, y];
}

/** Centres the picture on its ground where it does not fill its place. */
function layOnGround(tile: Tile, widthPx: number, heightPx: number, ground: string): Tile {
  if (tile.widthPx === widthPx && tile.heightPx === heightPx) return tile;
  const { channels } = tile;
  // The grounds of a sheet are greys: one value serves each channel.
  const pixels = Buffer.alloc(widthPx * heightPx * channels, Number.parseInt(ground.slice(1, 3), 16));
  const left = Math.floor((widthPx - tile.widthPx) / 2);
  const top = Math.floor((heightPx - tile.heightPx) / 2);
  for (let y = 0; y < tile.heightPx; y += 1) {
    const from = y * tile.widthPx * channels;
    tile.pixels.copy(pixels, ((top + y) * widthPx + left) * channels, from, from + tile.widthPx * channels);
  }
  return { widthPx, heightPx, channels, pixels };
}
