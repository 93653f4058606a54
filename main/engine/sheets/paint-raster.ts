import sharp from 'sharp';
import { missingCase } from '../../../shared/api/errors.ts';
import type { DisplayItem, DisplayPage, ImageItem } from '../../../shared/sheet/display-list.ts';
import { MM_PER_INCH, mmToPx } from '../../../shared/units/length.ts';
import { copyTile, createCanvas, fillOutlines, fillRect } from './canvas.ts';
import type { Canvas } from './canvas.ts';
import type { FontShelf } from './font-file.ts';
import { outlineLine, outlineRect, outlineText } from './outlines.ts';
import type { Tile } from './picture-tiles.ts';

/** The pictures of a page, in the order of its display list. */
export function imagesOf(page: DisplayPage): readonly ImageItem[] {
  return page.items.filter((item) => item.kind === 'image');
}

/** One page drawn at `ppi` pixels per inch. `tiles` are those of `imagesOf(page)`, made at the same `ppi`. */
export function paintRaster(
  page: DisplayPage,
  tiles: readonly Tile[],
  ppi: number,
  shelf: FontShelf,
): Canvas {
  const perMm = ppi / MM_PER_INCH;
  const canvas = createCanvas(mmToPx(page.widthMm, ppi), mmToPx(page.heightMm, ppi));
  const next = tiles.values();
  for (const item of page.items) {
    if (item.kind === 'image') {
      const tile = next.next().value;
      if (!tile) throw new Error('Fewer tiles than pictures');
      copyTile(canvas, tile, mmToPx(item.xMm, ppi), mmToPx(item.yMm, ppi));
    } else {
      paintShape(canvas, item, perMm, shelf);
    }
  }
  return canvas;
}

function paintShape(
  canvas: Canvas,
  item: Exclude<DisplayItem, ImageItem>,
  perMm: number,
  shelf: FontShelf,
): void {
  switch (item.kind) {
    case 'rect':
      if (item.radiusMm > 0) fillOutlines(canvas, outlineRect(item, perMm), item.fill);
      else {
        fillRect(
          canvas,
          item.xMm * perMm,
          item.yMm * perMm,
          (item.xMm + item.widthMm) * perMm,
          (item.yMm + item.heightMm) * perMm,
          item.fill,
        );
      }
      return;
    case 'line':
      fillOutlines(canvas, outlineLine(item, perMm), item.colour);
      return;
    case 'text':
      for (const glyph of outlineText(item, perMm, shelf)) fillOutlines(canvas, glyph, item.colour);
      return;
    default:
      missingCase(item);
  }
}

/** A canvas as a file: 8-bit sRGB with its profile and its resolution. */
export async function encodeRaster(canvas: Canvas, format: 'png' | 'tiff', ppi: number): Promise<Buffer> {
  const picture = sharp(canvas.pixels, {
    raw: { width: canvas.widthPx, height: canvas.heightPx, channels: 3 },
    limitInputPixels: false,
  })
    .withIccProfile('srgb')
    .withMetadata({ density: ppi });
  if (format === 'png') return picture.png({ compressionLevel: 6 }).toBuffer();
  const perMm = ppi / MM_PER_INCH;
  return picture
    .tiff({ compression: 'deflate', predictor: 'horizontal', xres: perMm, yres: perMm })
    .toBuffer();
}
