import { describe, expect, it } from 'vitest';
import type { Bath } from '../../../../shared/domain/development/bath-ledger.ts';
import { reckonBath } from '../../../../shared/domain/development/bath-ledger.ts';
import { describeBath } from '../../../../shared/domain/development/bath-state.ts';
import { applyExtension } from '../../../../shared/domain/development/extension.ts';
import { fromMemory } from '../../../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../../../shared/domain/film/film-area.ts';

const TODAY = '2024-05-24';
const bath: Bath = {
  mixedFirstDay: '2024-05-01',
  mixedLastDay: '2024-05-01',
  capacityCm2: 8 * ROLL_AREA_CM2,
  shelfDays: 28,
  usedBeforeCm2: 0,
  state: 'in use',
  endedAt: null,
};

function words(change: Partial<Bath>, rolls: number, nextSeconds: number | null = null) {
  const changed = { ...bath, ...change };
  const use = { areaCm2: rolls * ROLL_AREA_CM2, filmFactor: 1, usedAt: '2024-05-02T10:00:00Z' };
  const reckoning = reckonBath(changed, [use]);
  if (!reckoning.ok) throw new Error(reckoning.reason);
  return describeBath(
    changed,
    reckoning.value.value,
    TODAY,
    changed.endedAt?.slice(0, 10) ?? null,
    nextSeconds,
  );
}

describe('a bath in words', () => {
  it('is 4.2 of 8 rolls, mixed 23 days ago, next roll 3:31', () => {
    // By hand: May 1 to 24 is 23 days; 195 × (1 + 0.02 × 4.2) = 211.38 s.
    const rule = { kind: 'percent', percentPerRoll: 2, source: fromMemory('test') } as const;
    const next = applyExtension(195, 4.2, rule);
    if (!next.ok) throw new Error(next.reason);
    expect(words({}, 4.2, next.value.value)).toBe('4.2 of 8 rolls, mixed 23 days ago, next roll 3:31');
  });

  it.each([
    ['0 of 8 rolls, mixed today', { mixedFirstDay: TODAY, mixedLastDay: TODAY }, 0],
    [
      '1 of 1 roll, mixed 1 day ago, nothing left',
      { mixedFirstDay: '2024-05-23', mixedLastDay: '2024-05-23', capacityCm2: ROLL_AREA_CM2 },
      1,
    ],
    ['3 rolls, mixed 23 days ago', { capacityCm2: null }, 3],
    ['8.5 of 8 rolls, mixed 23 days ago, nothing left', {}, 8.5],
    ['0 of 8 rolls, mixed 23 days ago, 3 days past its shelf life', { shelfDays: 20 }, 0],
    ['0 of 8 rolls, mixed 0 to 23 days ago', { mixedLastDay: '2024-05-31' }, 0],
    ['0 of 8 rolls, day of mixing not known', { mixedFirstDay: null, mixedLastDay: null }, 0],
    [
      '0 of 8 rolls, day of mixing lies ahead',
      { mixedFirstDay: '2024-06-01', mixedLastDay: '2024-06-01' },
      0,
    ],
  ])('is “%s”', (text, change, rolls) => {
    expect(words(change, rolls)).toBe(text);
  });

  it('begins with its end when it is spoilt, and offers no next roll', () => {
    const spoilt = { state: 'spoilt', endedAt: '2024-05-10T09:00:00Z' } as const;
    expect(words(spoilt, 4, 211)).toBe('spoilt since 2024-05-10, 4 of 8 rolls, mixed 23 days ago');
  });
});
