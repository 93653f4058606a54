import { describe, expect, it } from 'vitest';
import { robustSlope } from '../../../../shared/domain/statistics/robust-slope.ts';
import { RANGE, WEIGHT } from './car-trials.ts';

describe('robust slope', () => {
  // Source: Sen, JASA 63 (1968) 1379–1389, worked example (as carried in scipy's tests): slope 4, interval 3.71 to
  // 4.38 at 93 %.
  it('gives the worked example of Sen', () => {
    const line = robustSlope([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78], 0.93);
    expect(line?.slope).toBeCloseTo(4, 9);
    expect(line?.low).toBeCloseTo(3.7142857, 6);
    expect(line?.high).toBeCloseTo(4.375, 9);
  });

  // Reference: scipy 1.10.1 stats.theilslopes(mpg, wt, 0.95).
  it('gives the line of a published set with ties', () => {
    const line = robustSlope(WEIGHT, RANGE);
    expect(line?.slope).toBeCloseTo(-5.626490461, 8);
    expect(line?.intercept).toBeCloseTo(37.908080783, 8);
    expect(line?.low).toBeCloseTo(-6.982248521, 8);
    expect(line?.high).toBeCloseTo(-4.158493527, 8);
  });

  it('is not turned by one wild point', () => {
    const x = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
    const y = x.map((value) => 2 * value + 1).with(9, 900);
    expect(robustSlope(x, y)?.slope).toBeCloseTo(2, 9);
  });

  it('has no answer where x never changes', () => {
    expect(robustSlope([2, 2, 2], [1, 2, 3])).toBeNull();
  });
});
