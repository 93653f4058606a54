import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compose,
  invert,
  mapPoint,
  scaling,
  slopeAt,
  solveSymmetric,
  type Matrix,
} from '../../../../shared/domain/look-up/matrix.ts';

const part = fc.double({ min: -0.3, max: 0.3, noNaN: true });
const mapping = fc
  .tuple(part, part, part, part, part, part, part, part)
  .map(([a, b, c, d, e, f, g, h]): Matrix => [1 + a, b, c, d, 1 + e, f, g, h, 1]);

describe('mappings of the plane', () => {
  it('undo themselves', () => {
    fc.assert(
      fc.property(mapping, part, part, (matrix, x, y) => {
        const back = invert(matrix);
        if (back === null) return;
        const [u, v] = mapPoint(compose(back, matrix), x, y);
        expect(u).toBeCloseTo(x, 6);
        expect(v).toBeCloseTo(y, 6);
      }),
    );
  });

  it('put a perspective point where the arithmetic does', () => {
    // (2, 1): depth 0.5·2 + 0·1 + 1 = 2; x (1·2 + 0 + 4) / 2 = 3, y (3·1 + 1) / 2 = 2.
    expect(mapPoint([1, 0, 4, 0, 3, 1, 0.5, 0, 1], 2, 1)).toEqual([3, 2]);
  });

  it('have the slope that small steps show', () => {
    const matrix: Matrix = [1.1, 0.2, 0.1, -0.1, 0.9, 0.3, 0.2, -0.1, 1];
    const step = 1e-6;
    const [x, y] = mapPoint(matrix, 0.5, 0.4);
    const [xx, yx] = mapPoint(matrix, 0.5 + step, 0.4);
    const [xy, yy] = mapPoint(matrix, 0.5, 0.4 + step);
    const expected = [(xx - x) / step, (xy - x) / step, (yx - y) / step, (yy - y) / step];
    slopeAt(matrix, 0.5, 0.4).forEach((value, i) => expect(value).toBeCloseTo(expected[i] ?? 0, 4));
  });

  it('have no way back where everything falls on a line', () => {
    expect(invert(scaling(1, 0))).toBeNull();
  });
});

describe('symmetric systems', () => {
  it('are solved as by hand', () => {
    // 4x + 2y = 10, 2x + 3y = 11: x = 1, y = 3.
    const right = Float64Array.from([10, 11]);
    expect(solveSymmetric(Float64Array.from([4, 2, 2, 3]), right)).toBe(true);
    expect(right[0]).toBeCloseTo(1, 12);
    expect(right[1]).toBeCloseTo(3, 12);
  });

  it('without a single solution are refused', () => {
    expect(solveSymmetric(Float64Array.from([1, 1, 1, 1]), Float64Array.from([1, 1]))).toBe(false);
  });
});
