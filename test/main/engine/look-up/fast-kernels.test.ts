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
});
