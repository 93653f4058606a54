import { fitLuma, type Luma } from './luma.ts';

const LONG_SIDE = 256;
const BLOCK = 16;
const APART = 2;

/** Deviation of tones (of 1, black to white) that are neither grain nor an even slope, from which a block has detail. Our choice. */
const DETAIL_DEVIATION = 0.012;

/** Fewer blocks with detail than this, of about 170, and nobody can tell one picture from another. Our choice. */
const FEWEST_BLOCKS = 10;

/** Whether a stretched picture shows enough to be told from others: not bare paper, black sky, a smooth wall. */
export function hasDetail(luma: Luma): boolean {
  return countDetailedBlocks(luma) >= FEWEST_BLOCKS;
}

/** Blocks of 16 × 16 px with detail when the picture is 256 px long. */
export function countDetailedBlocks(luma: Luma): number {
  const small = fitLuma(luma, LONG_SIDE);
  let blocks = 0;
  for (let top = 0; top + BLOCK <= small.height; top += BLOCK) {
    for (let left = 0; left + BLOCK <= small.width; left += BLOCK) {
      if (detailOf(small, left, top) >= DETAIL_DEVIATION) blocks++;
    }
  }
  return blocks;
}

/** Of a block's variance, the least that pixels two apart must share: grain shares nothing. Our choice. */
const LEAST_SHARED = 0.2;

/**
 * The deviation of a block without its even slope and without grain. Grain differs from pixel to pixel, detail
 * does not: what pixels two apart have in common (their covariance) is detail.
 */
function detailOf(luma: Luma, left: number, top: number): number {
  const level = new Float64Array(BLOCK * BLOCK);
  let [sum, across, down, spread] = [0, 0, 0, 0];
  const middle = (BLOCK - 1) / 2;
  for (let y = 0; y < BLOCK; y++) {
    for (let x = 0; x < BLOCK; x++) {
      const value = luma.data[(top + y) * luma.width + left + x] ?? 0;
      level[y * BLOCK + x] = value;
      sum += value;
      across += value * (x - middle);
      down += value * (y - middle);
      spread += (x - middle) * (x - middle);
    }
  }
  const mean = sum / (BLOCK * BLOCK);
  const [perColumn, perRow] = [across / spread, down / spread];
  for (let y = 0; y < BLOCK; y++) {
    for (let x = 0; x < BLOCK; x++) {
      const at = y * BLOCK + x;
      level[at] = (level[at] ?? 0) - mean - perColumn * (x - middle) - perRow * (y - middle);
    }
  }
  let [shared, variance] = [0, 0];
  const reach = BLOCK - APART;
  for (let y = 0; y < BLOCK; y++) {
    for (let x = 0; x < BLOCK; x++) {
      const at = y * BLOCK + x;
      const here = level[at] ?? 0;
      variance += (here * here) / (BLOCK * BLOCK);
      if (x < reach) shared += (here * (level[at + APART] ?? 0)) / (2 * BLOCK * reach);
      if (y < reach) shared += (here * (level[at + APART * BLOCK] ?? 0)) / (2 * BLOCK * reach);
    }
  }
  return shared < LEAST_SHARED * variance ? 0 : Math.sqrt(Math.max(0, shared));
}
