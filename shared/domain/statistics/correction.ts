/**
 * Chances corrected so that the risk of even one false finding among all comparisons stays at the level asked.
 * Source: Holm, "A simple sequentially rejective multiple test procedure", Scand. J. Statist. 6 (1979) 65–70.
 */
export function correctByHolm(chances: readonly number[]): number[] {
  const order = sortedWithPlace(chances);
  const result = new Array<number>(chances.length).fill(1);
  let floor = 0;
  for (const [rank, { p, place }] of order.entries()) {
    floor = Math.max(floor, Math.min(1, p * (chances.length - rank)));
    result[place] = floor;
  }
  return result;
}

/**
 * Chances corrected so that the expected share of false findings among the findings stays at the level asked.
 * Source: Benjamini & Hochberg, "Controlling the false discovery rate", J. R. Statist. Soc. B 57 (1995) 289–300.
 */
export function correctByBenjaminiHochberg(chances: readonly number[]): number[] {
  const order = sortedWithPlace(chances).reverse();
  const result = new Array<number>(chances.length).fill(1);
  let ceiling = 1;
  for (const [index, { p, place }] of order.entries()) {
    ceiling = Math.min(ceiling, (p * chances.length) / (chances.length - index));
    result[place] = ceiling;
  }
  return result;
}

function sortedWithPlace(chances: readonly number[]): { p: number; place: number }[] {
  return chances.map((p, place) => ({ p, place })).sort((one, other) => one.p - other.p);
}
