import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { periodsPastDate } from '../../../../shared/domain/exposure/storage-periods.ts';

describe('where film lay since its date', () => {
  it('counts 32 years from March 1990 to March 2022', () => {
    // 32 years with 8 leap days: 11 688 days / 365.25 = 32.
    expect(periodsPastDate('1990-03-31', '2022-03-31', [])).toEqual([{ place: 'room', years: 32 }]);
  });

  it('leaves out what was before the date', () => {
    const moves = [
      { place: 'room', since: '1985-01-01' },
      { place: 'freezer', since: '1988-01-01' },
    ] as const;
    expect(periodsPastDate('1990-03-31', '2022-03-31', moves)).toEqual([{ place: 'freezer', years: 32 }]);
  });

  it('splits at a move', () => {
    // 2000-01-01 to 2004-01-01: 1461 days = 4 years; to 2008-01-01 another 1461.
    const moves = [
      { place: 'fridge', since: '2004-01-01' },
      { place: 'room', since: null },
    ] as const;
    expect(periodsPastDate('2000-01-01', '2008-01-01', moves)).toEqual([
      { place: 'room', years: 4 },
      { place: 'fridge', years: 4 },
    ]);
  });

  it('takes the first known place for the time before it', () => {
    const moves = [{ place: 'fridge', since: '2004-01-01' }] as const;
    expect(periodsPastDate('2000-01-01', '2008-01-01', moves)).toEqual([{ place: 'fridge', years: 8 }]);
  });

  it.each(['2000-01-01', '1999-06-30'])('is nowhere on %s when the date is 2000-01-01', (today) => {
    expect(periodsPastDate('2000-01-01', today, [])).toEqual([]);
  });

  it('ignores a move that is still to come', () => {
    const moves = [
      { place: 'room', since: null },
      { place: 'freezer', since: '2030-01-01' },
    ] as const;
    expect(periodsPastDate('2000-01-01', '2004-01-01', moves)).toEqual([{ place: 'room', years: 4 }]);
  });

  it('holds a day that is none for a bug', () => {
    expect(() => periodsPastDate('2000-13-01', '2004-01-01', [])).toThrow(RangeError);
  });

  it('adds up to the whole time past the date', () => {
    const day = fc
      .integer({ min: 0, max: 20_000 })
      .map((days) => new Date(days * 86_400_000).toISOString().slice(0, 10));
    const moves = fc.array(
      fc.record({ place: fc.constantFrom('room', 'fridge', 'freezer'), since: fc.option(day) }),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(day, day, moves, (expiresOn, today, lain) => {
        const whole = Math.max(0, (Date.parse(today) - Date.parse(expiresOn)) / 86_400_000 / 365.25);
        const sum = periodsPastDate(expiresOn, today, lain).reduce(
          (years, period) => years + period.years,
          0,
        );
        expect(sum).toBeCloseTo(whole, 9);
      }),
    );
  });
});
