import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { createFontShelf } from '../../../../main/engine/sheets/font-file.ts';
import { encodeRaster, imagesOf, paintRaster } from '../../../../main/engine/sheets/paint-raster.ts';
import type { Canvas } from '../../../../main/engine/sheets/canvas.ts';
import type { Tile } from '../../../../main/engine/sheets/picture-tiles.ts';
import type { DisplayItem, DisplayPage } from '../../../../shared/sheet/display-list.ts';
import { measureLine } from '../../../../shared/sheet/font-metrics.ts';

const shelf = createFontShelf(new URL('../../../../assets/fonts/', import.meta.url));
/** Ten pixels to a millimetre. */
const PPI = 254;

function paint(items: DisplayItem[], tiles: readonly Tile[] = []): Canvas {
  const page: DisplayPage = { widthMm: 20, heightMm: 10, items };
  return paintRaster(page, tiles, PPI, shelf);
}

function pixelAt({ pixels, widthPx }: Canvas, x: number, y: number): number[] {
  const at = (y * widthPx + x) * 3;
  return [...pixels.subarray(at, at + 3)];
}

/** Bounds of everything darker than half, in pixels: left, top, right, foot, ends not included. */
function darkBounds(canvas: Canvas): number[] {
  let [left, top, right, foot] = [Infinity, Infinity, -1, -1];
  for (let y = 0; y < canvas.heightPx; y += 1) {
    for (let x = 0; x < canvas.widthPx; x += 1) {
      if ((pixelAt(canvas, x, y)[1] ?? 255) > 127) continue;
      left = Math.min(left, x);
      right = Math.max(right, x + 1);
      top = Math.min(top, y);
      foot = Math.max(foot, y + 1);
    }
  }
  return [left, top, right, foot];
}

const rect = { kind: 'rect', radiusMm: 0, fill: '#102030' } as const;

describe('a painted page', () => {
  it('is white and has the pixels of its paper', () => {
    const canvas = paint([]);
    expect(canvas).toMatchObject({ widthPx: 200, heightPx: 100 });
    expect(pixelAt(canvas, 199, 99)).toEqual([255, 255, 255]);
  });

  it('fills a rectangle to its edges', () => {
    const canvas = paint([{ ...rect, xMm: 1, yMm: 2, widthMm: 3, heightMm: 4 }]);
    expect(darkBounds(canvas)).toEqual([10, 20, 40, 60]);
    expect(pixelAt(canvas, 10, 20)).toEqual([0x10, 0x20, 0x30]);
    expect(pixelAt(canvas, 39, 59)).toEqual([0x10, 0x20, 0x30]);
  });

  it('shades a pixel that an edge crosses', () => {
    // From x = 1.05 mm = 10.5 pixels: half of 255 and 0.
    const canvas = paint([{ ...rect, fill: '#000000', xMm: 1.05, yMm: 2, widthMm: 3, heightMm: 4 }]);
    expect(pixelAt(canvas, 10, 30)).toEqual([128, 128, 128]);
  });

  it('rounds corners', () => {
    const canvas = paint([{ ...rect, radiusMm: 1, xMm: 1, yMm: 1, widthMm: 4, heightMm: 4 }]);
    expect(pixelAt(canvas, 10, 10)).toEqual([255, 255, 255]);
    expect(pixelAt(canvas, 30, 10)).toEqual([0x10, 0x20, 0x30]);
    expect(pixelAt(canvas, 30, 30)).toEqual([0x10, 0x20, 0x30]);
  });

  it('strokes a line with its width and flat ends', () => {
    const line: DisplayItem = {
      kind: 'line',
      points: [
        [2, 5],
        [12, 5],
      ],
      closed: false,
      cap: 'butt',
      widthMm: 0.4,
      colour: '#000000',
    };
    expect(darkBounds(paint([line]))).toEqual([20, 48, 120, 52]);
  });

  it('rounds the ends of a pencil stroke', () => {
    const line: DisplayItem = {
      kind: 'line',
      points: [
        [5, 5],
        [10, 5],
      ],
      closed: false,
      cap: 'round',
      widthMm: 2,
      colour: '#000000',
    };
    expect(darkBounds(paint([line]))).toEqual([40, 40, 110, 60]);
  });

  it('paints later items over earlier ones', () => {
    const place = { xMm: 1, yMm: 1, widthMm: 4, heightMm: 4 };
    const canvas = paint([
      { ...rect, ...place },
      { ...rect, ...place, fill: '#ffffff' },
    ]);
    expect(darkBounds(canvas)).toEqual([Infinity, Infinity, -1, -1]);
  });

  it('lays a tile on its place', () => {
    const image: DisplayItem = {
      kind: 'image',
      xMm: 2,
      yMm: 3,
      widthMm: 1,
      heightMm: 1,
      frameKey: 'a',
      pictureId: 'a',
      region: { x: 0, y: 0, width: 1, height: 1 },
      turned: 0,
      mirrored: false,
      ground: '#000000',
    };
    for (const channels of [1, 3] as const) {
      const tile = { widthPx: 10, heightPx: 10, channels, pixels: Buffer.alloc(100 * channels, 7) };
      const canvas = paint([image], [tile]);
      expect(darkBounds(canvas)).toEqual([20, 30, 30, 40]);
      expect(pixelAt(canvas, 25, 35)).toEqual([7, 7, 7]);
    }
    expect(imagesOf({ widthMm: 1, heightMm: 1, items: [image] })).toEqual([image]);
  });

  it.each([
    // 'H' stands on its baseline, as high as a capital: 0.655 em of 6 mm. Turned, it runs down or up from the same point.
    [0, (h: number, w: number) => [50, 60 - h, 50 + w, 60]],
    [90, (h: number, w: number) => [50, 60, 50 + h, 60 + w]],
    [270, (h: number, w: number) => [50 - h, 60 - w, 50, 60]],
  ] as const)('writes text turned by %i degrees where the layout put it', (turned, bounds) => {
    const line = measureLine('H', 6, 'regular');
    const canvas = paint([
      {
        kind: 'text',
        xMm: 5,
        yMm: 6,
        widthMm: line.widthMm,
        sizeMm: 6,
        turned,
        colour: '#000000',
        runs: line.runs,
      },
    ]);
    const expected = bounds(39.3, line.widthMm * 10);
    for (const [index, bound] of darkBounds(canvas).entries()) {
      // The letter's sides stand off by less than a tenth of its size: 6 pixels; its height is exact to a pixel.
      expect(Math.abs(bound - (expected[index] ?? NaN))).toBeLessThanOrEqual(6);
    }
    const [left = 0, top = 0, right = 0, foot = 0] = darkBounds(canvas);
    expect(Math.abs((turned === 0 ? foot - top : right - left) - 39.3)).toBeLessThanOrEqual(1);
  });
});

describe('an encoded page', () => {
  it.each([
    ['png', 300],
    ['png', 600],
    ['tiff', 300],
    ['tiff', 600],
  ] as const)('as %s at %i ppi tells its resolution and sRGB', async (format, ppi) => {
    const page: DisplayPage = { widthMm: 25.4, heightMm: 50.8, items: [] };
    const content = await encodeRaster(paintRaster(page, [], ppi, shelf), format, ppi);
    const metadata = await sharp(content).metadata();
    expect(metadata).toMatchObject({
      format,
      width: ppi,
      height: 2 * ppi,
      space: 'srgb',
      depth: 'uchar',
      channels: 3,
    });
    expect(Math.abs((metadata.density ?? 0) - ppi)).toBeLessThanOrEqual(1);
    expect(metadata.icc).toBeDefined();
  });
});
