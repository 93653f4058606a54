import { describe, expect, it } from 'vitest';
import type { BathInUse } from '../../../../shared/domain/development/ready-check.ts';
import { checkReady } from '../../../../shared/domain/development/ready-check.ts';
import { yours } from '../../../../shared/domain/development/source.ts';

const temperature = { aimC: 37.8, lowC: 37.65, highC: 37.95, source: yours('test') };
const TODAY = '2024-05-29';

function bath(change: Partial<BathInUse['bath']> = {}, areaLeftCm2: number | null = 4000): BathInUse {
  return {
    name: 'Developer 7',
    bath: {
      mixedFirstDay: '2024-05-06',
      mixedLastDay: '2024-05-06',
      capacityCm2: 4129,
      shelfDays: 28,
      usedBeforeCm2: 0,
      state: 'in use',
      endedAt: null,
      ...change,
    },
    reckoning: { areaDoneCm2: 0, areaLeftCm2, rollsDone: 0, rollsLeft: null },
  };
}

function codes(developerC: number | null, baths: readonly BathInUse[], loadCm2 = 516) {
  return checkReady({ temperature, developerC }, baths, loadCm2, TODAY).map(({ code }) => code);
}

describe('before the first pour', () => {
  it('has nothing to ask when all is well', () => {
    expect(codes(37.8, [bath()])).toEqual([]);
  });

  it('asks for the developer’s temperature', () => {
    expect(codes(null, [bath()])).toEqual(['developer_not_measured']);
  });

  it('asks about a developer off its temperature', () => {
    expect(codes(37.5, [bath()])).toEqual(['developer_off_temperature']);
  });

  it('does not ask for a temperature that has no tolerance', () => {
    const none = { temperature: null, developerC: null };
    expect(checkReady(none, [bath()], 516, TODAY)).toEqual([]);
  });

  it.each([
    ['bath_spoilt', 'spoilt'],
    ['bath_discarded', 'discarded'],
  ] as const)('stops at once with %s', (code, state) => {
    const [first] = checkReady({ temperature, developerC: null }, [bath({ state })], 516, TODAY);
    expect(first).toEqual({ code, stops: true, bath: 'Developer 7' });
  });

  it('tells by how many days a bath is past its shelf life', () => {
    // By hand: mixed on May 1, 28 days reach May 29; mixed a day earlier it is one day over.
    const questions = checkReady(
      { temperature, developerC: 37.8 },
      [bath({ mixedFirstDay: '2024-04-30', mixedLastDay: '2024-04-30' })],
      516,
      TODAY,
    );
    expect(questions).toEqual([{ code: 'bath_past_shelf_life', stops: false, bath: 'Developer 7', days: 1 }]);
  });

  it('tells by how much a load asks more than is left', () => {
    expect(checkReady({ temperature, developerC: 37.8 }, [bath({}, 500)], 516, TODAY)).toEqual([
      { code: 'bath_over_capacity', stops: false, bath: 'Developer 7', overCm2: 16 },
    ]);
  });

  it('does not count against a bath whose capacity nobody knows', () => {
    expect(codes(37.8, [bath({}, null)], 99_999)).toEqual([]);
  });
});
