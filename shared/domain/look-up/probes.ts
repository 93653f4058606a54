import type { Codebook } from './codebook.ts';
import { writeHalfDistances } from './encode.ts';
import type { Features } from './features.ts';
import type { Kernels } from './kernels.ts';
import type { Variant } from './variants.ts';

/** The `reach` nearest cells of each of the first `count` features, nearest first: rows of `reach`. */
export interface Probes {
  readonly count: number;
  readonly reach: number;
  readonly cells: Uint32Array;
}

/** Words of either half that are looked at when cells are ranked. Our choice. */
const HALF_REACH = 16;
const PAIRS = HALF_REACH * HALF_REACH;
/** Distances (below 2 for halves of length 1 or less) are ranked in steps of 2⁻²². */
const STEPS = 2 ** 22;

/** The `reach` cells, at most 64, nearest to each of the first `count` features, by the sum of the distances of its halves. */
export function findProbes(
  features: Features,
  codebook: Codebook,
  kernels: Kernels,
  count: number,
  reach: number,
): Probes {
  const cells = new Uint32Array(count * reach);
  const distances = new Float32Array(codebook.size);
  const upper = createRanking();
  const lower = createRanking();
  // Pair (i, j) of ranks can be among the nearest `reach` only when (i + 1)(j + 1) ≤ reach.
  const possible = Array.from({ length: PAIRS }, (_, pair) => pair).filter(
    (pair) => (Math.floor(pair / HALF_REACH) + 1) * ((pair % HALF_REACH) + 1) <= reach,
  );
  const keys = new Float64Array(possible.length);
  for (let i = 0; i < count; i++) {
    writeHalfDistances(features, i, 0, codebook, kernels, distances);
    rankNearest(distances, upper);
    writeHalfDistances(features, i, 1, codebook, kernels, distances);
    rankNearest(distances, lower);
    possible.forEach((pair, k) => {
      const sum = (upper.distances[pair >> 4] ?? 0) + (lower.distances[pair & 15] ?? 0);
      // Distance and pair in one number, so that the numbers sort themselves.
      keys[k] = Math.floor((sum + 2) * STEPS) * PAIRS + pair;
    });
    keys.sort();
    for (let rank = 0; rank < reach; rank++) {
      const pair = (keys[rank] ?? 0) % PAIRS;
      cells[i * reach + rank] = (upper.words[pair >> 4] ?? 0) * codebook.size + (lower.words[pair & 15] ?? 0);
    }
  }
  return { count, reach, cells };
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

interface Ranking {
  readonly words: Uint32Array;
  readonly distances: Float32Array;
}

function createRanking(): Ranking {
  return { words: new Uint32Array(HALF_REACH), distances: new Float32Array(HALF_REACH) };
}

/** The nearest words into `ranking`, nearest first. */
function rankNearest(all: Float32Array, { words, distances }: Ranking): void {
  distances.fill(Infinity);
  for (let word = 0; word < all.length; word++) {
    const distance = all[word] ?? Infinity;
    if (distance >= (distances[HALF_REACH - 1] ?? 0)) continue;
    let at = HALF_REACH - 1;
    for (; at > 0 && (distances[at - 1] ?? 0) > distance; at--) {
      distances[at] = distances[at - 1] ?? 0;
      words[at] = words[at - 1] ?? 0;
    }
    distances[at] = distance;
    words[at] = word;
  }
}
