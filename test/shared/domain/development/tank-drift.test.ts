import fc from 'fast-check';
import { Solver } from 'odex';
import { describe, expect, it } from 'vitest';
import {
  coolingPerMinute,
  driftFromReadings,
  driftOver,
  temperatureAfter,
} from '../../../../shared/domain/development/tank-drift.ts';

function valueOf<Value>(
  answer: { ok: true; value: { value: Value } } | { ok: false; reason: string },
): Value {
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.value;
}

const reason = (answer: { ok: true } | { ok: false; reason: string }) => (answer.ok ? null : answer.reason);

/**
 * End and mean of a tank by numerical integration: dT/dt = −k (T − room) beside the sum of T, solved by the package
 * odex 2.0.4 (E. Hairer's ODEX). `perMinute` 1/min, temperatures in °C.
 */
function integrate(startC: number, roomC: number, perMinute: number, seconds: number) {
  const solver = new Solver(2);
  solver.absoluteTolerance = 1e-12;
  solver.relativeTolerance = 1e-12;
  const { y } = solver.solve(
    (_seconds, [celsius = 0]) => [(-perMinute / 60) * (celsius - roomC), celsius],
    0,
    [startC, 0],
    seconds,
  );
  const [endC = Number.NaN, sum = Number.NaN] = y;
  return { endC, meanC: sum / seconds };
}

describe('drift of a tank against a numerical integration', () => {
  it('ends and averages as the integrated law does, in rooms warmer and cooler', () => {
    const celsius = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        celsius(10, 50),
        celsius(5, 40),
        celsius(0.001, 0.2),
        celsius(10, 1200),
        (start, room, k, seconds) => {
          const closed = valueOf(driftOver(start, room, k, seconds, 37.8));
          const integrated = integrate(start, room, k, seconds);
          // A hundred-thousandth of a degree: far below any thermometer, far above the solver's 1e-12.
          expect(closed.endC).toBeCloseTo(integrated.endC, 5);
          expect(closed.meanC).toBeCloseTo(integrated.meanC, 5);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('starts where the integrated mean is what was aimed at', () => {
    const constant = valueOf(coolingPerMinute(38.5, 36.9, 195, 21));
    const { startForMeanC } = valueOf(driftFromReadings(38.5, 36.9, 195, 21, 37.8));
    expect(integrate(startForMeanC, 21, constant, 195).meanC).toBeCloseTo(37.8, 6);
    // The constant itself: integrating from the first reading has to come out at the second.
    expect(integrate(38.5, 21, constant, 195).endC).toBeCloseTo(36.9, 6);
  });
});

describe('drift of a tank', () => {
  // scipy 1.17.1: dT/dt = −k (T − 21) by solve_ivp (DOP853, rtol 1e-12), k found by brentq from the two readings.
  it('finds the constant that a numerical integration finds', () => {
    expect(valueOf(coolingPerMinute(38.5, 36.9, 195, 21))).toBeCloseTo(0.029502083601, 9);
  });

  it('has the mean and the centring start of a numerical integration', () => {
    const drift = valueOf(driftFromReadings(38.5, 36.9, 195, 21, 37.8));
    expect(drift.endC).toBeCloseTo(36.9, 9);
    expect(drift.meanC).toBeCloseTo(37.687217722, 8);
    expect(drift.startForMeanC).toBeCloseTo(38.618275555, 8);
  });

  it('has the end after twice the time of a numerical integration', () => {
    const constant = valueOf(coolingPerMinute(38.5, 36.9, 195, 21));
    expect(temperatureAfter(38.5, 21, constant, 390)).toBeCloseTo(35.446285714, 8);
  });

  it('halves the difference to the room in ln 2 / k', () => {
    // By hand: k = ln 2 per minute, after 60 s the 20 degrees over the room are 10.
    expect(temperatureAfter(40, 20, Math.LN2, 60)).toBeCloseTo(30, 12);
  });

  it('stays where it is without a constant', () => {
    expect(valueOf(driftOver(38, 21, 0, 195, 37.8))).toEqual({ endC: 38, meanC: 38, startForMeanC: 37.8 });
  });

  it('warms up in a warm room', () => {
    // By hand: k from 18 to 19 °C at 22 °C is ln(4/3) per minute.
    expect(valueOf(coolingPerMinute(18, 19, 60, 22))).toBeCloseTo(Math.log(4 / 3), 12);
  });

  it.each([
    ['time_not_positive', 38.5, 36.9, -1, 21],
    ['time_not_positive', 38.5, 36.9, 0, 21],
    ['temperature_not_real', Number.NaN, 36.9, 195, 21],
    ['no_difference_to_room', 21, 21, 195, 21],
    ['moves_away_from_room', 36.9, 38.5, 195, 21],
    ['crosses_room', 38.5, 20, 195, 21],
    ['crosses_room', 38.5, 21, 195, 21],
  ] as const)('refuses with %s', (expected, start, end, seconds, room) => {
    expect(reason(coolingPerMinute(start, end, seconds, room))).toBe(expected);
  });

  it('refuses a constant below nought', () => {
    expect(reason(driftOver(38, 21, -0.1, 195, 37.8))).toBe('constant_not_real');
  });

  it('has its mean between start and end, and the centred start means what was aimed at', () => {
    const celsius = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        celsius(10, 50),
        celsius(10, 40),
        celsius(0, 0.2),
        celsius(1, 1200),
        (start, room, k, seconds) => {
          const drift = valueOf(driftOver(start, room, k, seconds, 37.8));
          expect(drift.meanC).toBeGreaterThanOrEqual(Math.min(start, drift.endC) - 1e-9);
          expect(drift.meanC).toBeLessThanOrEqual(Math.max(start, drift.endC) + 1e-9);
          expect(valueOf(driftOver(drift.startForMeanC, room, k, seconds, 37.8)).meanC).toBeCloseTo(37.8, 7);
        },
      ),
    );
  });

  it('goes on from the middle as from the start', () => {
    const part = fc.double({ min: 0, max: 600, noNaN: true });
    fc.assert(
      fc.property(part, part, (a, b) => {
        const middle = temperatureAfter(38.5, 21, 0.03, a);
        expect(temperatureAfter(middle, 21, 0.03, b)).toBeCloseTo(temperatureAfter(38.5, 21, 0.03, a + b), 9);
      }),
    );
  });
});
