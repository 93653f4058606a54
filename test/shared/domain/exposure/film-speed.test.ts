import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  degreesFromIso,
  formatFilmSpeed,
  isoFromDegrees,
  nearestPrintedIso,
  parseFilmSpeed,
  stepIso,
} from '../../../../shared/domain/exposure/film-speed.ts';

/**
 * Speeds of the DX code with their degrees, ISO 25/15° to 5000/38°.
 * Source: liquisearch.com/dx_encoding/reading_dx_codes; each agrees with 1 + 10 log₁₀ S by hand (64: 19.06 → 19).
 */
const PAIRS: readonly (readonly [number, number])[] = [
  [25, 15],
  [32, 16],
  [40, 17],
  [50, 18],
  [64, 19],
  [80, 20],
  [100, 21],
  [125, 22],
  [160, 23],
  [200, 24],
  [250, 25],
  [320, 26],
  [400, 27],
  [500, 28],
  [640, 29],
  [800, 30],
  [1000, 31],
  [1250, 32],
  [1600, 33],
  [2000, 34],
  [2500, 35],
  [3200, 36],
  [4000, 37],
  [5000, 38],
];

describe('film speed', () => {
  it.each(PAIRS)('ISO %i is %i°', (iso, degrees) => {
    expect(degreesFromIso(iso)).toBe(degrees);
    expect(isoFromDegrees(degrees)).toBe(iso);
  });

  it('is ten times as fast after ten thirds of a stop', () => {
    // Kerr: exactly 10, not 2^(10/3) = 10.08.
    expect(stepIso(125, 10)).toBe(1250);
    expect(stepIso(400, -10)).toBe(40);
  });

  it.each([
    [400, 3, 800],
    [400, -3, 200],
    [400, 1, 500],
    [64, 1, 80],
    [800, 6, 3200],
  ])('ISO %i and %i thirds is ISO %i', (iso, thirds, expected) => {
    expect(stepIso(iso, thirds)).toBe(expected);
  });

  it.each([
    // 1 + 10 log₁₀: 283 → 25.52 → 26°; 43.5 → 17.38 → 17°.
    [283, 320],
    [43.5, 40],
    [400, 400],
  ])('the printed speed nearest %f is %i', (iso, printed) => {
    expect(nearestPrintedIso(iso)).toBe(printed);
  });

  it.each([
    ['400', 400],
    ['ISO 400', 400],
    ['400/27°', 400],
    ['ISO 400 / 27°', 400],
    ['EI 250', 250],
    ['27°', 400],
    ['27 DIN', 400],
    ['21° DIN', 100],
    ['12,5', 12.5],
  ])('reads %j as ISO %f', (text, iso) => {
    expect(parseFilmSpeed(text)).toEqual({ ok: true, value: iso });
  });

  it.each([
    ['', 'speed_unreadable'],
    ['fast', 'speed_unreadable'],
    ['400/', 'speed_unreadable'],
    ['-100', 'speed_unreadable'],
    ['0', 'speed_out_of_range'],
    ['9999999', 'speed_out_of_range'],
    ['400/21°', 'speed_contradictory'],
  ])('refuses %j as %s', (text, reason) => {
    expect(parseFilmSpeed(text)).toEqual({ ok: false, reason });
  });

  it('reads what it writes', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PAIRS), ([iso]) => {
        expect(parseFilmSpeed(formatFilmSpeed(iso))).toEqual({ ok: true, value: iso });
      }),
    );
  });

  it('adds up in thirds', () => {
    const thirds = fc.integer({ min: -10, max: 10 });
    fc.assert(
      fc.property(fc.constantFrom(...PAIRS), thirds, thirds, ([iso], one, other) => {
        expect(stepIso(stepIso(iso, one), other)).toBe(stepIso(iso, one + other));
      }),
    );
  });
});
