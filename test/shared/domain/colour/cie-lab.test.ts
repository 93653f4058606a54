import { converter } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  D65_WHITE,
  chroma,
  labToLinear,
  linearToLab,
  linearToXyz,
  xyzToLinear,
} from '../../../../shared/domain/colour/cie-lab.ts';
import { linearToSrgb, srgbToLinear } from '../../../../shared/domain/colour/srgb.ts';

const part = fc.double({ min: 0, max: 1, noNaN: true });

describe('sRGB, XYZ and L*a*b*', () => {
  // Source: IEC 61966-2-1:1999, 5.2, matrix printed to four decimals.
  it('has the matrix printed in the sRGB standard', () => {
    const columns = [linearToXyz([1, 0, 0]), linearToXyz([0, 1, 0]), linearToXyz([0, 0, 1])];
    expect(columns.map((column) => column.map((value) => Number(value.toFixed(4))))).toEqual([
      [0.4124, 0.2126, 0.0193],
      [0.3576, 0.7152, 0.1192],
      [0.1805, 0.0722, 0.9505],
    ]);
  });

  // Hand arithmetic: X = 0.3127/0.3290 = 0.95046, Z = (1 − 0.3127 − 0.3290)/0.3290 = 1.08906.
  it('has the white of D65 from its chromaticity', () => {
    expect(D65_WHITE.map((value) => Number(value.toFixed(5)))).toEqual([0.95046, 1, 1.08906]);
  });

  // Hand arithmetic with the formulas of IEC 61966-2-1 and ISO/CIE 11664-4 (sRGB grey codes out of 255).
  it.each([
    [64, 27.093],
    [119, 50.034],
    [128, 53.585],
    [192, 77.704],
    [255, 100],
  ])('gives the grey %d of 255 its lightness and no chroma', (code, lightness) => {
    const light = srgbToLinear(code / 255);
    const lab = linearToLab([light, light, light]);
    expect(lab.L).toBeCloseTo(lightness, 3);
    expect(chroma(lab.a, lab.b)).toBeLessThan(1e-9);
  });

  it('agrees with the reference package culori', () => {
    const toLab = converter('lab65');
    fc.assert(
      fc.property(part, part, part, (r, g, b) => {
        const expected = toLab({ mode: 'rgb', r, g, b });
        const lab = linearToLab([srgbToLinear(r), srgbToLinear(g), srgbToLinear(b)]);
        // The package rounds its matrix and white to other digits than BT.709; 0.02 is far below a visible step.
        expect(Math.abs(lab.L - expected.l)).toBeLessThan(0.02);
        expect(Math.abs(lab.a - expected.a)).toBeLessThan(0.05);
        expect(Math.abs(lab.b - expected.b)).toBeLessThan(0.05);
      }),
    );
  });

  it('comes back through L*a*b*', () => {
    fc.assert(
      fc.property(part, part, part, (r, g, b) => {
        const back = labToLinear(linearToLab([r, g, b]));
        expect(Math.max(Math.abs(back[0] - r), Math.abs(back[1] - g), Math.abs(back[2] - b))).toBeLessThan(
          1e-9,
        );
      }),
    );
  });

  it('comes back through XYZ', () => {
    fc.assert(
      fc.property(part, part, part, (r, g, b) => {
        const back = xyzToLinear(linearToXyz([r, g, b]));
        expect(Math.max(Math.abs(back[0] - r), Math.abs(back[1] - g), Math.abs(back[2] - b))).toBeLessThan(
          1e-9,
        );
      }),
    );
  });

  it('comes back through the sRGB curve', () => {
    fc.assert(
      fc.property(fc.double({ min: -1, max: 2, noNaN: true }), (code) => {
        // 1e-6: the two branches of the standard meet with its rounded constants.
        expect(Math.abs(linearToSrgb(srgbToLinear(code)) - code)).toBeLessThan(1e-6);
      }),
    );
  });
});
