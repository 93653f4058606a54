import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BathUse } from '../../../../shared/domain/development/bath-ledger.ts';
import {
  canUseBath,
  findUsesAfterEnd,
  reckonBath,
} from '../../../../shared/domain/development/bath-ledger.ts';
import { findFilmArea, ROLL_AREA_CM2 } from '../../../../shared/domain/film/film-area.ts';

const fresh = { capacityCm2: 8 * ROLL_AREA_CM2, usedBeforeCm2: 0 };

function use(areaCm2: number, filmFactor = 1, usedAt = '2024-05-01T10:00:00Z'): BathUse {
  return { areaCm2, filmFactor, usedAt };
}

function areaOf(format: string, pieces: number): number {
  const area = findFilmArea(format, null, pieces);
  if (!area.ok) throw new Error(area.reason);
  return area.value.areaCm2;
}

function reckoned(
  bath: typeof fresh | { capacityCm2: null; usedBeforeCm2: number },
  uses: readonly BathUse[],
) {
  const answer = reckonBath(bath, uses);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value.value;
}

describe('ledger of a bath', () => {
  it('counts one 135, two 120 and twelve 4×5 as six rolls of twenty', () => {
    // 80 sq in = one 135-36 = one 120 = four 4×5: 1 + 2 + 12/4 = 6, 20 − 6 = 14.
    const uses = [use(areaOf('135', 1)), use(areaOf('120', 2)), use(areaOf('4x5in', 12))];
    const result = reckoned({ capacityCm2: 20 * ROLL_AREA_CM2, usedBeforeCm2: 0 }, uses);
    expect(result.rollsDone).toBeCloseTo(6, 9);
    expect(result.rollsLeft).toBeCloseTo(14, 9);
  });

  it('counts film that exhausts the fixer twice as fast twice', () => {
    expect(reckoned(fresh, [use(ROLL_AREA_CM2, 2)]).rollsDone).toBeCloseTo(2, 9);
  });

  it('counts half a roll as half', () => {
    expect(reckoned(fresh, [use(ROLL_AREA_CM2 / 2)]).rollsDone).toBeCloseTo(0.5, 9);
  });

  it('counts what it had done before it was entered', () => {
    expect(reckoned({ ...fresh, usedBeforeCm2: ROLL_AREA_CM2 }, []).rollsLeft).toBeCloseTo(7, 9);
  });

  it('says nothing about what is left without a capacity', () => {
    expect(reckoned({ capacityCm2: null, usedBeforeCm2: 0 }, [use(100)])).toMatchObject({
      areaLeftCm2: null,
      rollsLeft: null,
    });
  });

  it.each([
    ['area_not_real', fresh, [use(-1)]],
    ['area_not_real', { ...fresh, usedBeforeCm2: Number.NaN }, []],
    ['film_factor_not_positive', fresh, [use(100, 0)]],
    ['capacity_not_positive', { ...fresh, capacityCm2: 0 }, []],
  ] as const)('refuses with %s', (reason, bath, uses) => {
    expect(reckonBath(bath, uses)).toEqual({ ok: false, reason });
  });

  const uses = fc.array(
    fc.record({
      areaCm2: fc.double({ min: 0, max: 3000, noNaN: true }),
      filmFactor: fc.double({ min: 0.5, max: 3, noNaN: true }),
      usedAt: fc.constant('2024-05-01T10:00:00Z'),
    }),
    { maxLength: 30 },
  );

  it('never leaves less than nothing', () => {
    fc.assert(
      fc.property(uses, (all) => {
        expect(reckoned(fresh, all).areaLeftCm2).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('does not depend on the order of the rolls, to the last digit', () => {
    fc.assert(
      fc.property(uses, (all) => {
        expect(reckoned(fresh, all.toReversed())).toEqual(reckoned(fresh, all));
      }),
    );
  });
});

describe('a bath that was spoilt', () => {
  const sessions = ['01', '02', '03', '04', '05'].map((day) =>
    use(ROLL_AREA_CM2, 1, `2024-05-${day}T10:00:00Z`),
  );

  it('flags the developments after the moment, here after the third', () => {
    const bath = { endedAt: '2024-05-03T18:00:00Z' };
    expect(findUsesAfterEnd(bath, sessions).map(({ usedAt }) => usedAt.slice(0, 10))).toEqual([
      '2024-05-04',
      '2024-05-05',
    ]);
  });

  it('flags the development of that very moment', () => {
    expect(findUsesAfterEnd({ endedAt: '2024-05-05T12:00:00+02:00' }, sessions)).toHaveLength(1);
  });

  it('flags nothing while it is in use', () => {
    expect(findUsesAfterEnd({ endedAt: null }, sessions)).toEqual([]);
  });

  it('cannot be chosen', () => {
    const states = ['in use', 'discarded', 'spoilt'] as const;
    expect(states.map((state) => canUseBath({ state }))).toEqual([true, false, false]);
  });
});
