import { chiSquareAbove, logFactorial } from './distributions.ts';
import { ranks } from './order.ts';

/** Whether groups differ in height, judged by ranks alone. */
export type RankTest = {
  /** Kruskal and Wallis's H, corrected for ties. */
  readonly h: number;
  /** The chance of an H at least as large if the groups had nothing to do with the values. */
  readonly p: number;
  /** The least chance that any order of these values could have come to; only known where all were tried. */
  readonly least: number | null;
  readonly method: 'exact' | 'approximate' | 'shuffled';
};

/** Up to this many ways to deal the ranks out, all are tried. Our choice: some hundredths of a second. */
const EXACT_UP_TO = 20_000;

/** From this many values in every group, H follows chi-square. Source: Kruskal & Wallis (1952), section 3.1. */
const LARGE_GROUP = 6;

/** Shuffles for what lies between: the error of a p of 0.01 is then about 0.001. Our choice. */
const SHUFFLES = 10_000;

/**
 * The rank test of Kruskal and Wallis for two or more groups of values; null for fewer, or where all values are one.
 * Few values: every way of dealing the ranks out; six or more in every group: chi-square; else shuffles (`random`
 * gives 0 ≤ x < 1). Empty groups do not count.
 * Source: Kruskal & Wallis, "Use of ranks in one-criterion variance analysis", JASA 47 (1952) 583–621.
 */
export function rankTest(groups: readonly (readonly number[])[], random: () => number): RankTest | null {
  const filled = groups.filter((group) => group.length > 0);
  const values = filled.flat();
  const sizes = filled.map((group) => group.length);
  if (sizes.length < 2 || new Set(values).size < 2) return null;
  const all = ranks(values);
  const scale = scaleOf(all);
  const h = scale(all, sizes);
  if (sizes.every((size) => size >= LARGE_GROUP))
    return { h, p: chiSquareAbove(h, sizes.length - 1), least: null, method: 'approximate' };
  const ways = Math.exp(
    logFactorial(values.length) - sizes.reduce((sum, size) => sum + logFactorial(size), 0),
  );
  return ways <= EXACT_UP_TO + 0.5
    ? { h, ...dealt(all, sizes, scale, h), method: 'exact' }
    : { h, p: shuffled(all, sizes, scale, h, random), least: null, method: 'shuffled' };
}

type Scale = (order: readonly number[], sizes: readonly number[]) => number;

/** H of ranks that lie group by group, the correction for ties being the same for every order. */
function scaleOf(all: readonly number[]): Scale {
  const count = all.length;
  const ties = new Map<number, number>();
  for (const rank of all) ties.set(rank, (ties.get(rank) ?? 0) + 1);
  const tied = [...ties.values()].reduce((sum, t) => sum + t ** 3 - t, 0);
  const correction = 1 - tied / (count ** 3 - count);
  return (order, sizes) => {
    let start = 0;
    let sum = 0;
    for (const size of sizes) {
      let total = 0;
      for (let at = start; at < start + size; at += 1) total += order[at] ?? 0;
      sum += total ** 2 / size;
      start += size;
    }
    return ((12 * sum) / (count * (count + 1)) - 3 * (count + 1)) / correction;
  };
}

/** Values that are equal but for rounding count as equal. */
const SAME = 1e-9;

function dealt(all: readonly number[], sizes: readonly number[], scale: Scale, h: number) {
  const groupOf = new Array<number>(all.length).fill(0);
  const left = [...sizes];
  const seen: number[] = [];
  const place = (at: number): void => {
    if (at === all.length) {
      const order = sizes.flatMap((_size, group) => all.filter((_rank, index) => groupOf[index] === group));
      seen.push(scale(order, sizes));
      return;
    }
    for (const [group, space] of left.entries()) {
      if (space === 0) continue;
      left[group] = space - 1;
      groupOf[at] = group;
      place(at + 1);
      left[group] = space;
    }
  };
  place(0);
  const highest = seen.reduce((most, value) => Math.max(most, value), 0);
  const share = (bar: number) => seen.filter((value) => value >= bar - SAME).length / seen.length;
  return { p: share(h), least: share(highest) };
}

function shuffled(
  all: readonly number[],
  sizes: readonly number[],
  scale: Scale,
  h: number,
  random: () => number,
): number {
  const order = [...all];
  let atLeast = 0;
  for (let round = 0; round < SHUFFLES; round += 1) {
    for (let last = order.length - 1; last > 0; last -= 1) {
      const other = Math.floor(random() * (last + 1));
      const kept = order[other] ?? 0;
      order[other] = order[last] ?? 0;
      order[last] = kept;
    }
    if (scale(order, sizes) >= h - SAME) atLeast += 1;
  }
  return (atLeast + 1) / (SHUFFLES + 1);
}
