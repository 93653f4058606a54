import { correctByHolm } from '../statistics/correction.ts';
import { median } from '../statistics/order.ts';
import { outlying } from '../statistics/outlying.ts';
import { rankCorrelation, type RankCorrelation } from '../statistics/rank-correlation.ts';
import { rankTest, type RankTest } from '../statistics/rank-test.ts';
import { robustSlope, type RobustSlope } from '../statistics/robust-slope.ts';
import { LOG_KINDS, LOG_NUMBERS, MEASURES } from './logged-roll.ts';
import type { LogKind, Logged, LogNumber, Measure } from './logged-roll.ts';

/** A roll or development by its name. */
type Named = { readonly id: number; readonly name: string };

/** What a measure and a number of the log have in common. */
export type CastTrend = {
  readonly of: Measure;
  readonly against: LogNumber;
  /** Rolls (or developments) of which both are known. */
  readonly count: number;
  /** Those whose measure is known though the log does not say the rest. */
  readonly unknown: number;
  readonly line: RobustSlope | null;
  readonly rank: RankCorrelation | null;
  /** The chance corrected by Holm for every question of the call; null where there is none. */
  readonly corrected: number | null;
  /** Questions with an answer in this call. */
  readonly questions: number;
  /** Those that lie far from the line. */
  readonly outliers: readonly Named[];
};

/** How a measure differs between kinds: places of storage, cameras, scanners. */
export type CastGroups = {
  readonly of: Measure;
  readonly by: LogKind;
  readonly count: number;
  readonly unknown: number;
  /** By name. */
  readonly groups: readonly { readonly value: string; readonly count: number; readonly median: number }[];
  readonly test: RankTest | null;
  readonly corrected: number | null;
  readonly questions: number;
  /** Those that lie far from the middle of their group. */
  readonly outliers: readonly Named[];
};

/** Fewer give no line. Hand: of four, no order is rarer than 2 in 4! = 24; of five, than 2 in 120. */
export const LEAST_FOR_LINE = 5;

/** Groups whose rarest order is commoner than this cannot show anything. Source: common practice, 1 in 20. */
const LEAST_CHANCE = 0.05;

/**
 * Every measure against everything that the log knows, of rolls or of developments. Chances are corrected for the
 * number of questions that have an answer. `random` gives 0 ≤ x < 1 and serves the rank test of middling groups.
 */
export function findTrends(
  all: readonly Logged[],
  random: () => number,
): { readonly trends: readonly CastTrend[]; readonly groups: readonly CastGroups[] } {
  const trends = MEASURES.flatMap((of) => LOG_NUMBERS.map((against) => trendOf(all, of, against)));
  const groups = MEASURES.flatMap((of) => LOG_KINDS.map((by) => groupsOf(all, of, by, random)));
  const chances = [
    ...trends.flatMap(({ rank }) => rank?.p ?? []),
    ...groups.flatMap(({ test }) => test?.p ?? []),
  ];
  const corrected = correctByHolm(chances).values();
  const questions = chances.length;
  const next = (has: boolean): number | null => (has ? (corrected.next().value ?? 1) : null);
  return {
    trends: trends.map((trend) => ({ ...trend, corrected: next(trend.rank !== null), questions })),
    groups: groups.map((group) => ({ ...group, corrected: next(group.test !== null), questions })),
  };
}

function trendOf(
  all: readonly Logged[],
  of: Measure,
  against: LogNumber,
): Omit<CastTrend, 'corrected' | 'questions'> {
  const measured = all.filter((one) => one[of] !== null);
  const pairs = measured.flatMap((one) => {
    const [x, y] = [one[against], one[of]];
    return x === null || y === null ? [] : [{ id: one.id, name: one.name, x, y }];
  });
  const [xs, ys] = [pairs.map(({ x }) => x), pairs.map(({ y }) => y)];
  const isEnough = pairs.length >= LEAST_FOR_LINE;
  const line = isEnough ? robustSlope(xs, ys) : null;
  const far = line === null ? [] : outlying(pairs.map(({ x, y }) => y - line.slope * x));
  return {
    of,
    against,
    count: pairs.length,
    unknown: measured.length - pairs.length,
    line,
    rank: isEnough ? rankCorrelation(xs, ys) : null,
    outliers: namesAt(pairs, far),
  };
}

function groupsOf(
  all: readonly Logged[],
  of: Measure,
  by: LogKind,
  random: () => number,
): Omit<CastGroups, 'corrected' | 'questions'> {
  const measured = all.filter((one) => one[of] !== null);
  const byValue = new Map<string, { readonly id: number; readonly name: string; readonly y: number }[]>();
  for (const one of measured) {
    const [value, y] = [one[by], one[of]];
    if (value === null || y === null) continue;
    byValue.set(value, [...(byValue.get(value) ?? []), { id: one.id, name: one.name, y }]);
  }
  const filled = [...byValue].toSorted(([one], [other]) => (one < other ? -1 : 1));
  const lists = filled.map(([, group]) => group.map(({ y }) => y));
  const test = rankTest(lists, random);
  const members = filled.flatMap(([, group], at) =>
    group.map((one) => ({ ...one, away: one.y - median(lists[at] ?? []) })),
  );
  const far = outlying(members.map(({ away }) => away));
  return {
    of,
    by,
    count: members.length,
    unknown: measured.length - members.length,
    groups: filled.map(([value, group], at) => ({
      value,
      count: group.length,
      median: median(lists[at] ?? []),
    })),
    test: test !== null && test.least !== null && test.least > LEAST_CHANCE ? null : test,
    outliers: namesAt(members, far),
  };
}

function namesAt(all: readonly Named[], places: readonly number[]): Named[] {
  return places.flatMap((place) => {
    const one = all[place];
    return one === undefined ? [] : [{ id: one.id, name: one.name }];
  });
}
