import { logFactorial, normalQuantile, studentTwoSided } from './distributions.ts';
import { ranks } from './order.ts';

/** How strongly two lists rise and fall together. */
export type RankCorrelation = {
  readonly count: number;
  /** −1 (one falls as the other rises) to 1 (both rise together). */
  readonly rho: number;
  /** The chance of a rho at least this far from 0 if the two had nothing to do with each other. */
  readonly p: number;
  /** The interval of rho at the asked confidence; null below 4 pairs. */
  readonly interval: { readonly low: number; readonly high: number } | null;
};

/** Up to this many pairs every order is tried (8! = 40 320); above, the t approximation is close. Our choice. */
const EXACT_UP_TO = 8;

/**
 * Spearman's rank correlation of pairs (lists of one length, mid-ranks for ties); null where there are fewer than
 * 3 pairs or one list never changes. `confidence` 0..1 is that of the interval.
 * Source: Spearman, Am. J. Psychology 15 (1904) 72–101; p: all orders for few pairs, else t = ρ√((n−2)/(1−ρ²)) with
 * n − 2 degrees of freedom (Kendall & Stuart, The Advanced Theory of Statistics 2, 31.19); interval: Fisher's z with
 * the variance (1 + ρ²/2)/(n − 3) of Bonett & Wright, Psychometrika 65 (2000) 23–28.
 */
export function rankCorrelation(
  x: readonly number[],
  y: readonly number[],
  confidence = 0.95,
): RankCorrelation | null {
  const count = x.length;
  if (count !== y.length) throw new Error('rankCorrelation: lists of different length');
  if (count < 3) return null;
  const xRanks = ranks(x);
  const yRanks = ranks(y);
  const rho = correlation(xRanks, yRanks);
  if (!Number.isFinite(rho)) return null;
  const p = count <= EXACT_UP_TO ? exactChance(xRanks, yRanks, rho) : approximateChance(rho, count);
  return { count, rho, p, interval: count < 4 ? null : intervalOf(rho, count, confidence) };
}

function correlation(x: readonly number[], y: readonly number[]): number {
  const mean = (x.length + 1) / 2;
  let xy = 0;
  let xx = 0;
  let yy = 0;
  for (const [index, value] of x.entries()) {
    const dx = value - mean;
    const dy = (y[index] ?? mean) - mean;
    xy += dx * dy;
    xx += dx * dx;
    yy += dy * dy;
  }
  return Math.max(-1, Math.min(1, xy / Math.sqrt(xx * yy)));
}

function approximateChance(rho: number, count: number): number {
  // One order of n! each way: the t approximation would say 0.
  if (Math.abs(rho) === 1) return Math.exp(Math.log(2) - logFactorial(count));
  return studentTwoSided(rho * Math.sqrt((count - 2) / (1 - rho * rho)), count - 2);
}

function exactChance(x: readonly number[], y: readonly number[], rho: number): number {
  const order = [...y];
  let atLeast = 0;
  let all = 0;
  const visit = () => {
    all += 1;
    if (Math.abs(correlation(x, order)) >= Math.abs(rho) - 1e-12) atLeast += 1;
  };
  // Heap's method: every order once, one swap at a time.
  const walk = (size: number) => {
    if (size === 1) {
      visit();
      return;
    }
    for (let index = 0; index < size; index += 1) {
      walk(size - 1);
      const other = size % 2 === 0 ? index : 0;
      const kept = order[other] ?? 0;
      order[other] = order[size - 1] ?? 0;
      order[size - 1] = kept;
    }
  };
  walk(order.length);
  return atLeast / all;
}

function intervalOf(rho: number, count: number, confidence: number): { low: number; high: number } {
  if (Math.abs(rho) === 1) return { low: rho, high: rho };
  const z = Math.atanh(rho);
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt((1 + (rho * rho) / 2) / (count - 3));
  return { low: Math.tanh(z - reach), high: Math.tanh(z + reach) };
}
