import { describe, expect, it } from 'vitest';
import { outlying } from '../../../../shared/domain/statistics/outlying.ts';

describe('values that lie far from the rest', () => {
  // Hand: middle of 1 2 3 4 5 6 40 is 4; distances 3 2 1 0 1 2 36, their middle 2; bar 3.5 · 1.4826 · 2 = 10.4.
  it('are those beyond three and a half robust deviations', () => {
    expect(outlying([1, 2, 3, 4, 5, 6, 40])).toEqual([6]);
  });

  it('are none among evenly spread ones', () => {
    expect(outlying([1, 2, 3, 4, 5])).toEqual([]);
  });

  it('are none where there is no spread, and none of none', () => {
    expect(outlying([2, 2, 2, 2, 9])).toEqual([]);
    expect(outlying([])).toEqual([]);
  });
});
