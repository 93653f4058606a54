import { describe, expect, it } from 'vitest';
import { findAgeAtExposure } from '../../../../shared/domain/exposure/age-at-exposure.ts';

const month = { earliest: '2019-06-01', latest: '2019-06-30' };
const on = (day: string) => ({ earliest: day, latest: day });

describe('the age of film when it was exposed', () => {
  it('counts from the last and from the first day the box can mean', () => {
    // By hand: 2019-06-30 to 2024-04-20 is 1756 days, 2019-06-01 to then 1785; a year is 365.25 days.
    const age = findAgeAtExposure(month, on('2024-04-20'));
    expect(age?.leastYears).toBeCloseTo(1756 / 365.25, 9);
    expect(age?.mostYears).toBeCloseTo(1785 / 365.25, 9);
  });

  it('is below nothing for film in date', () => {
    const age = findAgeAtExposure(month, on('2018-06-30'));
    expect(age?.mostYears).toBeLessThan(0);
    expect(age?.leastYears).toBeCloseTo(-365 / 365.25, 9);
  });

  it('widens with a vague date of exposure', () => {
    const age = findAgeAtExposure(month, { earliest: '2024-01-01', latest: '2024-12-31' });
    // 2019-06-30 to 2024-01-01: 1646 days; 2019-06-01 to 2024-12-31: 2040.
    expect(age?.leastYears).toBeCloseTo(1646 / 365.25, 9);
    expect(age?.mostYears).toBeCloseTo(2040 / 365.25, 9);
  });

  it('is not known where an end is open', () => {
    expect(findAgeAtExposure({ earliest: null, latest: '1999-12-31' }, on('2024-04-20'))).toBeNull();
    expect(findAgeAtExposure(month, { earliest: '2024-04-20', latest: null })).toBeNull();
  });
});
