import { describe, expect, it } from 'vitest';
import { fromMemory } from '../../../../shared/domain/development/source.ts';
import { volumeForArea, volumeForReels } from '../../../../shared/domain/development/tank-volume.ts';
import { ROLL_AREA_CM2 } from '../../../../shared/domain/film/film-area.ts';

const tank = { reels: 2, mlPer135: 300, mlPer120: 500, volumeMl: 650 };
const minimum = { mlPerRoll: 100, source: fromMemory('100 ml of stock per 80 sq in') };
const result = (answer: ReturnType<typeof volumeForReels>) =>
  answer.ok ? answer.value.value : answer.reason;

describe('volume of a load', () => {
  it('covers two reels of 135 with 600 ml', () => {
    expect(result(volumeForReels(tank, { reels135: 2, reels120: 0 }))).toBe(600);
  });

  it('says so when the reels need more than the tank holds', () => {
    expect(result(volumeForReels(tank, { reels135: 1, reels120: 1 }))).toBe('volume_over_tank');
  });

  it('does not invent a volume that was not entered', () => {
    expect(result(volumeForReels({ ...tank, mlPer120: null }, { reels135: 0, reels120: 1 }))).toBe(
      'volume_per_reel_missing',
    );
  });

  it('refuses an empty tank', () => {
    expect(result(volumeForReels(tank, { reels135: 0, reels120: 0 }))).toBe('no_reels');
  });
});

describe('enough developer for the film', () => {
  it('wants 400 ml of 1+1 for two rolls at 100 ml of stock each', () => {
    // By hand: 2 × 100 ml × 2 / 1.
    const dilution = { concentrates: [1], water: 1 };
    expect(result(volumeForArea(2 * ROLL_AREA_CM2, dilution, minimum))).toBeCloseTo(400, 9);
  });

  it('wants 5 × 4 in of film to have a quarter of it', () => {
    // By hand: 20 sq in × 6.4516 = 129.032 cm², a quarter of 80 sq in: 25 ml of stock.
    const dilution = { concentrates: [1], water: 0 };
    expect(result(volumeForArea(129.032, dilution, minimum))).toBeCloseTo(25, 9);
  });

  it('refuses no film', () => {
    expect(result(volumeForArea(0, { concentrates: [1], water: 1 }, minimum))).toBe('area_not_positive');
  });
});
