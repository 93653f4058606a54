import type { Luma } from './luma.ts';
import { mapPoint, type Matrix } from './matrix.ts';

/** How alike a picture and the part of a frame under it are, block by block. */
export interface Likeness {
  /** Correlation over the blocks, weighted by their detail; −1 to 1, and for a negative turned round. */
  readonly correlation: number;
  /** Blocks with detail that lie in the frame. */
  readonly blocks: number;
  /** Share of the picture's detail that lies in the frame, 0 to 1. */
  readonly explained: number;
  /** Share of the frame that lies under the picture, 0 to 1. */
  readonly seen: number;
  /** What each block of the picture adds: its weight times its correlation, 0 outside the frame. */
  readonly gains: Float32Array;
  /** The sum of the weights of all blocks of the picture. */
  readonly detail: number;
}

const BLOCK = 16;
const STEP = 2;
/** See `describe-picture.ts`: less deviation is no detail; more than the second adds no weight. Our choice. */
const DETAIL_DEVIATION = 0.012;
const FULL_DEVIATION = 0.08;
const FEWEST_INSIDE = 0.75;

/** Compares `picture` with `frame` seen through `matrix` (picture px to frame px). */
export function compareBlocks(picture: Luma, frame: Luma, matrix: Matrix, sign: 1 | -1): Likeness {
  const across = Math.ceil(picture.width / BLOCK);
  const down = Math.ceil(picture.height / BLOCK);
  const gains = new Float32Array(across * down);
  let [weights, sum, detail, blocks] = [0, 0, 0, 0];
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < across; column++) {
      const { pictureDeviation, frameDeviation, correlation, inside } = compareBlock(
        picture,
        frame,
        matrix,
        column * BLOCK,
        row * BLOCK,
      );
      const own = pictureDeviation < DETAIL_DEVIATION ? 0 : Math.min(pictureDeviation, FULL_DEVIATION);
      if (!inside) {
        detail += own;
        continue;
      }
      const either = Math.max(pictureDeviation, frameDeviation);
      const weight = either < DETAIL_DEVIATION ? 0 : Math.min(either, FULL_DEVIATION);
      detail += weight;
      if (weight === 0) continue;
      weights += weight;
      sum += weight * correlation * sign;
      gains[row * across + column] = weight * correlation * sign;
      blocks++;
    }
  }
  return {
    correlation: weights === 0 ? 0 : sum / weights,
    blocks,
    explained: detail === 0 ? 0 : weights / detail,
    seen: shareSeen(picture, frame, matrix),
    gains,
    detail,
  };
}

function compareBlock(picture: Luma, frame: Luma, matrix: Matrix, left: number, top: number) {
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = matrix;
  const { data, width, height } = frame;
  let [all, count, sp, sf, spp, sff, spf, op, opp] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const right = Math.min(left + BLOCK, picture.width);
  const bottom = Math.min(top + BLOCK, picture.height);
  for (let y = top; y < bottom; y += STEP) {
    for (let x = left; x < right; x += STEP) {
      const p = picture.data[y * picture.width + x] ?? 0;
      all++;
      op += p;
      opp += p * p;
      const depth = m6 * x + m7 * y + m8;
      if (depth <= 0) continue;
      const u = (m0 * x + m1 * y + m2) / depth;
      const v = (m3 * x + m4 * y + m5) / depth;
      if (!(u >= 0 && v >= 0 && u < width - 1 && v < height - 1)) continue;
      const at = Math.floor(v) * width + Math.floor(u);
      const fx = u - Math.floor(u);
      const fy = v - Math.floor(v);
      const upper = (data[at] ?? 0) * (1 - fx) + (data[at + 1] ?? 0) * fx;
      const lower = (data[at + width] ?? 0) * (1 - fx) + (data[at + width + 1] ?? 0) * fx;
      const f = upper * (1 - fy) + lower * fy;
      count++;
      sp += p;
      sf += f;
      spp += p * p;
      sff += f * f;
      spf += p * f;
    }
  }
  const inside = count >= FEWEST_INSIDE * all;
  if (!inside) {
    const variance = Math.max(0, opp / all - (op / all) ** 2);
    return { inside, pictureDeviation: Math.sqrt(variance), frameDeviation: 0, correlation: 0 };
  }
  const vp = Math.max(0, spp / count - (sp / count) ** 2);
  const vf = Math.max(0, sff / count - (sf / count) ** 2);
  const covariance = spf / count - (sp / count) * (sf / count);
  return {
    inside,
    pictureDeviation: Math.sqrt(vp),
    frameDeviation: Math.sqrt(vf),
    correlation: vp * vf < 1e-12 ? 0 : covariance / Math.sqrt(vp * vf),
  };
}

const SEEN_GRID = 24;

/** The share of the frame that `matrix` puts the picture over, from a grid of points. */
function shareSeen(picture: Luma, frame: Luma, matrix: Matrix): number {
  const seen = new Uint8Array(SEEN_GRID * SEEN_GRID);
  const steps = SEEN_GRID * 4;
  for (let row = 0; row <= steps; row++) {
    for (let column = 0; column <= steps; column++) {
      const [u, v] = mapPoint(matrix, (column / steps) * picture.width, (row / steps) * picture.height);
      const x = Math.floor((u / frame.width) * SEEN_GRID);
      const y = Math.floor((v / frame.height) * SEEN_GRID);
      if (x >= 0 && y >= 0 && x < SEEN_GRID && y < SEEN_GRID) seen[y * SEEN_GRID + x] = 1;
    }
  }
  return seen.reduce((sum, one) => sum + one, 0) / seen.length;
}
