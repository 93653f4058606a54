import { normalQuantile } from './distributions.ts';
import { median } from './order.ts';

/** A line through points that single outliers cannot turn. */
export type RobustSlope = {
  readonly count: number;
  /** Change of y per unit of x. */
  readonly slope: number;
  /** y at x = 0. */
  readonly intercept: number;
  /** The slope's interval at the asked confidence. */
  readonly low: number;
  readonly high: number;
};

/**
 * The Theil–Sen line of points: the median of the slopes of all pairs, through the medians; null below 3 points or
 * where x never changes. `confidence` 0..1 is that of the interval.
 * Source: Theil, Proc. Kon. Ned. Akad. Wet. A 53 (1950); Sen, "Estimates of the regression coefficient based on
 * Kendall's tau", JASA 63 (1968) 1379–1389, with the variance of ties of its equation 2.6.
 */
export function robustSlope(
  x: readonly number[],
  y: readonly number[],
  confidence = 0.95,
): RobustSlope | null {
  const count = x.length;
  if (count !== y.length) throw new Error('robustSlope: lists of different length');
  if (count < 3) return null;
  const slopes: number[] = [];
  for (let i = 0; i < count; i += 1) {
    for (let j = i + 1; j < count; j += 1) {
      const run = (x[j] ?? 0) - (x[i] ?? 0);
      if (run !== 0) slopes.push(((y[j] ?? 0) - (y[i] ?? 0)) / run);
    }
  }
  if (slopes.length === 0) return null;
  slopes.sort((one, other) => one - other);
  const slope = median(slopes);
  const variance = (count * (count - 1) * (2 * count + 5) - tieTerm(x) - tieTerm(y)) / 18;
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt(Math.max(0, variance));
  // Sen's order statistics, counted from 0 and kept inside the list.
  const lowAt = Math.max(0, Math.round((slopes.length - reach) / 2) - 1);
  const highAt = Math.min(slopes.length - 1, Math.round((slopes.length + reach) / 2));
  return {
    count,
    slope,
    intercept: median(y) - slope * median(x),
    low: slopes[lowAt] ?? slope,
    high: slopes[highAt] ?? slope,
  };
}

function tieTerm(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].reduce((sum, t) => sum + t * (t - 1) * (2 * t + 5), 0);
}
