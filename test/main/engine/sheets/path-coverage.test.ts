import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coverOutlines } from '../../../../main/engine/sheets/path-coverage.ts';
import type { Outline } from '../../../../main/engine/sheets/path-coverage.ts';

function shareAt(outlines: readonly Outline[], x: number, y: number): number {
  const cover = coverOutlines(outlines);
  if (!cover) return 0;
  const column = x - cover.leftPx;
  const row = y - cover.topPx;
  if (column < 0 || column >= cover.widthPx || row < 0 || row >= cover.heightPx) return 0;
  return cover.shares[row * cover.widthPx + column] ?? 0;
}

function totalOf(outlines: readonly Outline[]): number {
  return coverOutlines(outlines)?.shares.reduce((sum, share) => sum + share, 0) ?? 0;
}

function rectangle(left: number, top: number, right: number, foot: number): Outline {
  return [left, top, right, top, right, foot, left, foot];
}

// Areas by hand.
describe('coverage of outlines', () => {
  it('is whole inside a rectangle on the pixel grid and nothing outside', () => {
    const square = [rectangle(2, 3, 5, 6)];
    expect(shareAt(square, 2, 3)).toBeCloseTo(1, 6);
    expect(shareAt(square, 4, 5)).toBeCloseTo(1, 6);
    expect(shareAt(square, 5, 5)).toBeCloseTo(0, 6);
    expect(totalOf(square)).toBeCloseTo(9, 5);
  });

  it('is the product of both parts in the corner of a rectangle between pixels', () => {
    // From 1.25 to 3 and from 2.5 to 4: the first pixel is 0.75 × 0.5 covered.
    expect(shareAt([rectangle(1.25, 2.5, 3, 4)], 1, 2)).toBeCloseTo(0.375, 6);
  });

  it('is half on the diagonal of a triangle', () => {
    // Triangle (0, 0) (4, 0) (0, 4): each pixel on x + y = 3 is cut from corner to corner; area 8.
    const triangle = [[0, 0, 4, 0, 0, 4]];
    expect(shareAt(triangle, 1, 2)).toBeCloseTo(0.5, 6);
    expect(shareAt(triangle, 0, 0)).toBeCloseTo(1, 6);
    expect(totalOf(triangle)).toBeCloseTo(8, 5);
  });

  it('is exact under a flat slope across many pixels', () => {
    // Triangle (0, 0) (8, 0) (8, 1): pixel n holds the strip under y = x / 8 from n to n + 1: (2n + 1) / 16.
    const wedge = [[0, 0, 8, 0, 8, 1]];
    for (let pixel = 0; pixel < 8; pixel += 1) {
      // Above the line y = x / 8 and below y = 0 upwards: y runs down, so the wedge covers y < x / 8.
      expect(shareAt(wedge, pixel, 0)).toBeCloseTo((2 * pixel + 1) / 16, 5);
    }
  });

  it('leaves a hole where an inner outline runs the other way', () => {
    const ring = [rectangle(0, 0, 6, 6), [2, 2, 2, 4, 4, 4, 4, 2]];
    expect(shareAt(ring, 3, 3)).toBeCloseTo(0, 6);
    expect(totalOf(ring)).toBeCloseTo(36 - 4, 4);
  });

  it('counts overlapping outlines of one direction once', () => {
    expect(totalOf([rectangle(0, 0, 4, 4), rectangle(2, 0, 6, 4)])).toBeCloseTo(24, 4);
  });

  it('has the area of any triangle', () => {
    const corner = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(corner, corner, corner, corner, corner, corner), ([a, b, c, d, e, f]) => {
        // The shoelace formula.
        const area = Math.abs((c - a) * (f - b) - (e - a) * (d - b)) / 2;
        expect(Math.abs(totalOf([[a, b, c, d, e, f]]) - area)).toBeLessThan(0.01 + area * 1e-3);
      }),
    );
  });
});
