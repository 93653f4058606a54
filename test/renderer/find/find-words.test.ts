import { describe, expect, it } from 'vitest';
import { addTerm, count, removePart } from '../../../renderer/find/find-words.ts';

describe('words of finding', () => {
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
