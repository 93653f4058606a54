import { describe, expect, it } from 'vitest';
import { findTrends } from '../../../../shared/domain/colour/cast-trends.ts';
import {
  perDevelopment,
  type Logged,
  type LoggedRoll,
} from '../../../../shared/domain/colour/logged-roll.ts';
import { sayGroups, sayTrend } from '../../../../shared/text/describe-trend.ts';
import { randomFrom } from '../../../support/film-simulator.ts';
import { RANGE, WEIGHT } from '../statistics/car-trials.ts';

/** A roll of which nothing is known but what is given. */
function roll(id: number, known: Partial<LoggedRoll>): LoggedRoll {
  return {
    id,
    name: `2026-${String(id).padStart(3, '0')}`,
    deltaA: null,
    deltaB: null,
    deltaE00: null,
    fog: null,
    temperatureErrorC: null,
    effectiveSeconds: null,
    bathRolls: null,
    monthsPastExpiry: null,
    warmMonths: null,
    storage: null,
    camera: null,
    scanner: null,
    development: null,
    ...known,
  };
}

function trendOf(rolls: readonly Logged[], of: string, against: string) {
  const { trends } = findTrends(rolls, randomFrom(1));
  const found = trends.find((trend) => trend.of === of && trend.against === against);
  if (!found) throw new Error('no such trend');
  return found;
}

function groupsOf(rolls: readonly Logged[], of: string, by: string) {
  const { groups } = findTrends(rolls, randomFrom(1));
  const found = groups.find((group) => group.of === of && group.by === by);
  if (!found) throw new Error('no such groups');
  return found;
}

// Source and references of the set: car-trials.ts; scipy 1.10.1 theilslopes and spearmanr.
const CARS = WEIGHT.map((weight, at) =>
  roll(at, { deltaA: RANGE[at] ?? null, temperatureErrorC: weight, bathRolls: weight }),
);

describe('a measure against a number of the log', () => {
  it('has the robust slope and the rank correlation of a published set', () => {
    const { line, rank, count } = trendOf(CARS, 'deltaA', 'temperatureErrorC');
    expect(count).toBe(32);
    expect(line?.slope).toBeCloseTo(-5.626490461, 8);
    expect(line?.low).toBeCloseTo(-6.982248521, 8);
    expect(rank?.rho).toBeCloseTo(-0.8864220333, 9);
  });

  it('is corrected by Holm for every question that has an answer', () => {
    const { corrected, questions, rank } = trendOf(CARS, 'deltaA', 'temperatureErrorC');
    // Two questions have one: Holm counts the lesser of two equal chances twice, and lets the other not fall below.
    expect(questions).toBe(2);
    expect(corrected).toBeCloseTo(2 * (rank?.p ?? 0), 18);
  });

  it('names those that lie far from the line', () => {
    const line = Array.from({ length: 12 }, (_one, at) =>
      roll(at, { deltaB: 2 * at + (at % 2 === 0 ? 0.1 : -0.1), monthsPastExpiry: at }),
    );
    const rolls = [...line, roll(99, { deltaB: 40, monthsPastExpiry: 6 })];
    expect(trendOf(rolls, 'deltaB', 'monthsPastExpiry').outliers).toEqual([{ id: 99, name: '2026-099' }]);
  });

  it('does not answer for four, and counts what the log does not say', () => {
    const rolls = [1, 2, 3, 4].map((at) => roll(at, { fog: at / 10, warmMonths: at }));
    const trend = trendOf([...rolls, roll(5, { fog: 0.2 })], 'fog', 'warmMonths');
    expect(trend).toMatchObject({ count: 4, unknown: 1, line: null, rank: null, corrected: null });
    expect(sayTrend(trend, 'roll')).toBe(
      'Fog of the base (ΔD) against warm months past expiry: not enough rolls. 4 rolls of which both are known; 5 are the fewest that can show anything.',
    );
  });

  it('is said with size, interval, count and chance, and no cause', () => {
    const said = sayTrend(trendOf(CARS, 'deltaA', 'temperatureErrorC'), 'roll');
    expect(said).toBe(
      'Green to magenta (Δa*) against developer temperature error: −5.6 per 1 °C (95 %: −7.0 to −4.2) over 32 rolls; ' +
        'rank correlation −0.89 (95 %: −0.95 to −0.75). Chance alone would do the like less than once in 10 000 ' +
        '(2 questions asked, corrected after Holm). What else varied with it is not ruled out.',
    );
    expect(said).not.toMatch(/caus|because|due to/i);
  });
});

describe('a measure by kinds', () => {
  const THREE_AND_FOUR = [
    ...[1.1, 2.2, 3.3].map((deltaE00, at) => roll(at, { deltaE00, camera: 'A' })),
    ...[4, 5, 6.5, 7].map((deltaE00, at) => roll(10 + at, { deltaE00, camera: 'B' })),
  ];

  it('has the middles, and the exact chance of the ranks', () => {
    const found = groupsOf([...THREE_AND_FOUR, roll(50, { deltaE00: 1 })], 'deltaE00', 'camera');
    // Middles by hand: 2.2 and (5 + 6.5)/2; 2 of 7!/(3!4!) = 35 ways (R 4.2.2 wilcox.test: 0.05714).
    expect(found.groups).toEqual([
      { value: 'A', count: 3, median: 2.2 },
      { value: 'B', count: 4, median: 5.75 },
    ]);
    expect(found).toMatchObject({ count: 7, unknown: 1, test: null });
    expect(sayGroups(found, 'roll')).toContain('Not enough rolls');
  });

  it('answers from four and four on', () => {
    const more = [...THREE_AND_FOUR, roll(20, { deltaE00: 0.5, camera: 'A' })];
    const found = groupsOf(more, 'deltaE00', 'camera');
    // Hand: 2 of 8!/(4!4!) = 70 ways.
    expect(found.test?.p).toBeCloseTo(2 / 70, 12);
    expect(sayGroups(found, 'roll')).toContain('about once in 35 (one question asked)');
  });

  it('has nothing to compare where there is one kind', () => {
    const one = THREE_AND_FOUR.filter(({ camera }) => camera === 'A');
    expect(sayGroups(groupsOf(one, 'deltaE00', 'camera'), 'roll')).toContain('nothing to compare');
  });

  it('names who lies far from the middle of its group', () => {
    const even = Array.from({ length: 10 }, (_one, at) =>
      roll(at, { deltaA: (at % 2) * 10 + at / 10, scanner: at % 2 === 0 ? 'S' : 'T' }),
    );
    const rolls = [...even, roll(77, { deltaA: 10, scanner: 'S' })];
    expect(groupsOf(rolls, 'deltaA', 'scanner').outliers).toEqual([{ id: 77, name: '2026-077' }]);
  });
});

describe('developments', () => {
  const ONE = { id: 7, name: '2024-05-03' };

  it('have the middle of their rolls, and what all of these agree on', () => {
    const rolls = [
      roll(1, { development: ONE, deltaA: 1, temperatureErrorC: -0.4, camera: 'A', scanner: 'S' }),
      roll(2, { development: ONE, deltaA: 3, temperatureErrorC: -0.4, camera: 'B', scanner: 'S' }),
      roll(3, { development: ONE, temperatureErrorC: -0.4, camera: 'A', scanner: 'S' }),
      roll(4, { deltaA: 100 }),
    ];
    const [only, ...others] = perDevelopment(rolls);
    expect(others).toEqual([]);
    expect(only).toMatchObject({
      id: 7,
      name: '2024-05-03',
      deltaA: 2,
      deltaB: null,
      temperatureErrorC: -0.4,
      camera: null,
      scanner: 'S',
    });
  });
});
