import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { StoragePlace } from '../../../../shared/domain/exposure/expired.ts';
import {
  AGEING_RULES,
  findAgeingKind,
  suggestExposureIndex,
} from '../../../../shared/domain/exposure/expired.ts';

const NEGATIVE = AGEING_RULES['colour negative'];

function suggest(iso: number, years: number, place: StoragePlace = 'room', rule = NEGATIVE) {
  const answer = suggestExposureIndex(iso, [{ place, years }], rule);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value;
}

describe('index for film past its date', () => {
  // One stop per decade: ISO 400 → 200 at 10 years, 100 at 20 (sidekickcamera.com, experimenting with expired film;
  // christopherstoll.org, 2022-04-09). Between them 400 / 2^(years / 10): 400 / 1.41421, / 2.82843, / 9.18959.
  it.each([
    [0, 400],
    [5, 282.8],
    [10, 200],
    [15, 141.4],
    [20, 100],
    [32, 43.53],
  ])('is for ISO 400 colour negative after %i years in a room EI %f', (years, index) => {
    expect(suggest(400, years).exposureIndex).toBeCloseTo(index, 1);
  });

  it('rounds to a speed that a dial has', () => {
    // 282.8: 1 + 10 log₁₀ = 25.51 → 26° → 320. 43.5 → 17.4 → 17° → 40.
    expect(suggest(400, 5).printedIndex).toBe(320);
    expect(suggest(400, 32).printedIndex).toBe(40);
  });

  it('halves the correction in the fridge (common practice, no source)', () => {
    expect(suggest(400, 20, 'fridge').exposureIndex).toBeCloseTo(200, 9);
  });

  it('corrects nothing in the freezer (common practice, no source)', () => {
    expect(suggest(400, 20, 'freezer').exposureIndex).toBe(400);
  });

  it('takes one stop per two decades for black-and-white (common practice, no source)', () => {
    expect(suggest(400, 20, 'room', AGEING_RULES['black-and-white']).exposureIndex).toBeCloseTo(200, 9);
  });

  it('leaves slide film at its speed (common practice, no source)', () => {
    expect(suggest(100, 30, 'room', AGEING_RULES.slide).exposureIndex).toBe(100);
  });

  it('adds up the places it lay in', () => {
    // 10 years × 1/10 + 10 years × 0.5/10 = 1.5 stops: 400 / 2.8284 = 141.4.
    const answer = suggestExposureIndex(
      400,
      [
        { place: 'room', years: 10 },
        { place: 'fridge', years: 10 },
        { place: 'freezer', years: 10 },
      ],
      NEGATIVE,
    );
    expect(answer.ok && answer.value.exposureIndex).toBeCloseTo(141.42, 2);
  });

  it('is the speed itself for film in date', () => {
    expect(suggestExposureIndex(400, [], NEGATIVE)).toMatchObject({
      value: { exposureIndex: 400, stops: 0 },
    });
  });

  it('follows the rule that the user made', () => {
    const own = { ...NEGATIVE, stopsPerDecade: { room: 2, fridge: 1, freezer: 0 } };
    expect(suggest(400, 10, 'room', own).exposureIndex).toBe(100);
  });

  it('shows the sum', () => {
    expect(suggest(400, 15).steps).toEqual([
      '15 years past the date (room): 1 stop per decade × 1.5 = 1.5 stops',
      'ISO 400 ÷ 2^1.5 = EI 141.4',
    ]);
  });

  it.each([
    [0, 10, 1, 'speed_out_of_range'],
    [Number.NaN, 10, 1, 'speed_out_of_range'],
    [400, -1, 1, 'years_out_of_range'],
    [400, Infinity, 1, 'years_out_of_range'],
    [400, 1000, 1, 'years_out_of_range'],
    [400, 10, -1, 'rule_out_of_range'],
    [400, 10, 50, 'rule_out_of_range'],
  ])('refuses ISO %f, %f years, %f stops per decade as %s', (iso, years, room, reason) => {
    const rule = { ...NEGATIVE, stopsPerDecade: { room, fridge: 0, freezer: 0 } };
    expect(suggestExposureIndex(iso, [{ place: 'room', years }], rule)).toEqual({ ok: false, reason });
  });

  it('refuses more years in all than film has', () => {
    const periods = [
      { place: 'room', years: 100 },
      { place: 'fridge', years: 100 },
    ] as const;
    expect(suggestExposureIndex(400, periods, NEGATIVE)).toEqual({ ok: false, reason: 'years_out_of_range' });
  });

  it('never rises with the years', () => {
    const years = fc.double({ min: 0, max: 60, noNaN: true });
    fc.assert(
      fc.property(
        years,
        years,
        fc.constantFrom<StoragePlace>('room', 'fridge', 'freezer'),
        (one, more, place) => {
          expect(suggest(400, one + more, place).exposureIndex).toBeLessThanOrEqual(
            suggest(400, one, place).exposureIndex,
          );
        },
      ),
    );
  });

  it.each([
    ['c41', 'colour negative'],
    ['ecn2', 'colour negative'],
    ['bw', 'black-and-white'],
    ['e6', 'slide'],
    ['other', null],
  ])('knows the kind of film for the process %s', (process, kind) => {
    expect(findAgeingKind(process)).toBe(kind);
  });
});
