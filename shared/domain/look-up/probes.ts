import type { Codebook } from './codebook.ts';
import { writeHalfDistances } from './encode.ts';
import type { Features } from './features.ts';
import type { Kernels } from './kernels.ts';
import type { Variant } from './variants.ts';

/** The `reach` nearest cells of each feature, nearest first: rows of `reach`. */
export interface Probes {
  readonly reach: number;
  readonly cells: Uint32Array;
}

/** Words of one half that are looked at when cells are ranked. Our choice: 12 × 12 pairs hold the nearest 32. */
const HALF_REACH = 12;

/** The `reach` cells nearest to each feature, by the sum of the distances of its halves. */
export function findProbes(features: Features, codebook: Codebook, kernels: Kernels, reach: number): Probes {
  const cells = new Uint32Array(features.count * reach);
  const distances = new Float32Array(codebook.size);
  const pairs = Array.from({ length: HALF_REACH * HALF_REACH }, (_, pair) => pair);
  const sums = new Float32Array(pairs.length);
  // Pair (i, j) of ranks can be among the nearest `reach` only when (i + 1)(j + 1) ≤ reach.
  const possible = pairs.filter(
    (pair) => (Math.floor(pair / HALF_REACH) + 1) * ((pair % HALF_REACH) + 1) <= reach,
  );
  for (let i = 0; i < features.count; i++) {
    writeHalfDistances(features, i, 0, codebook, kernels, distances);
    const upper = nearest(distances, HALF_REACH);
    writeHalfDistances(features, i, 1, codebook, kernels, distances);
    const lower = nearest(distances, HALF_REACH);
    for (const pair of possible) {
      const a = upper[Math.floor(pair / HALF_REACH)];
      const b = lower[pair % HALF_REACH];
      sums[pair] = (a?.distance ?? 0) + (b?.distance ?? 0);
    }
    const order = possible.toSorted((one, other) => (sums[one] ?? 0) - (sums[other] ?? 0));
    for (let rank = 0; rank < reach; rank++) {
      const pair = order[rank] ?? 0;
      const a = upper[Math.floor(pair / HALF_REACH)]?.word ?? 0;
      const b = lower[pair % HALF_REACH]?.word ?? 0;
      cells[i * reach + rank] = a * codebook.size + b;
    }
  }
  return { reach, cells };
}

/** The cell that a feature of the plain picture at `cell` has in the varied picture. */
export function variedCell(cell: number, size: number, variant: Variant): number {
  const upper = Math.floor(cell / size);
  const lower = cell % size;
  const half = size / 2;
  const [first, second] = variant.negative === variant.mirrored ? [upper, lower] : [lower, upper];
  if (!variant.mirrored) return first * size + second;
  return ((first + half) % size) * size + ((second + half) % size);
}

function nearest(distances: Float32Array, count: number): { word: number; distance: number }[] {
  const best: { word: number; distance: number }[] = [];
  let worst = Infinity;
  for (let word = 0; word < distances.length; word++) {
    const distance = distances[word] ?? Infinity;
    if (distance >= worst) continue;
    let at = best.length;
    while (at > 0 && (best[at - 1]?.distance ?? 0) > distance) at--;
    best.splice(at, 0, { word, distance });
    if (best.length > count) best.pop();
    if (best.length === count) worst = best[count - 1]?.distance ?? Infinity;
  }
  return best;
}
