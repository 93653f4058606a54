import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LyingStrip } from '../../../../shared/domain/filing/page-address.ts';
import {
  findFrameAtPlace,
  findPlaceOfFrame,
  formatAddress,
} from '../../../../shared/domain/filing/page-address.ts';

function fives(reversed = false): LyingStrip[] {
  return [1, 2, 3, 4, 5, 6, 7].map((row) => ({
    firstOrdinal: (row - 1) * 5 + 1,
    count: 5,
    reversed,
    place: { page: 0, row, position: 1 },
  }));
}

describe('address of a frame', () => {
  it('follows row ⌈n/5⌉ and position ((n−1) mod 5)+1 on a page of 7 by 5', () => {
    for (let n = 1; n <= 35; n += 1) {
      expect(findPlaceOfFrame(n, fives())).toEqual({
        page: 0,
        row: Math.ceil(n / 5),
        position: ((n - 1) % 5) + 1,
      });
    }
  });

  it('counts a strip that lies tail first from its other end', () => {
    // Frames 6–10 lie 10 9 8 7 6.
    expect(findPlaceOfFrame(6, fives(true))).toEqual({ page: 0, row: 2, position: 5 });
    expect(findFrameAtPlace({ page: 0, row: 2, position: 1 }, fives(true))).toBe(10);
  });

  it('counts on from the position where a strip begins', () => {
    const strip = { firstOrdinal: 1, count: 2, reversed: false, place: { page: 3, row: 1, position: 4 } };
    expect(findPlaceOfFrame(2, [strip])).toEqual({ page: 3, row: 1, position: 5 });
    expect(findFrameAtPlace({ page: 3, row: 1, position: 3 }, [strip])).toBeNull();
  });

  it('has no place for a loose frame', () => {
    expect(findPlaceOfFrame(1, [{ firstOrdinal: 1, count: 1, reversed: false, place: null }])).toBeNull();
  });

  it.each([0, 36])('has no place for frame %i of 35', (ordinal) => {
    expect(findPlaceOfFrame(ordinal, fives())).toBeNull();
  });

  it('finds nothing in an empty row', () => {
    expect(findFrameAtPlace({ page: 0, row: 8, position: 1 }, fives())).toBeNull();
  });

  it('leads from frame to place to the same frame', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1 }),
        fc.boolean(),
        (cut, reversed) => {
          let next = 1;
          const strips = cut.map((count, index) => {
            const firstOrdinal = next;
            next += count;
            const place = { page: Math.floor(index / 6), row: (index % 6) + 1, position: 1 };
            return { firstOrdinal, count, reversed, place };
          });
          for (let ordinal = 1; ordinal < next; ordinal += 1) {
            const place = findPlaceOfFrame(ordinal, strips);
            expect(place && findFrameAtPlace(place, strips)).toBe(ordinal);
          }
        },
      ),
    );
  });

  it('is said in words', () => {
    expect(formatAddress({ binder: 'A', page: 3, row: 2, position: 4 })).toBe(
      'Binder A, page 3, row 2, position 4',
    );
  });

  it('does not say binder twice', () => {
    expect(formatAddress({ binder: 'Binder A', page: 3, row: 2, position: 4 })).toBe(
      'Binder A, page 3, row 2, position 4',
    );
  });
});
