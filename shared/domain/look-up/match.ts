import { SIGNATURE_WORDS } from './encode.ts';
import type { Kernels, SignatureLimits } from './kernels.ts';
import { solveSymmetric, type Matrix } from './matrix.ts';

/** Where features lie: px, 512 on the long side of the picture; scale in px; angle in radians. */
export interface Placement {
  readonly count: number;
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly scale: Float32Array;
  readonly angle: Float32Array;
}

/** Features that can be matched against others. */
export interface Signed extends Placement {
  readonly signatures: Uint32Array;
}

/** How a picture lies in a frame as far as their features tell. */
export interface Fit {
  /** Picture px to frame px, both 512 on the long side. */
  readonly matrix: Matrix;
  /** Features of the picture that agree with it. */
  readonly inliers: number;
}

interface Match {
  readonly picture: number;
  readonly frame: number;
  readonly distance: number;
}

// All of these are ours, chosen on the half of the labelled set that is for choosing.
const LIMITS: SignatureLimits = { first: 12, whole: 27 };
const HYPOTHESES = 80;
const FIRST_TOLERANCE_PX = 15;
const LAST_TOLERANCE_PX = 9;
const SCALE_LIMIT = 0.8 * Math.LN2;
const ANGLE_LIMIT = (32 * Math.PI) / 180;
const AFFINE_FROM = 8;
const TURN = 2 * Math.PI;
const SECTORS = 32;
/** Sectors to either side of the expected one: 3.5 of 32 are 39°. */
const SECTOR_REACH = 3;

/**
 * The best agreement of `picture` with `frame`, turned by about `turn` (radians) in it, or null where fewer than
 * three features agree.
 */
export function fitFeatures(picture: Signed, frame: Signed, turn: number, kernels: Kernels): Fit | null {
  const matches = pairUp(picture, frame, findMatches(picture, frame, turn, kernels));
  if (matches.count < 3) return null;
  let best: Matrix | null = null;
  let most = 0;
  for (let seed = 0; seed < Math.min(HYPOTHESES, matches.count); seed++) {
    const matrix = similarityOf(matches, seed);
    const count = countAgreeing(matches, matrix, FIRST_TOLERANCE_PX);
    if (best !== null && count <= most) continue;
    best = matrix;
    most = count;
  }
  let inliers = best === null ? [] : agreeing(matches, best, FIRST_TOLERANCE_PX);
  for (let round = 0; round < 3 && best !== null && inliers.length >= 3; round++) {
    const matrix = leastSquares(matches, inliers, inliers.length >= AFFINE_FROM);
    if (matrix === null) break;
    best = matrix;
    inliers = agreeing(matches, matrix, round === 0 ? FIRST_TOLERANCE_PX : LAST_TOLERANCE_PX);
  }
  if (best === null || inliers.length < 3) return null;
  return { matrix: best, inliers: new Set(inliers.map((match) => matches.frame[match])).size };
}

/** What is needed of each match, nearest first: where it lies in both, how its scale changes (logarithm), its turn. */
interface Pairs {
  readonly count: number;
  readonly frame: Uint16Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly growth: Float64Array;
  readonly turn: Float64Array;
}

function pairUp(picture: Placement, frame: Placement, matches: readonly Match[]): Pairs {
  const count = matches.length;
  const pairs = {
    count,
    frame: new Uint16Array(count),
    x: new Float64Array(count),
    y: new Float64Array(count),
    u: new Float64Array(count),
    v: new Float64Array(count),
    growth: new Float64Array(count),
    turn: new Float64Array(count),
  };
  for (let match = 0; match < count; match++) {
    const { picture: i, frame: k } = matches[match] ?? { picture: 0, frame: 0 };
    pairs.frame[match] = k;
    pairs.x[match] = picture.x[i] ?? 0;
    pairs.y[match] = picture.y[i] ?? 0;
    pairs.u[match] = frame.x[k] ?? 0;
    pairs.v[match] = frame.y[k] ?? 0;
    pairs.growth[match] = Math.log((frame.scale[k] ?? 1) / (picture.scale[i] ?? 1));
    pairs.turn[match] = (frame.angle[k] ?? 0) - (picture.angle[i] ?? 0);
  }
  return pairs;
}

/** For each feature of the picture the nearest of the frame that is turned right and near enough; nearest first. */
function findMatches(picture: Signed, frame: Signed, turn: number, kernels: Kernels): Match[] {
  const { order, starts } = bySector(frame);
  const known = new Uint32Array(frame.count * SIGNATURE_WORDS);
  for (let k = 0; k < frame.count; k++) {
    const from = (order[k] ?? 0) * SIGNATURE_WORDS;
    for (let word = 0; word < SIGNATURE_WORDS; word++)
      known[k * SIGNATURE_WORDS + word] = frame.signatures[from + word] ?? 0;
  }
  const ranges = new Uint16Array(picture.count * 4);
  for (let i = 0; i < picture.count; i++) {
    const middle = Math.floor((((picture.angle[i] ?? 0) + turn) / TURN) * SECTORS) + 4 * SECTORS;
    const first = (middle - SECTOR_REACH) % SECTORS;
    const end = first + 2 * SECTOR_REACH + 1;
    ranges[i * 4] = starts[first] ?? 0;
    ranges[i * 4 + 1] = starts[Math.min(end, SECTORS)] ?? 0;
    // What goes beyond the last sector goes on at the first.
    ranges[i * 4 + 3] = end > SECTORS ? (starts[end - SECTORS] ?? 0) : 0;
  }
  const matches: Match[] = [];
  const nearest = kernels.nearest(picture.signatures, known, ranges, LIMITS);
  for (let i = 0; i < nearest.length; i++) {
    const found = nearest[i] ?? -1;
    if (found >= 0) matches.push({ picture: i, frame: order[found & 0xffff] ?? 0, distance: found >> 16 });
  }
  return matches.sort((a, b) => a.distance - b.distance);
}

/** The features in the order of the sectors their angles lie in, and where each sector starts. */
function bySector(frame: Placement): { order: Uint16Array; starts: Uint16Array } {
  const sectorOf = (k: number) =>
    (Math.floor(((frame.angle[k] ?? 0) / TURN) * SECTORS) + 2 * SECTORS) % SECTORS;
  const starts = new Uint16Array(SECTORS + 1);
  for (let k = 0; k < frame.count; k++) {
    const after = sectorOf(k) + 1;
    starts[after] = (starts[after] ?? 0) + 1;
  }
  for (let sector = 0; sector < SECTORS; sector++)
    starts[sector + 1] = (starts[sector + 1] ?? 0) + (starts[sector] ?? 0);
  const filled = starts.slice();
  const order = new Uint16Array(frame.count);
  for (let k = 0; k < frame.count; k++) {
    const sector = sectorOf(k);
    const at = filled[sector] ?? 0;
    order[at] = k;
    filled[sector] = at + 1;
  }
  return { order, starts };
}

function similarityOf(pairs: Pairs, match: number): Matrix {
  const ratio = Math.exp(pairs.growth[match] ?? 0);
  const turn = pairs.turn[match] ?? 0;
  const [cos, sin] = [Math.cos(turn) * ratio, Math.sin(turn) * ratio];
  const [x, y] = [pairs.x[match] ?? 0, pairs.y[match] ?? 0];
  const [u, v] = [pairs.u[match] ?? 0, pairs.v[match] ?? 0];
  return [cos, -sin, u - cos * x + sin * y, sin, cos, v - sin * x - cos * y, 0, 0, 1];
}

/** How the agreement of matches with a mapping is judged. */
interface Judgement {
  readonly matrix: Matrix;
  readonly reach: number;
  readonly growth: number;
  readonly turn: number;
}

function judgementOf(matrix: Matrix, tolerancePx: number): Judgement {
  const [a, b, , d, e] = matrix;
  const ratio = Math.sqrt(Math.abs(a * e - b * d));
  return {
    matrix,
    reach: (tolerancePx * Math.min(1, ratio)) ** 2,
    growth: Math.log(ratio),
    turn: Math.atan2(d - b, a + e),
  };
}

function agrees(pairs: Pairs, match: number, { matrix, reach, growth, turn }: Judgement): boolean {
  const x = pairs.x[match] ?? 0;
  const y = pairs.y[match] ?? 0;
  const dx = matrix[0] * x + matrix[1] * y + matrix[2] - (pairs.u[match] ?? 0);
  const dy = matrix[3] * x + matrix[4] * y + matrix[5] - (pairs.v[match] ?? 0);
  if (dx * dx + dy * dy > reach) return false;
  if (Math.abs((pairs.growth[match] ?? 0) - growth) > SCALE_LIMIT) return false;
  return Math.abs(turnBetween(pairs.turn[match] ?? 0, turn)) <= ANGLE_LIMIT;
}

function countAgreeing(pairs: Pairs, matrix: Matrix, tolerancePx: number): number {
  const judgement = judgementOf(matrix, tolerancePx);
  let count = 0;
  for (let match = 0; match < pairs.count; match++) if (agrees(pairs, match, judgement)) count++;
  return count;
}

function agreeing(pairs: Pairs, matrix: Matrix, tolerancePx: number): number[] {
  const judgement = judgementOf(matrix, tolerancePx);
  const agreed: number[] = [];
  for (let match = 0; match < pairs.count; match++) if (agrees(pairs, match, judgement)) agreed.push(match);
  return agreed;
}

/** The difference of two angles, −π to π. */
function turnBetween(one: number, other: number): number {
  const difference = one - other;
  return difference - 2 * Math.PI * Math.round(difference / (2 * Math.PI));
}

function leastSquares(pairs: Pairs, inliers: readonly number[], affine: boolean): Matrix | null {
  const rows = inliers.map((match) => ({
    x: pairs.x[match] ?? 0,
    y: pairs.y[match] ?? 0,
    u: pairs.u[match] ?? 0,
    v: pairs.v[match] ?? 0,
  }));
  if (affine) {
    const across = regress(
      rows.map(({ x, y, u }) => [[x, y, 1], u] as const),
      3,
    );
    const down = regress(
      rows.map(({ x, y, v }) => [[x, y, 1], v] as const),
      3,
    );
    if (across === null || down === null) return null;
    const [a = 1, b = 0, c = 0] = across;
    const [d = 0, e = 1, f = 0] = down;
    return [a, b, c, d, e, f, 0, 0, 1];
  }
  const both = rows.flatMap(({ x, y, u, v }) => [[[x, -y, 1, 0], u] as const, [[y, x, 0, 1], v] as const]);
  const solved = regress(both, 4);
  if (solved === null) return null;
  const [a = 1, b = 0, c = 0, d = 0] = solved;
  return [a, -b, c, b, a, d, 0, 0, 1];
}

function regress(rows: readonly (readonly [readonly number[], number])[], unknowns: number): number[] | null {
  const left = new Float64Array(unknowns * unknowns);
  const right = new Float64Array(unknowns);
  for (const [factors, value] of rows) {
    for (let i = 0; i < unknowns; i++) {
      right[i] = (right[i] ?? 0) + (factors[i] ?? 0) * value;
      for (let j = 0; j < unknowns; j++) {
        left[i * unknowns + j] = (left[i * unknowns + j] ?? 0) + (factors[i] ?? 0) * (factors[j] ?? 0);
      }
    }
  }
  return solveSymmetric(left, right) ? [...right] : null;
}
