import { describe, expect, it } from 'vitest';
import { overlayMatrix } from '../../../renderer/which/overlay-matrix.ts';

/** Where a CSS matrix3d puts a point of the plane (CSS Transforms 2: columns first, then divided by w). */
function move(css: string, x: number, y: number): readonly [number, number] {
  const m = css.replace('matrix3d(', '').replace(')', '').split(',').map(Number);
  const at = (row: number) => (m[row] ?? 0) * x + (m[4 + row] ?? 0) * y + (m[12 + row] ?? 0);
  return [at(0) / at(3), at(1) / at(3)];
}

describe('a picture laid over its frame', () => {
  it('lies on all of it when it is the whole frame', () => {
    const css = overlayMatrix([1, 0, 0, 0, 1, 0, 0, 0, 1], 600, 400);
    expect(move(css, 600, 400)).toEqual([600, 400]);
  });

  it('lies where a homography puts its corners', () => {
    // By hand: (u, v) to ((0.5u + 0.25) / (0.2u + 1), (0.4v + 0.1) / (0.2u + 1)), on 600 × 400 px.
    // (1, 1) to (0.75 / 1.2, 0.5 / 1.2) = (0.625, 0.41667): 375 and 166.667 px. (0, 0) to 150 and 40 px.
    const css = overlayMatrix([0.5, 0, 0.25, 0, 0.4, 0.1, 0.2, 0, 1], 600, 400);
    const [x, y] = move(css, 600, 400);
    expect(x).toBeCloseTo(375, 2);
    expect(y).toBeCloseTo(166.667, 2);
    expect(move(css, 0, 0)[0]).toBeCloseTo(150, 2);
    expect(move(css, 0, 0)[1]).toBeCloseTo(40, 2);
  });

  it('turns a picture that lies on its side', () => {
    // A quarter turn clockwise: (u, v) to (1 − v, u). The upper left corner comes to the upper right.
    const css = overlayMatrix([0, -1, 1, 1, 0, 0, 0, 0, 1], 600, 400);
    const [x, y] = move(css, 0, 0);
    expect(x).toBeCloseTo(600, 2);
    expect(y).toBeCloseTo(0, 2);
  });
});
