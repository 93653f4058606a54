import { describe, expect, it } from 'vitest';
import { comparePlannedAndActual } from '../../../../shared/domain/development/planned-and-actual.ts';
import { yours } from '../../../../shared/domain/development/source.ts';

// C-41 within 0.15 °C (Kodak Z-131, Table 4-1), lengthened to 3:31.
const developer = {
  seconds: 211,
  timing: 'exact',
  temperature: { aimC: 37.8, lowC: 37.65, highC: 37.95, source: yours('test') },
} as const;
const bleach = {
  seconds: 390,
  timing: 'minimum',
  temperature: { aimC: null, lowC: 24, highC: 41, source: yours('test') },
} as const;

const read = (atSeconds: number, celsius: number) => ({ atSeconds, celsius });

describe('planned and actual', () => {
  it('finds a tank that cooled from 37.6 to 37.0 half a degree under', () => {
    // By hand, straight lines: 0 to 120 s mean 37.3 °C, then 37.0 flat for 91 s:
    // (120 × 37.3 + 91 × 37.0) / 211 = 37.1706; minus 37.8 = −0.6294.
    const result = comparePlannedAndActual(developer, {
      seconds: 211,
      readings: [read(0, 37.6), read(120, 37)],
    });
    expect(result.meanC).toBeCloseTo(37.1706, 4);
    expect(result.temperatureErrorC).toBeCloseTo(-0.6294, 4);
    expect(result).toMatchObject({
      timeErrorSeconds: 0,
      lowestC: 37,
      highestC: 37.6,
      meanVerdict: 'below',
      readingsVerdict: 'below',
      hadMinimum: null,
    });
  });

  it('calls a mean within tolerance good although single readings were not', () => {
    // By hand: straight from 38.1 to 37.5 has the mean 37.8.
    const result = comparePlannedAndActual(developer, {
      seconds: 211,
      readings: [read(0, 38.1), read(211, 37.5)],
    });
    expect(result).toMatchObject({ meanVerdict: 'within', readingsVerdict: 'both_sides' });
  });

  it('takes the edge of the tolerance as within', () => {
    const edge = comparePlannedAndActual(developer, { seconds: 211, readings: [read(0, 37.65)] });
    expect(edge.readingsVerdict).toBe('within');
  });

  it('gives the error of time in seconds and per cent', () => {
    // By hand: 223 − 211 = 12 s, 12 / 211 = 5.687 %.
    const result = comparePlannedAndActual(developer, { seconds: 223, readings: [] });
    expect(result.timeErrorSeconds).toBe(12);
    expect(result.timeErrorPercent).toBeCloseTo(5.687, 3);
  });

  it('does not invent a temperature that nobody measured', () => {
    const result = comparePlannedAndActual(developer, { seconds: 211, readings: [] });
    expect(result).toMatchObject({ meanC: null, temperatureErrorC: null, meanVerdict: 'not_measured' });
  });

  it('is content when a bath that works to completion had longer', () => {
    expect(comparePlannedAndActual(bleach, { seconds: 500, readings: [] }).hadMinimum).toBe(true);
    expect(comparePlannedAndActual(bleach, { seconds: 389, readings: [] }).hadMinimum).toBe(false);
  });

  it('judges a bath without an aim by its limits alone', () => {
    const result = comparePlannedAndActual(bleach, { seconds: 390, readings: [read(0, 42)] });
    expect(result).toMatchObject({ temperatureErrorC: null, meanVerdict: 'above' });
  });

  it('says nothing about a bath at room temperature', () => {
    const stabiliser = {
      ...bleach,
      temperature: { aimC: null, lowC: null, highC: null, source: yours('test') },
    };
    const result = comparePlannedAndActual(stabiliser, { seconds: 390, readings: [read(0, 20)] });
    expect(result.meanVerdict).toBe('no_tolerance');
  });
});
