import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ML_PER_US_FLUID_OUNCE, mlToUsFluidOunces, usFluidOuncesToMl } from '../../../shared/units/volume.ts';

describe('volume', () => {
  it('holds 29.5735295625 ml in a US fluid ounce', () => {
    // 231 in³ × 16.387064 cm³ / 128 = 3785.411784 / 128 = 29.5735295625: hand arithmetic.
    expect(ML_PER_US_FLUID_OUNCE).toBeCloseTo(29.573_529_562_5, 9);
  });

  it('holds 3785.4 ml in the 128 ounces of a gallon', () => {
    expect(usFluidOuncesToMl(128)).toBeCloseTo(3785.411_784, 6);
  });

  it('finds 16.9 ounces in half a litre', () => {
    // 500 / 29.57353 = 16.907.
    expect(mlToUsFluidOunces(500)).toBeCloseTo(16.907, 3);
  });

  it('comes back from fluid ounces', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (ml) => {
        expect(usFluidOuncesToMl(mlToUsFluidOunces(ml))).toBeCloseTo(ml, 6);
      }),
    );
  });
});
