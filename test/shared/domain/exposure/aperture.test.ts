import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactFNumber, formatAperture, parseAperture } from '../../../../shared/domain/exposure/aperture.ts';

describe('aperture', () => {
  it.each([
    // √2 to the power of the stop, hand arithmetic; the marks are common practice.
    [1.4, 1.414],
    [2.8, 2.828],
    [5.6, 5.657],
    [11, 11.314],
    [22, 22.627],
    [16, 16],
  ])('means by the mark %f exactly %f', (mark, exact) => {
    expect(exactFNumber(mark)).toBeCloseTo(exact, 3);
  });

  it('takes a mark between whole stops as it is', () => {
    expect(exactFNumber(6.3)).toBe(6.3);
  });

  it.each([
    ['f/5.6', 5.6],
    ['f5,6', 5.6],
    ['F 8', 8],
    ['ƒ/11', 11],
    ['1:2.8', 2.8],
    ['16', 16],
  ])('reads %j as %f', (text, fNumber) => {
    expect(parseAperture(text)).toEqual({ ok: true, value: fNumber });
  });

  it.each([
    ['', 'aperture_unreadable'],
    ['wide open', 'aperture_unreadable'],
    ['f/', 'aperture_unreadable'],
    ['1/500', 'aperture_unreadable'],
    ['f/0', 'aperture_out_of_range'],
    ['f/5000', 'aperture_out_of_range'],
  ])('refuses %j as %s', (text, reason) => {
    expect(parseAperture(text)).toEqual({ ok: false, reason });
  });

  it('reads what it writes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 100_000 }), (hundredths) => {
        expect(parseAperture(formatAperture(hundredths / 100))).toEqual({
          ok: true,
          value: hundredths / 100,
        });
      }),
    );
  });
});
