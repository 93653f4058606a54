import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TemperatureReading } from '../../../../shared/domain/development/effective-development.ts';
import {
  effectiveDevelopment,
  findMeanTemperature,
} from '../../../../shared/domain/development/effective-development.ts';
import { C41_TWO_BATH } from '../../../../shared/domain/development/processes/c41-two-bath.ts';
import { yours } from '../../../../shared/domain/development/source.ts';
import type { TimeCurve } from '../../../../shared/domain/development/time-at-temperature.ts';
import { findTimeCurve } from '../../../../shared/domain/development/time-curve.ts';

const developer = C41_TWO_BATH.steps.find((step) => step.key === 'developer');
const found = developer === undefined ? null : findTimeCurve(developer, 'colour_negative');
if (found === null) throw new Error('no curve');
const c41: TimeCurve = found;
const blackAndWhite: TimeCurve = {
  kind: 'estimate',
  point: { celsius: 20, seconds: 540, source: yours('test') },
};

const read = (atSeconds: number, celsius: number): TemperatureReading => ({ atSeconds, celsius });

function effective(...args: Parameters<typeof effectiveDevelopment>) {
  const answer = effectiveDevelopment(...args);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.value;
}

function reason(...args: Parameters<typeof effectiveDevelopment>) {
  const answer = effectiveDevelopment(...args);
  return answer.ok ? null : answer.reason;
}

describe('development from measured temperatures', () => {
  it('agrees with a numerical integration through a row of the table', () => {
    // scipy 1.17.1, quad over 1 / t(T), t from numpy.interp in ln(time) over 25/13:00, 30/8:00, 37.8/3:15, 45/2:00;
    // readings 0:00 38.4, 1:40 37.2, 2:40 36.5, then flat to 3:15.
    const readings = [read(0, 38.4), read(100, 37.2), read(160, 36.5)];
    const result = effective(c41, readings, 195, 195, 37.8);
    expect(result.meanC).toBeCloseTo(37.274358974, 8);
    expect(result.equivalentSeconds).toBeCloseTo(183.233346031, 6);
    expect(result.secondsNeeded).toBeCloseTo(208.672693751, 6);
  });

  it('makes 9 min falling from 24.0 to 22.5 °C worth 12:28 at 20 °C', () => {
    // Closed form by hand: 540 × (e^0.40 − e^0.25) / 0.15 = 540 × (1.491825 − 1.284025) / 0.15 = 748.08 s.
    const result = effective(blackAndWhite, [read(0, 24), read(540, 22.5)], 540, 540, 20);
    expect(result.equivalentSeconds).toBeCloseTo(748.08, 2);
    expect(result.meanC).toBeCloseTo(23.25, 9);
  });

  it('asks for the table’s own time when the tank sits at another temperature throughout', () => {
    // 3:15 at 37.8 °C is 8:00 at 30 °C in the table itself.
    expect(effective(c41, [read(0, 30)], 60, 195, 37.8).secondsNeeded).toBeCloseTo(480, 9);
  });

  it('keeps a push and an extension as a factor', () => {
    // By hand: 226.2 s planned instead of 195, at 30 °C throughout: 480 × 226.2 / 195 = 556.8 s.
    expect(effective(c41, [read(0, 30)], 60, 226.2, 37.8).secondsNeeded).toBeCloseTo(556.8, 9);
  });

  it('does not mind in which order readings were noted', () => {
    const a = effective(c41, [read(0, 37.6), read(60, 37.4), read(120, 37.2)], 127, 211, 37.8);
    const b = effective(c41, [read(120, 37.2), read(0, 37.6), read(60, 37.4)], 127, 211, 37.8);
    expect(a).toEqual(b);
  });

  it('ignores what was read after the moment asked about', () => {
    // By hand: straight from 38 at 0:00 to 36 at 2:00, at 1:00 it is 37 and the mean is 37.5.
    expect(findMeanTemperature([read(0, 38), read(120, 36)], 60)).toBeCloseTo(37.5, 12);
  });

  it('refuses a temperature off the table', () => {
    expect(reason(c41, [read(0, 37.8), read(60, 50)], 60, 195, 37.8)).toBe('above_range');
  });

  it('refuses without readings', () => {
    expect(reason(c41, [], 60, 195, 37.8)).toBe('no_readings');
  });

  it('refuses before the step has begun', () => {
    expect(reason(c41, [read(0, 37.8)], 0, 195, 37.8)).toBe('time_not_positive');
  });
});

const readings = fc
  .array(
    fc.record({
      atSeconds: fc.integer({ min: 0, max: 300 }),
      celsius: fc.double({ min: 25, max: 45, noNaN: true }),
    }),
    { minLength: 1, maxLength: 8 },
  )
  .map((all) => all.filter((one, i) => all.findIndex((other) => other.atSeconds === one.atSeconds) === i));

describe('development from measured temperatures, always', () => {
  it('is worth its own length at the planned temperature', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 25, max: 45, noNaN: true }),
        fc.integer({ min: 1, max: 600 }),
        (celsius, seconds) => {
          const result = effective(c41, [read(0, celsius)], seconds, 195, celsius);
          expect(result.equivalentSeconds).toBeCloseTo(seconds, 7);
          expect(result.secondsNeeded).toBeCloseTo(195, 7);
        },
      ),
    );
  });

  it('is worth more when it was warmer throughout', () => {
    fc.assert(
      fc.property(readings, (all) => {
        const warmer = all.map((one) => ({ ...one, celsius: Math.min(45, one.celsius + 0.5) }));
        expect(effective(c41, warmer, 200, 195, 37.8).equivalentSeconds).toBeGreaterThanOrEqual(
          effective(c41, all, 200, 195, 37.8).equivalentSeconds,
        );
      }),
    );
  });

  it('is not worth less later', () => {
    const moment = fc.integer({ min: 1, max: 400 });
    fc.assert(
      fc.property(readings, moment, moment, (all, a, b) => {
        const inOrder = [...all].sort((one, other) => one.atSeconds - other.atSeconds);
        const at = (seconds: number) => effective(c41, inOrder, seconds, 195, 37.8).equivalentSeconds;
        fc.pre(a !== b);
        expect(at(Math.max(a, b))).toBeGreaterThan(at(Math.min(a, b)));
      }),
    );
  });
});
