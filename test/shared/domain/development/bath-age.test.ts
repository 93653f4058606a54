import { describe, expect, it } from 'vitest';
import {
  daysBetween,
  findBathAge,
  findDaysPastShelf,
} from '../../../../shared/domain/development/bath-age.ts';

describe('age of a bath', () => {
  it('counts days over a leap day and the change of the clocks', () => {
    // Calendar: February 2024 has 29 days, 9 of them left after the 20th, and one more to March 1.
    expect(daysBetween('2024-02-20', '2024-03-01')).toBe(10);
    expect(daysBetween('2024-03-30', '2024-03-31')).toBe(1);
  });

  it('is a span when the day of mixing is vague', () => {
    const bath = { mixedFirstDay: '2024-05-01', mixedLastDay: '2024-05-31' };
    expect(findBathAge(bath, '2024-06-10')).toEqual({ leastDays: 10, mostDays: 40 });
  });

  it('is unknown when nobody knows', () => {
    expect(findBathAge({ mixedFirstDay: null, mixedLastDay: null }, '2024-06-10')).toBeNull();
  });

  it('warns by the older of two possible ages', () => {
    const bath = { mixedFirstDay: '2024-05-01', mixedLastDay: '2024-05-31', shelfDays: 28 };
    expect(findDaysPastShelf(bath, '2024-06-10')).toBe(12);
  });

  it('does not warn on the last day of its shelf life', () => {
    const bath = { mixedFirstDay: '2024-05-01', mixedLastDay: '2024-05-01', shelfDays: 28 };
    expect(findDaysPastShelf(bath, '2024-05-29')).toBe(0);
  });

  it('does not warn without a shelf life', () => {
    const bath = { mixedFirstDay: '2024-05-01', mixedLastDay: '2024-05-01', shelfDays: null };
    expect(findDaysPastShelf(bath, '2034-05-29')).toBeNull();
  });
});
