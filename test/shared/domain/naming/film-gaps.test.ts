import { describe, expect, it } from 'vitest';
import { fillGaps } from '../../../../shared/domain/naming/film-gaps.ts';

describe('gaps of a film', () => {
  it('counts frames nobody scanned, which lie on the film all the same', () => {
    // data/scans/rolls/gaps-and-rescans: 5, 8 and 9 missing, 10A after 10.
    expect(fillGaps(['1', '2', '3', '4', '6', '7', '10', '10A'])).toEqual(
      ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '10A'], // prettier-ignore
    );
  });

  it('keeps 00 and 0 before 1', () => {
    expect(fillGaps(['2', '0', '00'])).toEqual(['00', '0', '2']);
  });

  it('adds no whole numbers to a film of half steps', () => {
    expect(fillGaps(['1A', '2A', '4A', '2'])).toEqual(['1A', '2', '2A', '4A']);
  });

  it('takes a wide jump for another kind of number', () => {
    expect(fillGaps(['1', '900'])).toEqual(['1', '900']);
  });

  it('has nothing to add to nothing', () => {
    expect(fillGaps([])).toEqual([]);
  });
});
