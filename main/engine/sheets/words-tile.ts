import { CAPITAL_EM, fitLine } from '../../../shared/sheet/font-metrics.ts';
import { createCanvas, fillOutlines, fillRect } from './canvas.ts';
import type { FontShelf } from './font-file.ts';
import { outlineText } from './outlines.ts';
import type { Tile } from './picture-tiles.ts';

/** On film and on a white ground. */
const DARK = { ground: '#2b2b2b', ink: '#f0f0f0' } as const;
const LIGHT = { ground: '#ffffff', ink: '#101010' } as const;
/** Size of the words over the height of the tile, and at most, mm. */
const SHARE_OF_HEIGHT = 0.12;
const MOST_MM = 2.8;

/** A tile with words in the middle, for a picture that cannot be shown; dark unless the ground is white. */
export function drawWordsTile(
  words: string,
  size: { readonly widthPx: number; readonly heightPx: number },
  heightMm: number,
  ground: string,
  shelf: FontShelf,
): Tile {
  const { ground: fill, ink } = ground === LIGHT.ground ? LIGHT : DARK;
  const canvas = createCanvas(size.widthPx, size.heightPx);
  fillRect(canvas, 0, 0, size.widthPx, size.heightPx, fill);
  const perMm = size.heightPx / heightMm;
  const widthMm = size.widthPx / perMm;
  const sizeMm = Math.min(MOST_MM, heightMm * SHARE_OF_HEIGHT);
  const line = fitLine(words, sizeMm, 'regular', widthMm * 0.9);
  const text = {
    kind: 'text',
    xMm: (widthMm - line.widthMm) / 2,
    yMm: (heightMm + CAPITAL_EM * sizeMm) / 2,
    widthMm: line.widthMm,
    sizeMm,
    turned: 0,
    colour: ink,
    runs: line.runs,
  } as const;
  for (const glyph of outlineText(text, perMm, shelf)) fillOutlines(canvas, glyph, ink);
  return { ...size, channels: 3, pixels: canvas.pixels };
}
