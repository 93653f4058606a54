/** Signs to add, drop, change or exchange with their neighbour to make `b` of `a` (optimal string alignment). */
function distance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, at) => at)];
  const cell = (row: number, column: number) => rows[row]?.[column] ?? Number.POSITIVE_INFINITY;
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    rows.push(row);
    for (let j = 1; j <= b.length; j += 1) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      const crossed = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row.push(
        Math.min(
          cell(i - 1, j) + 1,
          cell(i, j - 1) + 1,
          cell(i - 1, j - 1) + change,
          crossed ? cell(i - 2, j - 2) + 1 : Number.POSITIVE_INFINITY,
        ),
      );
    }
  }
  return cell(a.length, b.length);
}

/**
 * The word of `words` that was likely meant by `typed`: the one it begins, else the one with the fewest slips, at most
 * a third of its length. Null when none is near. Our choice of limits.
 */
export function findNearestWord(typed: string, words: readonly string[]): string | null {
  const sought = typed.toLowerCase().slice(0, 60);
  if (sought === '') return null;
  const begun = words.find((word) => sought.length >= 2 && word.toLowerCase().startsWith(sought));
  if (begun !== undefined) return begun;
  let best: { readonly word: string; readonly slips: number } | null = null;
  for (const word of words) {
    if (Math.abs(word.length - sought.length) > 3) continue;
    const slips = distance(sought, word.toLowerCase());
    if (slips <= Math.max(1, Math.floor(word.length / 3)) && (best === null || slips < best.slips))
      best = { word, slips };
  }
  return best?.word ?? null;
}
