import { describe, expect, it } from 'vitest';
import { convertLinear, PLAIN_LINEAR } from '../../../../main/engine/scans/convert-linear.ts';
import { invert, multiply, SRGB_TO_XYZ_D65, XYZ_D65_TO_SRGB } from '../../../../main/engine/scans/srgb.ts';

describe('linear scans', () => {
  it('get the curve of sRGB', () => {
    // Source: IEC 61966-2-1: light 0.18 is 1.055 · 0.18^(1/2.4) − 0.055 = 0.4613, 118 of 255; 0.001 · 12.92 is 3.3.
    const pixels = convertLinear(Uint16Array.of(Math.round(0.18 * 65_535), 65_535, 66), 3, PLAIN_LINEAR);
    expect([...pixels]).toEqual([118, 255, 3]);
  });

  it('are grey from one channel', () => {
    expect([...convertLinear(Uint16Array.of(65_535, 0), 1, PLAIN_LINEAR)]).toEqual([255, 255, 255, 0, 0, 0]);
  });

  it('are stretched between their black and white levels', () => {
    const colour = { black: [1000, 1000, 1000], white: [3000, 3000, 3000], matrix: null } as const;
    // (1000 − 1000) / 2000 = 0; (2000 − 1000) / 2000 = 0.5, 188 of 255 (1.055 · 0.5^(1/2.4) − 0.055 = 0.7354).
    expect([...convertLinear(Uint16Array.of(1000, 2000, 3000), 3, colour)]).toEqual([0, 188, 255]);
  });
});

describe('3 × 3 matrices', () => {
  it('are inverted', () => {
    const product = multiply(XYZ_D65_TO_SRGB, SRGB_TO_XYZ_D65);
    // The standard gives four digits of each matrix; so the product is the identity to three.
    [1, 0, 0, 0, 1, 0, 0, 0, 1].forEach((value, i) => expect(product[i]).toBeCloseTo(value, 2));
    // By hand: the inverse of diag(2, 4, 5) is diag(0.5, 0.25, 0.2).
    const inverse = invert([2, 0, 0, 0, 4, 0, 0, 0, 5]) ?? [];
    [0.5, 0, 0, 0, 0.25, 0, 0, 0, 0.2].forEach((value, i) => expect(inverse[i]).toBeCloseTo(value, 12));
  });

  it('have no inverse where two rows are alike', () => {
    expect(invert([1, 2, 3, 1, 2, 3, 0, 0, 1])).toBeNull();
  });
});
