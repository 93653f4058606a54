import { describe, expect, it } from 'vitest';
import { addTerm, count, describePlace, ordinal, removePart } from '../../../renderer/find/find-words.ts';

describe('words of finding', () => {
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

  it('count one and many', () => {
    expect([count(1, 'frame'), count(0, 'frame'), count(13_862, 'frame')]).toEqual([
      '1 frame',
      '0 frames',
      '13\u2009862 frames',
    ]);
  });

  it('add a part to a search and take it away again', () => {
    expect(addTerm(' light ', 'stock:fenn')).toBe('light stock:fenn');
    expect(removePart('light stock:fenn date:2024', 'stock:fenn')).toBe('light date:2024');
    expect(removePart('light', 'dark')).toBe('light');
  });
});
