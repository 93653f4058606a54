import { coverOutlines } from './path-coverage.ts';
import type { Outline } from './path-coverage.ts';
import type { Tile } from './picture-tiles.ts';

/** A picture in memory: 8-bit sRGB, three bytes a pixel, rows from the top. */
export interface Canvas {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pixels: Buffer;
}

type Rgb = readonly [number, number, number];

/** A white canvas. */
export function createCanvas(widthPx: number, heightPx: number): Canvas {
  return { widthPx, heightPx, pixels: Buffer.alloc(widthPx * heightPx * 3, 0xff) };
}

function readColour(colour: string): Rgb {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) & 0xff, (value >> 8) & 0xff, value & 0xff];
}

/** Fills an upright rectangle given by its edges in pixels; an edge between pixels shades the pixel it crosses. */
export function fillRect(
  canvas: Canvas,
  left: number,
  top: number,
  right: number,
  foot: number,
  colour: string,
): void {
  const rgb = readColour(colour);
  const [x0, x1] = [Math.max(0, left), Math.min(canvas.widthPx, right)];
  const [y0, y1] = [Math.max(0, top), Math.min(canvas.heightPx, foot)];
  if (!(x1 > x0 && y1 > y0)) return;
  const [wholeX0, wholeX1] = [Math.ceil(x0), Math.floor(x1)];
  const row = Buffer.alloc(Math.max(0, wholeX1 - wholeX0) * 3);
  for (let at = 0; at < row.length; at += 3) row.set(rgb, at);
  for (let y = Math.floor(y0); y < Math.ceil(y1); y += 1) {
    const share = Math.min(y + 1, y1) - Math.max(y, y0);
    const full = share >= 1 && wholeX1 > wholeX0;
    if (full) row.copy(canvas.pixels, (y * canvas.widthPx + wholeX0) * 3);
    for (let x = Math.floor(x0); x < Math.ceil(x1); x += 1) {
      if (full && x >= wholeX0 && x < wholeX1) {
        x = wholeX1 - 1;
        continue;
      }
      blend(canvas, x, y, rgb, share * (Math.min(x + 1, x1) - Math.max(x, x0)));
    }
  }
}

/** Fills outlines given in pixels, smooth at their edges. */
export function fillOutlines(canvas: Canvas, outlines: readonly Outline[], colour: string): void {
  const coverage = coverOutlines(outlines);
  if (!coverage) return;
  const rgb = readColour(colour);
  const { leftPx, topPx, widthPx, heightPx, shares } = coverage;
  const [from, to] = [Math.max(0, -leftPx), Math.min(widthPx, canvas.widthPx - leftPx)];
  for (let row = Math.max(0, -topPx); row < Math.min(heightPx, canvas.heightPx - topPx); row += 1) {
    for (let column = from; column < to; column += 1) {
      const share = shares[row * widthPx + column] ?? 0;
      // Sums of floats leave dust of about 1e-7 where nothing is covered.
      if (share > 1e-4) blend(canvas, leftPx + column, topPx + row, rgb, share);
    }
  }
}

function blend(canvas: Canvas, x: number, y: number, rgb: Rgb, share: number): void {
  const at = (y * canvas.widthPx + x) * 3;
  const { pixels } = canvas;
  for (let channel = 0; channel < 3; channel += 1) {
    const below = pixels[at + channel] ?? 0;
    pixels[at + channel] = Math.round(below + ((rgb[channel] ?? 0) - below) * share);
  }
}

/** Copies a tile onto the canvas, its top left at `left`, `top`; what lies outside is left away. */
export function copyTile(canvas: Canvas, tile: Tile, left: number, top: number): void {
  const from = Math.max(0, -left);
  const to = Math.min(tile.widthPx, canvas.widthPx - left);
  if (to <= from) return;
  for (let y = Math.max(0, -top); y < Math.min(tile.heightPx, canvas.heightPx - top); y += 1) {
    const target = ((top + y) * canvas.widthPx + left + from) * 3;
    const source = (y * tile.widthPx + from) * tile.channels;
    const length = to - from;
    if (tile.channels === 3) {
      tile.pixels.copy(canvas.pixels, target, source, source + length * 3);
      continue;
    }
    for (let x = 0; x < length; x += 1) {
      canvas.pixels.fill(tile.pixels[source + x] ?? 0, target + x * 3, target + x * 3 + 3);
    }
  }
}
