import { describe, expect, it } from 'vitest';
import {
  CARRIED_IN_TANK_ML,
  CARRIED_ON_FILM_ML,
  THIOSULFATE_CARRIED_MG,
  washByFills,
} from '../../../../shared/domain/development/wash.ts';
import { ROLL_AREA_CM2 } from '../../../../shared/domain/film/film-area.ts';

const plan = {
  carriedMl: CARRIED_ON_FILM_ML + CARRIED_IN_TANK_ML,
  carriedMg: THIOSULFATE_CARRIED_MG,
  fillMl: 500,
  fills: 3,
  areaCm2: ROLL_AREA_CM2,
};

function washed(change: Partial<typeof plan> = {}) {
  const answer = washByFills({ ...plan, ...change });
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.value;
}

describe('wash arithmetic', () => {
  it('leaves 7.5 millionths after three fills of 500 ml over 10 ml', () => {
    // By hand: (10 / 510)³ = 1 / 51³ = 1 / 132651, 7.5e-6.
    expect(washed().shareLeft).toBeCloseTo(1 / 132651, 15);
  });

  it('has about 1.2 g/l in the first fill', () => {
    // Torzynski: 600 mg in 500 ml, 1.2 g/l; with the 10 ml that stayed, 600 / 510 = 1.176.
    expect(washed().firstFillGramsPerLitre).toBeCloseTo(1.176, 3);
    expect(Math.abs(washed().firstFillGramsPerLitre - 1.2)).toBeLessThan(0.03);
  });

  it('has about 0.24 g/l in the first fill when the surfaces were rinsed first', () => {
    // Torzynski: the 2 ml inside the gelatine hold 120 mg; 120 / 500 = 0.24.
    expect(washed({ carriedMl: 2, carriedMg: 120 }).firstFillGramsPerLitre).toBeCloseTo(0.24, 2);
  });

  it('allows 0.72 mg in a roll', () => {
    // ISO 18917: 1.4 µg/cm² × 516 cm² = 0.72 mg.
    expect(washed().limitMg).toBeCloseTo(0.72, 2);
  });

  it('is within the limit after two fills but not after one', () => {
    // By hand: 600 / 51 = 11.8 mg and 600 / 51² = 0.23 mg against 0.72 mg.
    expect(washed({ fills: 1 }).leftMg).toBeCloseTo(11.76, 2);
    expect(washed({ fills: 2 }).leftMg).toBeCloseTo(0.2307, 4);
  });

  it.each([
    ['volume_not_positive', { fillMl: 0 }],
    ['fills_not_whole', { fills: 0 }],
    ['fills_not_whole', { fills: 2.5 }],
    ['amount_not_real', { carriedMg: -1 }],
    ['area_not_positive', { areaCm2: 0 }],
  ] as const)('refuses with %s', (reason, change) => {
    expect(washByFills({ ...plan, ...change })).toEqual({ ok: false, reason });
  });
});
