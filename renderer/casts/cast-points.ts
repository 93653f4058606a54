import type { PlottedRoll, Trend } from '../../shared/api/methods/colour-methods.ts';
import { median } from '../../shared/domain/statistics/order.ts';
import type { CastAxis, CastFactor } from './cast-axes.ts';

/** A roll as a dot of the plot. */
export interface CastPoint {
  readonly rollId: number;
  readonly roll: string;
  readonly x: number;
  /** The cast, less the middle of its stock where `relative`. */
  readonly y: number;
  /** Whether it is of the stock in question. */
  readonly own: boolean;
}

/** The dots of a plot. */
export interface CastPoints {
  readonly points: readonly CastPoint[];
  /** Whether casts are counted from the middle of the stock; not so where the stock has too few rolls for one. */
  readonly relative: boolean;
  /** The stock's own cast that is taken off, 0 where it is not. */
  readonly own: number;
  /** Rolls of the stock with a cast, though the log may not say the rest. */
  readonly measured: number;
}

/** Fewer rolls than this have no middle to count from. Our choice: as for a comparison with the stock. */
const LEAST_ROLLS = 3;

/**
 * The rolls of `stock` and of the `others` (stocks of the same process) as dots, from left to right. Rolls of which
 * the cast was not measured, or of which the log does not know the factor, are no dots.
 */
export function castPoints(
  rolls: readonly PlottedRoll[],
  stock: string,
  others: ReadonlySet<string>,
  axis: CastAxis,
  factor: CastFactor,
): CastPoints {
  const byStock = new Map<string | null, PlottedRoll[]>();
  for (const roll of rolls) {
    if (roll[axis] === null) continue;
    byStock.set(roll.stock, [...(byStock.get(roll.stock) ?? []), roll]);
  }
  const middleOf = (name: string | null) => {
    const values = (byStock.get(name) ?? []).flatMap((roll) => roll[axis] ?? []);
    return values.length < LEAST_ROLLS ? null : median(values);
  };
  const own = middleOf(stock);
  const points = [...byStock].flatMap(([name, group]) => {
    const isOwn = name === stock;
    if (!isOwn && (name === null || own === null || !others.has(name))) return [];
    const middle = isOwn ? (own ?? 0) : middleOf(name);
    if (middle === null) return [];
    return group.flatMap((roll): CastPoint[] => {
      const x = roll[factor];
      const cast = roll[axis];
      return x === null || cast === null
        ? []
        : [{ rollId: roll.rollId, roll: roll.roll, x, y: cast - middle, own: isOwn }];
    });
  });
  return {
    points: points.toSorted((one, other) => one.x - other.x || one.y - other.y),
    relative: own !== null,
    own: own ?? 0,
    measured: (byStock.get(stock) ?? []).length,
  };
}

/** One straight line of the plot. */
export interface TrendLine {
  readonly from: { readonly x: number; readonly y: number; readonly low: number; readonly high: number };
  readonly middle: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number; readonly low: number; readonly high: number };
}

/**
 * The robust line over the rolls of the stock, with its interval at both ends; null where there is none. It goes
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
