import { SIGNATURE_WORDS } from './encode.ts';
import { countOnes } from './mixing.ts';
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
const FIRST_WORD_LIMIT = 12;
const DISTANCE_LIMIT = 27;
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
const NOBODY = new Uint16Array(0);

/**
 * The best agreement of `picture` with `frame`, turned by about `turn` (radians) in it, or null where fewer than
 * three features agree.
 */
export function fitFeatures(picture: Signed, frame: Signed, turn: number): Fit | null {
  const matches = findMatches(picture, frame, turn);
  if (matches.length < 3) return null;
  let best: { matrix: Matrix; inliers: Match[] } | null = null;
  for (const seed of matches.slice(0, HYPOTHESES)) {
    const matrix = similarityOf(picture, frame, seed);
    const inliers = agreeing(picture, frame, matches, matrix, FIRST_TOLERANCE_PX);
    if (best === null || inliers.length > best.inliers.length) best = { matrix, inliers };
  }
  for (let round = 0; round < 3 && best !== null && best.inliers.length >= 3; round++) {
    const affine = best.inliers.length >= AFFINE_FROM;
    const matrix = leastSquares(picture, frame, best.inliers, affine);
    if (matrix === null) break;
    const tolerance = round === 0 ? FIRST_TOLERANCE_PX : LAST_TOLERANCE_PX;
    best = { matrix, inliers: agreeing(picture, frame, matches, matrix, tolerance) };
  }
  if (best === null || best.inliers.length < 3) return null;
  return { matrix: best.matrix, inliers: new Set(best.inliers.map((match) => match.frame)).size };
}

/** For each feature of the picture the nearest of the frame that is turned right and near enough; nearest first. */
function findMatches(picture: Signed, frame: Signed, turn: number): Match[] {
  const matches: Match[] = [];
  const sectors = sectorsOf(frame);
  for (let i = 0; i < picture.count; i++) {
    const own = i * SIGNATURE_WORDS;
    const first = picture.signatures[own] ?? 0;
    const second = picture.signatures[own + 1] ?? 0;
    const third = picture.signatures[own + 2] ?? 0;
    const middle = Math.floor((((picture.angle[i] ?? 0) + turn) / TURN) * SECTORS) + 4 * SECTORS;
    let nearest = -1;
    let least = DISTANCE_LIMIT + 1;
    for (let step = -SECTOR_REACH; step <= SECTOR_REACH; step++) {
      const sector = sectors[(middle + step) % SECTORS] ?? NOBODY;
      // Counted rather than iterated: this is the innermost loop of a look-up.
      for (let n = 0; n < sector.length; n++) {
        const k = sector[n] ?? 0;
        const other = k * SIGNATURE_WORDS;
        const start = countOnes(first ^ (frame.signatures[other] ?? 0));
        if (start > FIRST_WORD_LIMIT || start >= least) continue;
        const distance =
          start +
          countOnes(second ^ (frame.signatures[other + 1] ?? 0)) +
          countOnes(third ^ (frame.signatures[other + 2] ?? 0));
        if (distance >= least) continue;
        least = distance;
        nearest = k;
      }
    }
    if (nearest >= 0) matches.push({ picture: i, frame: nearest, distance: least });
  }
  return matches.sort((a, b) => a.distance - b.distance);
}

/** The features by the sector their angle lies in. */
function sectorsOf(frame: Placement): Uint16Array[] {
  const lists: number[][] = Array.from({ length: SECTORS }, () => []);
  for (let k = 0; k < frame.count; k++) {
    const sector = Math.floor(((frame.angle[k] ?? 0) / TURN) * SECTORS) + 2 * SECTORS;
    lists[sector % SECTORS]?.push(k);
  }
  return lists.map((list) => Uint16Array.from(list));
}

function similarityOf(picture: Placement, frame: Placement, match: Match): Matrix {
  const { picture: i, frame: k } = match;
  const ratio = (frame.scale[k] ?? 1) / (picture.scale[i] ?? 1);
  const turn = (frame.angle[k] ?? 0) - (picture.angle[i] ?? 0);
  const [cos, sin] = [Math.cos(turn) * ratio, Math.sin(turn) * ratio];
  const [x, y] = [picture.x[i] ?? 0, picture.y[i] ?? 0];
  return [
    cos,
    -sin,
    (frame.x[k] ?? 0) - cos * x + sin * y,
    sin,
    cos,
    (frame.y[k] ?? 0) - sin * x - cos * y,
    0,
    0,
    1,
  ];
}

function agreeing(
  picture: Placement,
  frame: Placement,
  matches: readonly Match[],
  matrix: Matrix,
  tolerancePx: number,
): Match[] {
  const [a, b, c, d, e, f] = matrix;
  const ratio = Math.sqrt(Math.abs(a * e - b * d));
  const turn = Math.atan2(d - b, a + e);
  const reach = (tolerancePx * Math.min(1, ratio)) ** 2;
  const logRatio = Math.log(ratio);
  const agreed: Match[] = [];
  for (const match of matches) {
    const i = match.picture;
    const k = match.frame;
    const x = picture.x[i] ?? 0;
    const y = picture.y[i] ?? 0;
    const dx = a * x + b * y + c - (frame.x[k] ?? 0);
    const dy = d * x + e * y + f - (frame.y[k] ?? 0);
    if (dx * dx + dy * dy > reach) continue;
    const scale = Math.log((frame.scale[k] ?? 1) / (picture.scale[i] ?? 1)) - logRatio;
    if (Math.abs(scale) > SCALE_LIMIT) continue;
    const off = turnBetween((frame.angle[k] ?? 0) - (picture.angle[i] ?? 0), turn);
    if (Math.abs(off) <= ANGLE_LIMIT) agreed.push(match);
  }
  return agreed;
}

/** The difference of two angles, −π to π. */
function turnBetween(one: number, other: number): number {
  const difference = one - other;
  return difference - 2 * Math.PI * Math.round(difference / (2 * Math.PI));
}

function leastSquares(
  picture: Placement,
  frame: Placement,
  inliers: readonly Match[],
  affine: boolean,
): Matrix | null {
  const rows = inliers.map(({ picture: i, frame: k }) => ({
    x: picture.x[i] ?? 0,
    y: picture.y[i] ?? 0,
    u: frame.x[k] ?? 0,
    v: frame.y[k] ?? 0,
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
