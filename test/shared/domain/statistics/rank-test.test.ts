import { describe, expect, it } from 'vitest';
import { rankTest } from '../../../../shared/domain/statistics/rank-test.ts';
import { randomFrom } from '../../../support/film-simulator.ts';

/** Ozone (parts per billion) in New York by month, May to September 1973. Source: `airquality` of R 4.2.2. */
const OZONE = [
  [41, 36, 12, 18, 28, 23, 19, 8, 7, 16, 11, 14, 18, 14, 34, 6, 30, 11, 1, 11, 4, 32, 23, 45, 115, 37],
  [29, 71, 39, 23, 21, 37, 20, 12, 13],
  [135, 49, 32, 64, 40, 77, 97, 97, 85, 10, 27, 7, 48, 35, 61, 79, 63, 16, 80, 108, 20, 52, 82, 50, 64, 59],
  [39, 9, 16, 78, 35, 66, 122, 89, 110, 44, 28, 65, 22, 59, 23, 31, 44, 21, 9, 45, 168, 73, 76, 118, 84, 85],
  [
    96, 78, 73, 91, 47, 32, 20, 23, 21, 24, 44, 21, 28, 9, 13, 46, 18, 13, 24, 16, 13, 23, 36, 7, 14, 30, 14,
    18, 20,
  ],
];

describe('the rank test of groups', () => {
  // Source: documentation of R, kruskal.test(Ozone ~ Month, data = airquality): 29.267, p = 6.901e-06.
  it('gives H and the chance of a published set with ties', () => {
    const result = rankTest(OZONE, randomFrom(1));
    expect(result?.method).toBe('approximate');
    expect(result?.h).toBeCloseTo(29.2665763061, 8);
    expect((result?.p ?? 1) / 6.90071411855e-6).toBeCloseTo(1, 7);
  });

  // Source: Hollander & Wolfe, Nonparametric Statistical Methods (1973), p. 116, mucociliary efficiency; H = 0.7714.
  it('gives H of a published set of small groups', () => {
    const groups = [
      [2.9, 3.0, 2.5, 2.6, 3.2],
      [3.8, 2.7, 4.0, 2.4],
      [2.8, 3.4, 3.7, 2.2, 2.0],
    ];
    const result = rankTest(groups, randomFrom(1));
    expect(result?.h).toBeCloseTo(0.771428571429, 10);
    expect(result?.method).toBe('shuffled');
    // Chi-square says 0.680; it errs by some hundredths for groups of five (Kruskal & Wallis, section 3.1).
    expect(Math.abs((result?.p ?? 0) - 0.68)).toBeLessThan(0.05);
  });

  // Hand: 7!/(3!4!) = 35 ways, two of them part the groups wholly. Reference: R 4.2.2 wilcox.test, exact: 0.05714.
  it('tries every way for few values', () => {
    const result = rankTest(
      [
        [1.1, 2.2, 3.3],
        [4, 5, 6.5, 7],
      ],
      randomFrom(1),
    );
    expect(result).toMatchObject({ method: 'exact' });
    expect(result?.p).toBeCloseTo(2 / 35, 12);
    expect(result?.least).toBeCloseTo(2 / 35, 12);
  });

  // Hand: of 3 ways to put one value alone, the two ends are as far out as can be, the middle is not.
  it('knows that three values can show nothing', () => {
    expect(rankTest([[1], [2, 3]], randomFrom(1))?.least).toBeCloseTo(2 / 3, 12);
  });

  it('has no answer for one group, nor for values that are all one', () => {
    expect(rankTest([[1, 2, 3], []], randomFrom(1))).toBeNull();
    expect(rankTest([[5, 5], [5]], randomFrom(1))).toBeNull();
  });
});
