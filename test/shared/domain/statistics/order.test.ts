import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  median,
  medianAbsoluteDeviation,
  pairwiseMedian,
  quantile,
  ranks,
  robustDeviation,
  weightedMedian,
} from '../../../../shared/domain/statistics/order.ts';

describe('order statistics', () => {
  // Reference: R 4.2.2, quantile(c(1,3,7,8,20), c(.1,.25,.9)) (type 7) = 1.8, 3.0, 15.2.
  it('gives the quantiles of R', () => {
    const values = [20, 1, 8, 3, 7];
    expect([0.1, 0.25, 0.9].map((share) => Number(quantile(values, share).toFixed(6)))).toEqual([
      1.8, 3, 15.2,
    ]);
  });

  // Hand arithmetic: 1 3 7 8 20 100: median 7.5; distances 6.5 4.5 .5 .5 12.5 92.5: median (4.5 + 6.5)/2 = 5.5.
  it('gives the median absolute deviation worked by hand', () => {
    expect(medianAbsoluteDeviation([1, 3, 7, 8, 20, 100])).toBe(5.5);
  });

  // Reference: R 4.2.2, mad(c(1,3,7,8,20,100)) = 8.1543 with R's constant 1.4826.
  it('gives the robust deviation of R', () => {
    expect(robustDeviation([1, 3, 7, 8, 20, 100])).toBeCloseTo(8.1543, 3);
  });

  it('has no median of nothing', () => {
    expect(median([])).toBeNaN();
  });

  it('gives the ordinary median for equal weights', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 20 }), (values) => {
        expect(
          weightedMedian(
            values,
            values.map(() => 2),
          ),
        ).toBeCloseTo(median(values), 12);
      }),
    );
  });

  it('leaves values without weight out of the weighted median', () => {
    expect(weightedMedian([1, 2, 100], [1, 1.5, 0])).toBe(2);
  });

  // Hand: pairs of 1, 2, 9: means 1 1.5 5 2 5.5 9; in order 1 1.5 2 5 5.5 9, middle (2 + 5)/2.
  it('gives the median of pair means worked by hand', () => {
    expect(pairwiseMedian([1, 2, 9], [1, 1, 1])).toBe(3.5);
  });

  // Hand: 10 20 20 30 have ranks 1, (2 + 3)/2, (2 + 3)/2, 4.
  it('shares ranks among equal values', () => {
    expect(ranks([20, 10, 30, 20])).toEqual([2.5, 1, 4, 2.5]);
  });
});
