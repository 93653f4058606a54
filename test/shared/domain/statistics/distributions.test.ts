import { describe, expect, it } from 'vitest';
import {
  chiSquareAbove,
  incompleteBeta,
  logFactorial,
  logGamma,
  normalQuantile,
  studentTwoSided,
} from '../../../../shared/domain/statistics/distributions.ts';

// All references: R 4.2.2, the call beside each.
describe('distributions', () => {
  it.each([
    [0.3, 1.0957979948181],
    [4.5, 2.4537365708424],
    [120, 453.0248962384962],
  ])('gives lgamma(%d)', (x, expected) => {
    expect(logGamma(x)).toBeCloseTo(expected, 9);
  });

  it('gives factorials', () => {
    expect(Math.exp(logFactorial(10))).toBeCloseTo(3_628_800, 3);
  });

  it('gives pbeta(.3, 2.5, 4)', () => {
    expect(incompleteBeta(0.3, 2.5, 4)).toBeCloseTo(0.3521975859, 9);
  });

  it.each([
    [-2.1, 7, 0.07387119621],
    [-0.3, 25, 0.7666574937],
  ])('gives 2·pt(%d, %d)', (t, freedom, expected) => {
    expect(studentTwoSided(t, freedom)).toBeCloseTo(expected, 9);
  });

  it.each([
    [0.975, 1.95996398454],
    [0.9, 1.281551565545],
    [0.6, 0.253347103136],
    [0.01, -2.326347874041],
    [1e-6, -4.753424308823],
  ])('gives qnorm(%d)', (share, expected) => {
    expect(normalQuantile(share)).toBeCloseTo(expected, 7);
  });

  it.each([
    [0.5, 1, 0.479500122187],
    [3.84, 1, 0.0500435212487],
    [20, 7, 0.00556968307295],
    [7.5, 9, 0.585208769383],
  ])('gives pchisq(%d, %d, lower.tail = FALSE)', (x, freedom, expected) => {
    expect(chiSquareAbove(x, freedom)).toBeCloseTo(expected, 11);
  });
});
