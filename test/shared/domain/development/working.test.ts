import { describe, expect, it } from 'vitest';
import { shown, shownTime } from '../../../../shared/domain/development/working.ts';

describe('numbers in a formula', () => {
  it.each([
    [195, '3:15'],
    [210.6, '3:30.6'],
    [59.96, '1:00'],
    [0, '0:00'],
    [3723.5, '1:02:03.5'],
  ])('shows %d s as %s', (seconds, text) => {
    expect(shownTime(seconds)).toBe(text);
  });

  it.each([
    [37.8, '37.8'],
    [516.128, '516.13'],
    [4, '4'],
  ])('shows %d as %s', (value, text) => {
    expect(shown(value)).toBe(text);
  });
});
