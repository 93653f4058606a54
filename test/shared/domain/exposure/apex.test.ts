import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apertureValue,
  brightnessValue,
  exposureValue,
  exposureValueAt100,
  fNumberFromApertureValue,
  secondsFromTimeValue,
  speedValue,
  timeValue,
} from '../../../../shared/domain/exposure/apex.ts';
import { exactFNumber } from '../../../../shared/domain/exposure/aperture.ts';

describe('additive exposure arithmetic', () => {
  it.each([
    // Sv: ISO 100 → 5, ISO 400 → 7 (speedylook.com/APEX_(photography).html).
    [100, 5],
    [400, 7],
    [3.125, 0],
  ])('gives ISO %f the speed value %i', (iso, value) => {
    expect(speedValue(iso)).toBeCloseTo(value, 12);
  });

  it('gives f/16 at 1/500 s and ISO 400 the value 14.97 at ISO 100', () => {
    // Kodak F-4017 prescribes it for bright sun: Av 8, Tv log₂ 500 = 8.966, Sv − 5 = 2; 16.966 − 2 = 14.966.
    expect(exposureValue(16, 1 / 500)).toBeCloseTo(16.966, 3);
    expect(exposureValueAt100(16, 1 / 500, 400)).toBeCloseTo(14.966, 3);
  });

  it('gives f/11 at 1/500 s and ISO 320 the value 14.29 with the exact f-number', () => {
    // F-4017, the 320 film: 7 + 8.966 − log₂ 3.2 (1.678) = 14.288; with the mark 11 itself 15.885 − 1.678 = 14.207.
    expect(exposureValueAt100(exactFNumber(11), 1 / 500, 320)).toBeCloseTo(14.288, 3);
    expect(exposureValueAt100(11, 1 / 500, 320)).toBeCloseTo(14.207, 3);
  });

  it('has brightness value 0 at one foot-lambert', () => {
    // 0.3 × 11.4 = 3.42 cd/m²; one foot-lambert is 3.426 cd/m² (1/π candela per square foot, hand arithmetic).
    expect(brightnessValue(3.42)).toBeCloseTo(0, 12);
    expect(brightnessValue(3.426_26)).toBeCloseTo(0, 2);
  });

  it.each([
    // 2^(Av/2), hand arithmetic.
    [0, 1],
    [1, 1.414],
    [5, 5.657],
    [7, 11.314],
    [9, 22.627],
  ])('stands aperture value %i for f/%f', (value, fNumber) => {
    expect(fNumberFromApertureValue(value)).toBeCloseTo(fNumber, 3);
  });

  it('comes back from its values', () => {
    const positive = fc.double({ min: 1e-5, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(positive, (value) => {
        expect(fNumberFromApertureValue(apertureValue(value)) / value).toBeCloseTo(1, 9);
        expect(secondsFromTimeValue(timeValue(value)) / value).toBeCloseTo(1, 9);
      }),
    );
  });

  it('gains one stop for half the time, one for double the speed', () => {
    const stop = fc.integer({ min: -6, max: 6 });
    fc.assert(
      fc.property(stop, stop, (faster, quicker) => {
        const before = exposureValueAt100(8, 1 / 60, 100);
        const after = exposureValueAt100(8, 1 / 60 / 2 ** quicker, 100 * 2 ** faster);
        expect(after - before).toBeCloseTo(quicker - faster, 9);
      }),
    );
  });

  it.each([0, -1, Number.NaN, Infinity])('holds %d for a bug', (value) => {
    expect(() => apertureValue(value)).toThrow(RangeError);
    expect(() => timeValue(value)).toThrow(RangeError);
    expect(() => speedValue(value)).toThrow(RangeError);
  });
});
