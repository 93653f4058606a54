import { describe, expect, it } from 'vitest';
import { areaOfFilmCm2, findFilmArea, ROLL_AREA_CM2 } from '../../../../shared/domain/film/film-area.ts';

function areaCm2(filmFormat: string, exposures: number | null, pieces = 1): number {
  const answer = findFilmArea(filmFormat, exposures, pieces);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.areaCm2;
}

describe('film area', () => {
  it('counts in 80 square inches, 516.1 cm²', () => {
    // 80 × 2.54² = 80 × 6.4516 = 516.128.
    expect(ROLL_AREA_CM2).toBeCloseTo(516.128, 6);
  });

  // Source: brodie-tyrrell.org/wiki, FixerCapacity: one 135-36 = one 120 = half a 220 = four 4×5 = one 8×10.
  it.each([
    ['one 135-36', '135', 36, 1, 1],
    ['one 120', '120', null, 1, 1],
    ['one 220', '220', null, 1, 2],
    ['four 4×5', '4x5in', null, 4, 1],
    ['one 8×10', '8x10in', null, 1, 1],
    ['three 135-36', '135', 36, 3, 3],
  ] as const)('counts %s as its share of 80 square inches', (_name, film, exposures, pieces, units) => {
    expect(areaCm2(film, exposures, pieces)).toBeCloseTo(units * 516.128, 6);
  });

  it('counts 5×7 in as 35 square inches', () => {
    // 35 × 6.4516 = 225.806.
    expect(areaCm2('5x7in', null)).toBeCloseTo(225.806, 6);
  });

  it.each([
    // By loaded length, 1.60, 1.15 and 0.70 m (from memory): 516.128 × 1.15 / 1.60, 516.128 × 0.70 / 1.60.
    [24, 370.967],
    [12, 225.806],
  ])('counts a 135 film of %i exposures by its length', (exposures, expected) => {
    expect(areaCm2('135', exposures)).toBeCloseTo(expected, 2);
  });

  it('agrees with the real size of 135-36 and 120 within a tenth', () => {
    // 35 × 1600 mm = 560 cm²; 61.5 × 820 mm = 504.3 cm²: hand arithmetic on lengths from memory.
    expect(areaOfFilmCm2(35, 1600)).toBeCloseTo(560, 6);
    expect(Math.abs(areaCm2('135', 36) / 560 - 1)).toBeLessThan(0.1);
    expect(Math.abs(areaCm2('120', null) / 504.3 - 1)).toBeLessThan(0.1);
  });

  it('counts a 110 film as the picture length only', () => {
    // 24 × 25 mm × 16 mm = 9600 mm² = 96 cm².
    expect(areaCm2('110', 24)).toBeCloseTo(96, 6);
  });

  it('says that the length of a 24-exposure film is from memory', () => {
    expect(findFilmArea('135', 24, 1)).toMatchObject({ value: { source: { kind: 'from memory' } } });
  });

  it.each([
    ['wide gauge', null, 1, 'format_unknown'],
    ['135', 0, 1, 'exposures_not_positive'],
    ['135', 36, 0, 'pieces_not_positive'],
    ['135', 36, Number.NaN, 'pieces_not_positive'],
  ])('refuses %s with %d exposures, %d pieces', (film, exposures, pieces, reason) => {
    expect(findFilmArea(film, exposures, pieces)).toEqual({ ok: false, reason });
  });

  it('holds a length without sense to be a bug', () => {
    expect(() => areaOfFilmCm2(35, 0)).toThrow(RangeError);
  });
});
