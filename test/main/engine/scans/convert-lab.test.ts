import { converter } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convertLab } from '../../../../main/engine/scans/convert-lab.ts';

const toRgb = converter('rgb');

/** Oracle: culori 4.0.2, Lab under D50 to sRGB. Colours outside sRGB are clipped there and here. */
function expectedPixel(l: number, a: number, b: number): number[] {
  const rgb = toRgb({ mode: 'lab', l, a, b });
  return [rgb.r, rgb.g, rgb.b].map((value) => Math.round(Math.min(1, Math.max(0, value)) * 255));
}

function worstDifference(pixels: Buffer, expected: readonly number[]): number {
  return Math.max(...expected.map((value, i) => Math.abs(value - (pixels[i] ?? 0))));
}

describe('Lab scans', () => {
  const whole = fc.tuple(
    fc.integer({ min: 0, max: 255 }),
    fc.integer({ min: -90, max: 90 }),
    fc.integer({ min: -90, max: 90 }),
  );

  it('of 8 bits come out as another library has them', () => {
    fc.assert(
      fc.property(whole, ([l, a, b]) => {
        const pixels = convertLab(Uint8Array.of(l, a & 255, b & 255), 3, 'signed');
        // Two of 255: the table of 4096 steps of light is coarse in the deepest shadows.
        expect(worstDifference(pixels, expectedPixel((l * 100) / 255, a, b))).toBeLessThanOrEqual(2);
      }),
    );
  });

  it('of 16 bits come out as another library has them', () => {
    fc.assert(
      fc.property(whole, ([l, a, b]) => {
        const stored = Uint16Array.of(l * 257, (a * 256) & 0xffff, (b * 256) & 0xffff, 9999);
        const pixels = convertLab(stored, 4, 'signed');
        expect(worstDifference(pixels, expectedPixel((l * 100) / 255, a, b))).toBeLessThanOrEqual(2);
      }),
    );
  });

  it('with an offset have their neutral at 128', () => {
    // Source: Adobe TIFF Technical Notes 2002, ICC Lab: a and b run from 0 to 255 with 128 for neutral.
    const grey = convertLab(Uint8Array.of(128, 128, 128), 3, 'offset');
    expect(worstDifference(grey, expectedPixel((128 * 100) / 255, 0, 0))).toBeLessThanOrEqual(1);
  });
});
