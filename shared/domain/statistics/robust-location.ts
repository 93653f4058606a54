import { weightedMedian } from './order.ts';

/** Rounds of reweighting: the weights settle in a handful. */
const ROUNDS = 20;

/**
 * The middle of values where one further than `reach` from it has no say at all: Tukey's biweight with a fixed
 * scale, by reweighting from the weighted median. Unit of the values; NaN for no weight.
 * Source: Beaton & Tukey, "The fitting of power series", Technometrics 16 (1974) 147–185 (the biweight); Huber,
 * Robust Statistics (1981), 3.2 and 6.7 (location with known scale, reweighting).
 */
export function biweightLocation(
  values: readonly number[],
  weights: readonly number[],
  reach: number,
): number {
  let centre = weightedMedian(values, weights);
  for (let round = 0; round < ROUNDS; round += 1) {
    let sum = 0;
    let all = 0;
    for (const [at, value] of values.entries()) {
      const away = (value - centre) / reach;
      if (Math.abs(away) >= 1) continue;
      const weight = (weights[at] ?? 0) * (1 - away * away) ** 2;
      sum += weight * value;
      all += weight;
    }
    if (all === 0) return centre;
    centre = sum / all;
  }
  return centre;
}

/** What each value pulls at a biweight location, and how stiff the location is against the pull. */
export type Influence = { readonly pulls: readonly number[]; readonly stiffness: number };

/**
 * The weighted pull ψ of each value at `centre`, and the mean of ψ′: the variance of the location of n values is
 * mean(ψ²) / (n · mean(ψ′)²). Source: Huber, Robust Statistics (1981), 3.2 (asymptotic variance of M-estimates).
 */
export function biweightInfluence(
  values: readonly number[],
  weights: readonly number[],
  centre: number,
  reach: number,
): Influence {
  let slopes = 0;
  const pulls = values.map((value, at) => {
    const away = (value - centre) / reach;
    if (Math.abs(away) >= 1) return 0;
    const weight = weights[at] ?? 0;
    slopes += weight * (1 - away * away) * (1 - 5 * away * away);
    return weight * (value - centre) * (1 - away * away) ** 2;
  });
  return { pulls, stiffness: values.length === 0 ? 0 : slopes / values.length };
}
