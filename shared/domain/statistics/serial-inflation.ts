/** Fewer pairs at a lag say nothing of it. Our choice. */
const LEAST_PAIRS = 8;

/** Correlation from which neighbours count as alike: below is chance. Our choice. */
const LEAST_CORRELATION = 0.05;

/**
 * By how much the variance of a mean of `length` values in a row exceeds that of independent ones, where neighbours
 * are alike: 1 + 2 Σ (1 − lag/length) ρ(lag), summed up to the first lag without correlation. `rows` are rows of
 * values about a common middle of 0, from which ρ is taken. At least 1, at most `length`.
 * Source: Geyer, "Practical Markov chain Monte Carlo", Statistical Science 7 (1992) 473–483, 3.3 (initial positive
 * sequence, here lag by lag); Priestley, Spectral Analysis and Time Series (1981), 5.3.2 (variance of the mean).
 */
export function serialInflation(rows: readonly (readonly number[])[], length: number): number {
  const count = rows.reduce((sum, row) => sum + row.length, 0);
  const power = rows.reduce((sum, row) => sum + row.reduce((part, value) => part + value * value, 0), 0);
  if (count === 0 || power === 0) return 1;
  const variance = power / count;
  let inflation = 1;
  for (let lag = 1; lag < length; lag += 1) {
    const { products, pairs } = pairsAt(rows, lag);
    if (pairs < LEAST_PAIRS) break;
    const correlation = products / pairs / variance;
    if (correlation < LEAST_CORRELATION) break;
    inflation += 2 * (1 - lag / length) * Math.min(1, correlation);
  }
  return Math.min(Math.max(1, length), inflation);
}

function pairsAt(rows: readonly (readonly number[])[], lag: number): { products: number; pairs: number } {
  let products = 0;
  let pairs = 0;
  for (const row of rows) {
    for (let at = lag; at < row.length; at += 1) {
      products += (row[at] ?? 0) * (row[at - lag] ?? 0);
      pairs += 1;
    }
  }
  return { products, pairs };
}
