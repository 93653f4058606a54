import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mixWater } from '../../../../shared/domain/development/water-mix.ts';

describe('hot and cold water', () => {
  it('mixes 55 and 12 °C to two litres of 39 °C', () => {
    // Balance of heat by hand: 2000 × 27 / 43 = 1255.81 ml hot, 2000 × 16 / 43 = 744.19 ml cold.
    const mix = mixWater(55, 12, 39, 2000);
    expect(mix.ok && mix.value.value.hotMl).toBeCloseTo(1255.81, 2);
    expect(mix.ok && mix.value.value.coldMl).toBeCloseTo(744.19, 2);
  });

  it('takes all of one where the target is that one', () => {
    expect(mixWater(55, 12, 12, 500)).toMatchObject({
      ok: true,
      value: { value: { hotMl: 0, coldMl: 500 } },
    });
    expect(mixWater(55, 12, 55, 500)).toMatchObject({
      ok: true,
      value: { value: { hotMl: 500, coldMl: 0 } },
    });
  });

  it.each([
    ['target_above_hot', [35, 13, 37.8, 1000]],
    ['target_below_cold', [55, 24, 20, 1000]],
    ['hot_not_warmer', [12, 55, 39, 1000]],
    ['hot_not_warmer', [20, 20, 20, 1000]],
    ['volume_not_positive', [55, 12, 39, 0]],
    ['volume_not_positive', [55, 12, 39, -1]],
    ['temperature_not_real', [131, 54, 102, 1000]],
    ['temperature_not_real', [55, Number.NaN, 39, 1000]],
  ] as const)('refuses with %s', (reason, [hot, cold, target, volume]) => {
    expect(mixWater(hot, cold, target, volume)).toEqual({ ok: false, reason });
  });

  it('conserves volume, and heat', () => {
    const celsius = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        celsius,
        celsius,
        celsius,
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        (a, b, c, volume) => {
          const [cold = 0, target = 0, hot = 0] = [a, b, c].sort((x, y) => x - y);
          fc.pre(hot > cold);
          const mix = mixWater(hot, cold, target, volume);
          if (!mix.ok) throw new Error(mix.reason);
          const { hotMl, coldMl } = mix.value.value;
          expect(hotMl).toBeGreaterThanOrEqual(0);
          expect(coldMl).toBeGreaterThanOrEqual(-1e-9 * volume);
          expect(Math.abs(hotMl + coldMl - volume)).toBeLessThan(1e-9 * volume);
          expect(Math.abs(hotMl * hot + coldMl * cold - volume * target)).toBeLessThan(1e-9 * volume * 100);
        },
      ),
    );
  });
});
