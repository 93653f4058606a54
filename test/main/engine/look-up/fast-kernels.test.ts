import { describe, expect, it } from 'vitest';
import { createFastKernels } from '../../../../main/engine/look-up/fast-kernels.ts';
import { PLAIN_KERNELS } from '../../../../shared/domain/look-up/kernels.ts';
import { seededRandom } from '../../../support/seeded-random.ts';

const random = seededRandom(4);
const numbers = (length: number) => Float32Array.from({ length }, () => random() * 2 - 1);

describe('fast kernels', () => {
  it('blur as the plain ones do, at awkward sizes', () => {
    const fast = createFastKernels();
    for (const [width, height, radius] of [
      [1, 1, 1],
      [17, 5, 3],
      [137, 91, 9],
      [64, 64, 20],
    ] as const) {
      const source = numbers(width * height);
      const weights = numbers(radius + 1);
      const [expected, actual] = [new Float32Array(source.length), new Float32Array(source.length)];
      PLAIN_KERNELS.blur(source, width, height, weights, expected);
      fast.blur(source, width, height, weights, actual);
      // Sums of about 40 × 40 numbers of 24 bits in another order.
      actual.forEach((value, i) => expect(value).toBeCloseTo(expected[i] ?? 0, 3));
    }
  });

  it('multiply as the plain ones do, also after a blur and with another table', () => {
    const fast = createFastKernels();
    const picture = numbers(400);
    for (const columns of [16, 1024, 48]) {
      const [vector, table] = [numbers(64), numbers(64 * columns)];
      for (let again = 0; again < 2; again++) {
        const [expected, actual] = [new Float32Array(columns), new Float32Array(columns)];
        PLAIN_KERNELS.dots(vector, table, expected);
        fast.dots(vector, table, actual);
        actual.forEach((value, i) => expect(value).toBeCloseTo(expected[i] ?? 0, 4));
        fast.blur(picture, 20, 20, numbers(4), new Float32Array(400));
      }
    }
  });

  it('find the same extrema as the plain ones do, also at sizes that are no multiple of four', () => {
    const fast = createFastKernels();
    for (const [width, height] of [
      [64, 48],
      [37, 29],
    ] as const) {
      const levels = Array.from({ length: 6 }, () => numbers(width * height));
      const expected = PLAIN_KERNELS.extrema(levels, width, height, 4, 0.4);
      expect(expected.every((places) => places.length > 5)).toBe(true);
      expect(fast.extrema(levels, width, height, 4, 0.4)).toEqual(expected);
    }
  });

  it('find the same nearest signatures as the plain ones do, the first of equals', () => {
    const fast = createFastKernels();
    const bits = () => Math.floor(random() * 2 ** 32);
    const known = Uint32Array.from({ length: 3 * 101 }, bits);
    // Some that lie near one another, some twice.
    const flip = (word: number) => (word ^ (bits() & bits() & bits())) >>> 0;
    known.set(known.subarray(0, 60).map(flip), 90);
    known.set(known.subarray(0, 30), 180);
    const wanted = known.map(flip);
    const ranges = Uint16Array.from({ length: 4 * 101 }, (_, i) => {
      const number = Math.floor(i / 4);
      return [number % 7, 40 + (number % 50), 90, number % 2 === 0 ? 101 : 0][i % 4] ?? 0;
    });
    const limits = { first: 13, whole: 34 };
    const expected = PLAIN_KERNELS.nearest(wanted, known, ranges, limits);
    expect(new Set(expected).size).toBeGreaterThan(30);
    expect(fast.nearest(wanted, known, ranges, limits)).toEqual(expected);
  });
});
