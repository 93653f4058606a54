import { describe, expect, it } from 'vitest';
import { count } from '../../../renderer/find/find-words.ts';

describe('words of finding', () => {
  it('count one and many', () => {
    expect([count(1, 'frame'), count(0, 'frame'), count(13_862, 'frame')]).toEqual([
      '1 frame',
      '0 frames',
      '13\u2009862 frames',
    ]);
  });
});
