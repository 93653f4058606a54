import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatDxNumber,
  formatMagazineCode,
  parseDxNumber,
  parseMagazineCode,
} from '../../../../shared/domain/exposure/dx-code.ts';

describe('bar code of a magazine', () => {
  // Source: DX encoding, s.cnmilf.com/w/index.php?diff=prev&oldid=1252700485&title=DX_encoding;
  // wiki.niidae.com DX_number. 1756 = 16 × 109 + 12; 1522 = 16 × 95 + 2.
  it.each([
    ['017563', '109-12', 24],
    ['315223', '95-2', 24],
  ])('%s is DX %s with %i exposures', (digits, dx, exposures) => {
    const code = parseMagazineCode(digits);
    expect(code.ok && formatDxNumber(code.value.dx)).toBe(dx);
    expect(code.ok && code.value.exposures).toBe(exposures);
    expect(code.ok && formatMagazineCode(code.value)).toBe(digits);
  });

  // Source: liquisearch.com/dx_number/dx_barcode: 115-4 ↔ 1844, and the digits of the lengths.
  it.each([
    ['018441', 12],
    ['018442', 20],
    ['018443', 24],
    ['018444', 36],
    ['018445', 48],
    ['018446', 60],
    ['018440', 72],
    ['018447', null],
  ])('%s is 115-4 with %s exposures', (digits, exposures) => {
    expect(parseMagazineCode(digits)).toEqual({
      ok: true,
      value: { prefix: 0, dx: { part1: 115, part2: 4 }, exposures },
    });
  });

  it('reads the groups as they are often printed', () => {
    expect(parseMagazineCode('0 1756-3')).toEqual(parseMagazineCode('017563'));
  });

  it.each([
    ['', 'dx_not_six_digits'],
    ['17563', 'dx_not_six_digits'],
    ['0175630', 'dx_not_six_digits'],
    ['01756E', 'dx_not_six_digits'],
    // 2048 = 16 × 128 is more than seven bits.
    ['020483', 'dx_out_of_range'],
    ['017568', 'dx_length_unknown'],
  ])('refuses %j as %s', (digits, reason) => {
    expect(parseMagazineCode(digits)).toEqual({ ok: false, reason });
  });

  it('reads what it writes', () => {
    const anyCode = fc.record({
      prefix: fc.integer({ min: 0, max: 9 }),
      dx: fc.record({ part1: fc.integer({ min: 0, max: 127 }), part2: fc.integer({ min: 0, max: 15 }) }),
      exposures: fc.constantFrom(12, 20, 24, 36, 48, 60, 72, null),
    });
    fc.assert(
      fc.property(anyCode, (code) => {
        expect(parseMagazineCode(formatMagazineCode(code))).toEqual({ ok: true, value: code });
        expect(parseDxNumber(formatDxNumber(code.dx))).toEqual({ ok: true, value: code.dx });
      }),
    );
  });
});

describe('DX number', () => {
  it.each([
    ['109', 'dx_unreadable'],
    ['128-0', 'dx_out_of_range'],
    ['109-16', 'dx_out_of_range'],
  ])('refuses %j as %s', (text, reason) => {
    expect(parseDxNumber(text)).toEqual({ ok: false, reason });
  });
});
