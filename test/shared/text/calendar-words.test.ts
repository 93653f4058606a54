import { describe, expect, it } from 'vitest';
import { describeDate, describeSpan } from '../../../shared/text/calendar-words.ts';

describe('dates in words', () => {
  it('leaves a date as it was given', () => {
    expect(describeDate({ edtf: '1998-22', typed: 'summer of 1998' })).toBe('summer of 1998');
  });

  it('puts the signs of EDTF into words', () => {
    expect(describeDate({ edtf: '2024-04-20~', typed: '2024-04-20~' })).toBe('about 2024-04-20');
  });

  it('says the days between which something was, each year once', () => {
    expect(describeSpan({ earliest: '2024-04-13', latest: '2024-04-20' })).toBe('2024-04-13 to 04-20');
    expect(describeSpan({ earliest: '2024-12-31', latest: '2025-01-01' })).toBe('2024-12-31 to 2025-01-01');
    expect(describeSpan({ earliest: '2024-04-13', latest: '2024-04-13' })).toBe('2024-04-13');
    expect(describeSpan({ earliest: null, latest: '1990-12-31' })).toBe('until 1990-12-31');
    expect(describeSpan({ earliest: '1990-01-01', latest: null })).toBe('from 1990-01-01');
  });

  it('names a whole month and a whole year', () => {
    // February 2024 has 29 days.
    expect(describeSpan({ earliest: '2024-02-01', latest: '2024-02-29' })).toBe('2024-02');
    expect(describeSpan({ earliest: '2023-02-01', latest: '2023-02-28' })).toBe('2023-02');
    expect(describeSpan({ earliest: '2024-01-01', latest: '2024-12-31' })).toBe('2024');
  });
});
