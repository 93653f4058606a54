import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { biweightInfluence, biweightLocation } from '../../../../shared/domain/statistics/robust-location.ts';

const even = (values: readonly number[]) => values.map(() => 1);

describe('biweight location', () => {
  // Hand: about 0 the pulls of −1 and 1 cancel; 100 is beyond the reach and pulls nothing.
  it('is not moved by what lies beyond its reach', () => {
    const values = [-1, 0, 1, 100];
    expect(biweightLocation(values, even(values), 5)).toBeCloseTo(0, 9);
  });

  // By definition (Beaton & Tukey 1974): the pulls at the location cancel.
  it('lies where the pulls cancel', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 3, maxLength: 40 }),
        (values) => {
          const centre = biweightLocation(values, even(values), 10);
          const { pulls } = biweightInfluence(values, even(values), centre, 10);
          expect(Math.abs(pulls.reduce((sum, pull) => sum + pull, 0))).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it('moves with its values', () => {
    const values = [0.1, 0.4, 0.2, 0.25];
    const there = biweightLocation(values, even(values), 1);
    const moved = biweightLocation(
      values.map((value) => value + 3),
      even(values),
      1,
    );
    expect(moved - there).toBeCloseTo(3, 9);
  });

  it('heeds weights: no weight, no say', () => {
    expect(biweightLocation([0, 1], [1, 0], 4)).toBeCloseTo(0, 9);
  });

  // Hand: far within the reach ψ is the distance and ψ′ is 1, so the variance is that of a mean.
  it('is a mean where all lies far within the reach', () => {
    const values = [-2, -1, 0, 1, 2];
    const { pulls, stiffness } = biweightInfluence(values, even(values), 0, 1e6);
    expect(stiffness).toBeCloseTo(1, 6);
    expect(pulls).toEqual(values.map((value) => expect.closeTo(value, 6)));
  });
});
