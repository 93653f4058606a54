import { describe, expect, it } from 'vitest';
import { describePlace, ordinal } from '../../../shared/text/place-words.ts';

describe('words for places', () => {
  // English ordinals: 11 to 13 end in th, whatever hundred they belong to.
  it.each([
    [1, '1st'],
    [2, '2nd'],
    [3, '3rd'],
    [4, '4th'],
    [11, '11th'],
    [12, '12th'],
    [13, '13th'],
    [21, '21st'],
    [112, '112th'],
  ])('say the place %i as %s', (number, words) => {
    expect(ordinal(number)).toBe(words);
  });

  it('say where a frame lies, whether the binder has a name or a number', () => {
    const place = { binderId: 1, pageId: 1, page: 31, row: 5, position: 2 };
    expect(describePlace({ ...place, binder: '7' })).toBe('Binder 7, page 31, row 5, 2nd');
    expect(describePlace({ ...place, binder: 'Binder A' })).toBe('Binder A, page 31, row 5, 2nd');
  });
});
