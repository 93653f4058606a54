import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { yours } from '../../../../shared/domain/development/source.ts';
import type { TimeCurve, TimePoint } from '../../../../shared/domain/development/time-at-temperature.ts';
import { timeAtTemperature } from '../../../../shared/domain/development/time-at-temperature.ts';

const fahrenheit = (degrees: number) => ((degrees - 32) * 5) / 9;

function row(celsius: number, seconds: number): TimePoint {
  return { celsius, seconds, source: yours('test') };
}

function secondsAt(curve: TimeCurve, celsius: number): number {
  const answer = timeAtTemperature(curve, celsius);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.value;
}

function reasonAt(curve: TimeCurve, celsius: number): string {
  const answer = timeAtTemperature(curve, celsius);
  return answer.ok ? 'answered' : answer.reason;
}

// Kodak F-32, rotary tubes, http://www.kodak.com/global/en/professional/support/techPubs/f32/f32c.jhtml :
// minutes at 68, 70, 72 and 75 °F, six film and developer pairs.
const F32 = [
  [6.5, 6, 5.5, 5],
  [6, 5.25, 4.75, 4],
  [8.75, 8, 7.25, 6.25],
  [7, 6.5, 6, 5.5],
  [5.5, 5, 4.5, 4],
  [7.75, 7, 6.5, 5.5],
] as const;

describe('time at a temperature', () => {
  it.each(F32)('reproduces the inner columns of a published table: %d … %d %d … %d min', (a, b, c, d) => {
    const curve: TimeCurve = {
      kind: 'points',
      points: [row(fahrenheit(68), a * 60), row(fahrenheit(75), d * 60)],
    };
    // 0.13 min: the table itself is rounded to quarter minutes, i.e. ± 0.125 min.
    expect(Math.abs(secondsAt(curve, fahrenheit(70)) / 60 - b)).toBeLessThan(0.13);
    expect(Math.abs(secondsAt(curve, fahrenheit(72)) / 60 - c)).toBeLessThan(0.13);
  });

  it('goes through the geometric mean half way between two rows', () => {
    // By hand: half way in temperature is half way in ln t, √(480 × 195) = √93600 = 305.94 s.
    const curve: TimeCurve = { kind: 'points', points: [row(30, 480), row(37.8, 195)] };
    expect(secondsAt(curve, 33.9)).toBeCloseTo(305.94, 2);
  });

  it('uses the rows around the temperature, not the ends of the table', () => {
    // By hand: between 37.8 and 45 °C half way is √(195 × 120) = √23400 = 152.97 s.
    const curve: TimeCurve = {
      kind: 'points',
      points: [row(25, 780), row(30, 480), row(37.8, 195), row(45, 120)],
    };
    expect(secondsAt(curve, 41.4)).toBeCloseTo(152.97, 2);
  });

  it.each([
    [16, 358],
    [17, 324],
    [18, 293],
    [19, 265],
    [20, 240],
    [21, 217],
    [22, 196],
    [23, 178],
    [24, 161],
  ])('estimates 4:00 at 20 °C for %d °C as %d s', (celsius, seconds) => {
    // 240 × exp(−0.1 × (T − 20)); the chart's own points are 6:00 at 16, 4:00 at 20 and 3:00 at 23 °C (from memory).
    const curve: TimeCurve = { kind: 'estimate', point: row(20, 240) };
    expect(Math.abs(secondsAt(curve, celsius) - seconds)).toBeLessThanOrEqual(0.5);
  });

  it('marks an estimate as a rule of thumb', () => {
    const answer = timeAtTemperature({ kind: 'estimate', point: row(20, 240) }, 23);
    expect(answer.ok && answer.value.lines.map((line) => line.source.kind)).toEqual([
      'yours',
      'rule of thumb',
    ]);
  });

  it('writes no estimate for the temperature that was given', () => {
    const answer = timeAtTemperature({ kind: 'estimate', point: row(20, 240) }, 20);
    expect(answer.ok && answer.value.lines.map((line) => line.source.kind)).toEqual(['yours']);
  });

  it('refuses to go beyond either end of the table', () => {
    const curve: TimeCurve = { kind: 'points', points: [row(30, 480), row(37.8, 195)] };
    expect(reasonAt(curve, 29.9)).toBe('below_range');
    expect(reasonAt(curve, 37.9)).toBe('above_range');
  });

  it('refuses an estimate where no chart reached', () => {
    const curve: TimeCurve = { kind: 'estimate', point: row(20, 240) };
    expect(reasonAt(curve, 13)).toBe('below_range');
    expect(reasonAt(curve, 35)).toBe('above_range');
  });

  it('holds a single time within its tolerance and nowhere else', () => {
    // Kodak Z-131, Table 4-1: 3:15 at 37.8 ± 0.15 °C.
    const curve: TimeCurve = { kind: 'fixed', point: row(37.8, 195), lowC: 37.65, highC: 37.95 };
    expect(secondsAt(curve, 37.95)).toBe(195);
    expect(reasonAt(curve, 37.5)).toBe('outside_tolerance');
  });

  it('refuses a temperature that is not a number', () => {
    expect(reasonAt({ kind: 'estimate', point: row(20, 240) }, Number.NaN)).toBe('temperature_not_real');
  });
});

/** Tables that rise in temperature and fall in time. */
const tables = fc
  .array(
    fc.record({
      stepC: fc.double({ min: 0.5, max: 8, noNaN: true }),
      ratio: fc.double({ min: 0.3, max: 0.97, noNaN: true }),
    }),
    {
      minLength: 1,
      maxLength: 6,
    },
  )
  .map((gaps) => {
    const points = [row(15, 900)];
    for (const { stepC, ratio } of gaps) {
      const last = points.at(-1) ?? row(15, 900);
      points.push(row(last.celsius + stepC, last.seconds * ratio));
    }
    return points;
  });

describe('time at a temperature, always', () => {
  it('gives every row its own time back', () => {
    fc.assert(
      fc.property(tables, (points) => {
        for (const point of points)
          expect(secondsAt({ kind: 'points', points }, point.celsius)).toBe(point.seconds);
      }),
    );
  });

  it('falls as the temperature rises', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(tables, share, share, (points, a, b) => {
        const curve: TimeCurve = { kind: 'points', points };
        const span = (points.at(-1)?.celsius ?? 15) - 15;
        const cool = 15 + Math.min(a, b) * span;
        const warm = 15 + Math.max(a, b) * span;
        fc.pre(warm - cool > 1e-3);
        expect(secondsAt(curve, warm)).toBeLessThan(secondsAt(curve, cool));
      }),
    );
  });
});
