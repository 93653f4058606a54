import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WaitingRoll } from '../../../../shared/domain/development/tank-load.ts';
import { checkLoad } from '../../../../shared/domain/development/tank-load.ts';

const tank = { reels: 2, mlPer135: 300, mlPer120: 500, volumeMl: 650 };

function roll(id: number, change: Partial<WaitingRoll> = {}): WaitingRoll {
  return { id, processKey: 'c41', stops: 0, developerSeconds: null, reel: '135', filmFactor: 1, ...change };
}

const codes = (rolls: readonly WaitingRoll[]) => checkLoad(rolls, tank).refusals.map(({ code }) => code);

describe('rolls that share a tank', () => {
  it('may be two alike', () => {
    expect(checkLoad([roll(1), roll(2)], tank)).toEqual({ refusals: [], groups: [[1, 2]] });
  });

  it.each([
    ['process_differs', { processKey: 'black-and-white' }],
    ['push_differs', { stops: 1 }],
    ['time_differs', { developerSeconds: 540 }],
    ['film_factor_differs', { filmFactor: 2 }],
  ] as const)('are kept apart: %s', (code, change) => {
    const rolls = [roll(1), roll(2, change)];
    expect(codes(rolls)).toEqual([code]);
    expect(checkLoad(rolls, tank).groups).toEqual([[1], [2]]);
  });

  it('names the values that stand against each other', () => {
    const { refusals } = checkLoad([roll(1), roll(2, { stops: 1 })], tank);
    expect(refusals).toEqual([{ code: 'push_differs', values: [0, 1] }]);
  });

  it('are spread over tanks when there are more than reels', () => {
    const rolls = [1, 2, 3, 4, 5].map((id) => roll(id));
    expect(checkLoad(rolls, tank)).toEqual({
      refusals: [{ code: 'too_many_reels', values: [5, 2] }],
      groups: [[1, 2], [3, 4], [5]],
    });
  });

  it('must be covered by what the tank holds', () => {
    // By hand: 300 + 500 = 800 ml in a tank of 650.
    expect(checkLoad([roll(1), roll(2, { reel: '120' })], tank)).toEqual({
      refusals: [{ code: 'volume_over_tank', values: [800, 650] }],
      groups: [[1], [2]],
    });
  });

  it('are refused for every reason at once', () => {
    const rolls = [roll(1), roll(2, { stops: 1 }), roll(3, { processKey: 'e6' })];
    expect(codes(rolls)).toEqual(['process_differs', 'push_differs', 'too_many_reels']);
  });

  it('are some', () => {
    expect(codes([])).toEqual(['no_rolls']);
  });

  it('come back in groups that hold every roll once and that nothing is said against', () => {
    const any = fc.record({
      processKey: fc.constantFrom('c41', 'black-and-white'),
      stops: fc.constantFrom(0, 1),
      reel: fc.constantFrom('135' as const, '120' as const),
      filmFactor: fc.constantFrom(1, 2),
    });
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 15 }), (changes) => {
        const rolls = changes.map((change, id) => roll(id, change));
        const { groups, refusals } = checkLoad(rolls, tank);
        expect(groups.flat().toSorted((a, b) => a - b)).toEqual(rolls.map(({ id }) => id));
        for (const group of groups) {
          expect(codes(rolls.filter(({ id }) => group.includes(id)))).toEqual([]);
        }
        expect(groups.length === 1).toBe(refusals.length === 0);
      }),
    );
  });
});
