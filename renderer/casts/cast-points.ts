import type { PlottedRoll, Trend } from '../../shared/api/methods/causes-methods.ts';
import {
  perDevelopment,
  type Logged,
  type Measure,
  type Per,
} from '../../shared/domain/colour/logged-roll.ts';
import { median } from '../../shared/domain/statistics/order.ts';
import { isLogNumber, type CastFactor } from './cast-axes.ts';

/** A roll, or a development, as a dot of the plot. */
export interface CastPoint {
  readonly id: number;
  readonly name: string;
  /** Where it lies across: the number of the log, or the place of its kind in `kinds`. */
  readonly x: number;
  readonly y: number;
  /** Whether it is of the stock in question. */
  readonly own: boolean;
}

/** The dots of a plot. */
export interface CastPoints {
  readonly points: readonly CastPoint[];
  /** The kinds, by name; empty where the factor is a number. */
  readonly kinds: readonly string[];
  /** Rolls (or developments) that are measured, though the log may not say the rest. */
  readonly measured: number;
}

/**
 * Rolls as dots, from left to right: `own` in question, `others` beside them. What is not measured, or of which the log
 * does not know the factor, is no dot.
 */
export function castPoints(
  own: readonly PlottedRoll[],
  others: readonly PlottedRoll[],
  per: Per,
  measure: Measure,
  factor: CastFactor,
): CastPoints {
  const counted = (rolls: readonly PlottedRoll[]): readonly Logged[] =>
    per === 'development' ? perDevelopment(rolls) : rolls;
  const mine = counted(own);
  const all = [
    ...mine.map((one) => ({ one, own: true })),
    ...counted(others).map((one) => ({ one, own: false })),
  ].filter(({ one }) => one[measure] !== null);
  const kinds = isLogNumber(factor)
    ? []
    : [...new Set(all.flatMap(({ one }) => one[factor] ?? []))].toSorted((a, b) => (a < b ? -1 : 1));
  const points = all.flatMap(({ one, own: isOwn }): CastPoint[] => {
    const y = one[measure];
    const kind = isLogNumber(factor) ? null : one[factor];
    const x = isLogNumber(factor) ? one[factor] : kind === null ? null : kinds.indexOf(kind);
    return x === null || y === null ? [] : [{ id: one.id, name: one.name, x, y, own: isOwn }];
  });
  return {
    points: points.toSorted((a, b) => a.x - b.x || a.y - b.y),
    kinds,
    measured: mine.filter((one) => one[measure] !== null).length,
  };
}

/** One straight line of the plot. */
export interface TrendLine {
  readonly from: { readonly x: number; readonly y: number; readonly low: number; readonly high: number };
  readonly middle: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number; readonly low: number; readonly high: number };
}

/**
 * The robust line over the dots in question, with its interval at both ends; null where there is none. It goes
 * through the medians, as the slope's method has it (Theil–Sen).
 */
export function trendLine(
  points: readonly CastPoint[],
  trend: Pick<Trend, 'slope' | 'slopeLow' | 'slopeHigh'>,
): TrendLine | null {
  const { slope, slopeLow, slopeHigh } = trend;
  const own = points.filter((point) => point.own);
  const first = own[0];
  const last = own.at(-1);
  if (slope === null || slopeLow === null || slopeHigh === null || !first || !last) return null;
  const middle = { x: median(own.map((point) => point.x)), y: median(own.map((point) => point.y)) };
  const at = (x: number) => {
    const ends = [slopeLow, slopeHigh].map((each) => middle.y + each * (x - middle.x));
    return {
      x,
      y: middle.y + slope * (x - middle.x),
      low: Math.min(...ends),
      high: Math.max(...ends),
    };
  };
  return { from: at(first.x), middle, to: at(last.x) };
}

/** A scale from a range of values to pixels, and where its ticks are. */
export interface PlotScale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  readonly digits: number;
}

/**
 * A scale that holds `values` with a little room, at least `least` wide, with five to ten round ticks; with 0 on it
 * when `zero`.
 */
export function plotScale(values: readonly number[], least: number, zero: boolean): PlotScale {
  const shown = zero ? [0, ...values] : values;
  const [lowest, highest] = shown.length === 0 ? [0, 0] : [Math.min(...shown), Math.max(...shown)];
  const reach = Math.max(highest - lowest, least);
  const centre = (lowest + highest) / 2;
  const low = centre - 0.58 * reach;
  const high = centre + 0.58 * reach;
  const rough = (high - low) / 8;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5].find((digit) => digit * power >= rough) ?? 10) * power;
  const first = Math.ceil(low / step);
  const count = Math.floor(high / step) - first + 1;
  return {
    low,
    high,
    ticks: Array.from({ length: count }, (_tick, at) => (first + at) * step),
    digits: Math.max(0, -Math.floor(Math.log10(step))),
  };
}
