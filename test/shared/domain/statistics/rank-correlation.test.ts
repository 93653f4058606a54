import { describe, expect, it } from 'vitest';
import { rankCorrelation } from '../../../../shared/domain/statistics/rank-correlation.ts';
import { RANGE, WEIGHT } from './car-trials.ts';

describe('rank correlation', () => {
  // Reference: R 4.2.2 cor.test(wt, mpg, method = "spearman", exact = FALSE), and scipy 1.10.1 spearmanr: the same.
  it('gives rho of a published set with ties', () => {
    expect(rankCorrelation(WEIGHT, RANGE)?.rho).toBeCloseTo(-0.8864220333, 9);
  });

  it('gives the chance of a published set with ties', () => {
    const p = rankCorrelation(WEIGHT, RANGE)?.p ?? 1;
    expect(p / 1.487594858e-11).toBeCloseTo(1, 6);
  });

  // Reference: R 4.2.2 cor.test(1:7, c(2,1,4,3,7,5,6), method = "spearman", exact = TRUE).
  it('gives the exact chance of few pairs', () => {
    const result = rankCorrelation([1, 2, 3, 4, 5, 6, 7], [2, 1, 4, 3, 7, 5, 6]);
    expect(result?.rho).toBeCloseTo(0.8214285714, 9);
    expect(result?.p).toBeCloseTo(0.03412698413, 9);
  });

  // Hand: of 5! = 120 orders two have |rho| = 1.
  it('gives 2/120 for five pairs in one order', () => {
    expect(rankCorrelation([1, 2, 3, 4, 5], [10, 11, 15, 20, 21])?.p).toBeCloseTo(2 / 120, 12);
  });

  // Hand: of 10! = 3 628 800 orders two have |rho| = 1.
  it('never says that an order is impossible by chance', () => {
    const up = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    expect((rankCorrelation(up, up)?.p ?? 0) * 3_628_800).toBeCloseTo(2, 6);
  });

  // Hand arithmetic (Bonett & Wright 2000): ρ −0.886422, n 32: z = −1.40471; se = √((1 + 0.392872)/29) = 0.219158;
  // ± 1.959964 · se = 0.429542; tanh(−1.834252) = −0.95029, tanh(−0.975168) = −0.75109.
  it('gives the interval worked by hand', () => {
    const interval = rankCorrelation(WEIGHT, RANGE)?.interval;
    expect(interval?.low).toBeCloseTo(-0.9503, 3);
    expect(interval?.high).toBeCloseTo(-0.7511, 3);
  });

  it('has no answer where one list never changes', () => {
    expect(rankCorrelation([1, 2, 3, 4], [5, 5, 5, 5])).toBeNull();
  });

  it('has no answer for two pairs', () => {
    expect(rankCorrelation([1, 2], [3, 4])).toBeNull();
  });
});
