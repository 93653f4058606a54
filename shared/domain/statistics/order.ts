/** The values from small to large, leaving the given list as it is. */
function ascending(values: readonly number[]): Float64Array {
  return Float64Array.from(values).sort();
}

/**
 * The value below which the given share of the values lies, interpolated between neighbours; NaN for no values.
 * `share` 0..1. Source: Hyndman & Fan, "Sample quantiles in statistical packages", The American Statistician 50
 * (1996) 361–365, definition 7.
 */
export function quantile(values: readonly number[], share: number): number {
  return quantileOfSorted(ascending(values), share);
}

/** As `quantile`, for values that are in ascending order already. */
export function quantileOfSorted(sorted: ArrayLike<number>, share: number): number {
  const place = (sorted.length - 1) * Math.min(1, Math.max(0, share));
  const below = sorted[Math.floor(place)];
  const above = sorted[Math.ceil(place)];
  if (below === undefined || above === undefined) return Number.NaN;
  return below + (above - below) * (place - Math.floor(place));
}

/** The middle value; the mean of the two middle ones for an even count; NaN for no values. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** The median distance from the median, in the unit of the values; NaN for no values. */
export function medianAbsoluteDeviation(values: readonly number[]): number {
  const middle = median(values);
  return median(values.map((value) => Math.abs(value - middle)));
}

/**
 * 1 / Φ⁻¹(3/4): makes the median absolute deviation of normally spread values their standard deviation.
 * Source: Rousseeuw & Croux, "Alternatives to the median absolute deviation", JASA 88 (1993) 1273–1283, section 1.
 */
const MAD_TO_DEVIATION = 1.482602218505602;

/** A standard deviation that outliers hardly move, from the median absolute deviation; NaN for no values. */
export function robustDeviation(values: readonly number[]): number {
  return MAD_TO_DEVIATION * medianAbsoluteDeviation(values);
}

/** The value at which half of the weight lies on either side; NaN where there is no weight. Weights are ≥ 0. */
export function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const pairs = values
    .map((value, index) => ({ value, weight: weights[index] ?? 0 }))
    .filter((pair) => pair.weight > 0)
    .sort((one, other) => one.value - other.value);
  const half = pairs.reduce((sum, pair) => sum + pair.weight, 0) / 2;
  let passed = 0;
  for (const [index, pair] of pairs.entries()) {
    passed += pair.weight;
    const next = pairs[index + 1];
    // Exactly half on this side: the middle of the gap, as for an ordinary median of an even count.
    if (next !== undefined && Math.abs(passed - half) <= half * 1e-12) return (pair.value + next.value) / 2;
    if (passed > half) return pair.value;
  }
  return pairs.at(-1)?.value ?? Number.NaN;
}

/**
 * Ranks from 1; equal values share the mean of their ranks.
 * Source: Kendall, Rank Correlation Methods (1948), chapter 3 (mid-ranks).
 */
export function ranks(values: readonly number[]): number[] {
  const order = values.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value);
  const result = new Array<number>(values.length).fill(0);
  for (let start = 0; start < order.length;) {
    let end = start;
    while (end + 1 < order.length && order[end + 1]?.value === order[start]?.value) end += 1;
    for (let place = start; place <= end; place += 1) {
      const entry = order[place];
      if (entry !== undefined) result[entry.index] = (start + end) / 2 + 1;
    }
    start = end + 1;
  }
  return result;
}

/**
 * The middle of values by the median of the means of all pairs (each value with itself too), weighted by the product
 * of their weights; nearly as steady as a mean, and a quarter of wild values cannot carry it off. NaN for no weight.
 * Source: Hodges & Lehmann, "Estimates of location based on rank tests", Ann. Math. Statist. 34 (1963) 598–611.
 */
export function pairwiseMedian(values: readonly number[], weights: readonly number[]): number {
  const means: number[] = [];
  const products: number[] = [];
  for (const [at, value] of values.entries()) {
    for (let other = at; other < values.length; other += 1) {
      means.push((value + (values[other] ?? value)) / 2);
      products.push((weights[at] ?? 0) * (weights[other] ?? 0));
    }
  }
  return weightedMedian(means, products);
}
