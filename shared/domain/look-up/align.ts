import { compose, invert, solveSymmetric, type Matrix } from './matrix.ts';
import type { Luma } from './luma.ts';

/** The points of a locally normalised picture by which others are aligned with it, prepared once. */
export interface Template {
  readonly width: number;
  readonly height: number;
  readonly count: number;
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly value: Float32Array;
  /** How the value changes with each of the eight parameters; rows of 8. */
  readonly slopes: Float32Array;
}

const PARAMETERS = 8;
const FIELDS_ACROSS = 16;
const POINTS_PER_FIELD = 8;
/** Differences beyond this many local deviations count less. Our choice (Huber's weight). */
const HUBER = 1.2;
const SMALLEST_STEP = 1e-4;
const FEWEST_SHARE_INSIDE = 0.2;
/** Keeps the parameters that the points hardly determine near where they were. Our choice. */
const DAMPING = 1e-3;

/** Picks the points with the steepest slopes, field by field. */
export function makeTemplate(normalised: Luma): Template {
  const { data, width, height } = normalised;
  const field = Math.max(4, Math.ceil(Math.max(width, height) / FIELDS_ACROSS));
  const chosen: number[] = [];
  for (let top = 1; top < height - 1; top += field) {
    for (let left = 1; left < width - 1; left += field) {
      const slopes: { at: number; slope: number }[] = [];
      for (let y = top; y < Math.min(top + field, height - 1); y++) {
        for (let x = left; x < Math.min(left + field, width - 1); x++) {
          const at = y * width + x;
          const dx = (data[at + 1] ?? 0) - (data[at - 1] ?? 0);
          const dy = (data[at + width] ?? 0) - (data[at - width] ?? 0);
          const slope = dx * dx + dy * dy;
          if (slope > 0.01) slopes.push({ at, slope });
        }
      }
      slopes.sort((a, b) => b.slope - a.slope);
      for (const { at } of slopes.slice(0, POINTS_PER_FIELD)) chosen.push(at);
    }
  }
  const [x, y, value] = [0, 1, 2].map(() => new Float32Array(chosen.length));
  const slopes = new Float32Array(chosen.length * PARAMETERS);
  const unit = Math.max(width, height) / 2;
  if (!x || !y || !value) throw new Error('three arrays were made');
  chosen.forEach((at, i) => {
    const [px, py] = [at % width, Math.floor(at / width)];
    x[i] = px;
    y[i] = py;
    value[i] = data[at] ?? 0;
    const gx = (((data[at + 1] ?? 0) - (data[at - 1] ?? 0)) / 2) * unit;
    const gy = (((data[at + width] ?? 0) - (data[at - width] ?? 0)) / 2) * unit;
    const [u, v] = [(px - width / 2) / unit, (py - height / 2) / unit];
    const perspective = gx * u + gy * v;
    slopes.set([gx * u, gx * v, gx, gy * u, gy * v, gy, -perspective * u, -perspective * v], i * PARAMETERS);
  });
  return { width, height, count: chosen.length, x, y, value, slopes };
}

/**
 * Improves `start` (template px to frame px) so that the frame, sampled through it, looks most like the template;
 * null where too little of the template falls inside the frame. Both are locally normalised alike; `sign` is −1
 * where one is a negative of the other.
 * Method: inverse compositional Gauss-Newton on a homography; S. Baker and I. Matthews, "Lucas-Kanade 20 Years
 * On: A Unifying Framework", International Journal of Computer Vision 56(3), 2004, section 3.2.
 */
export function align(
  template: Template,
  frame: Luma,
  start: Matrix,
  sign: 1 | -1,
  iterations: number,
): Matrix | null {
  const unit = Math.max(template.width, template.height) / 2;
  const toUnits: Matrix = [
    1 / unit,
    0,
    -template.width / 2 / unit,
    0,
    1 / unit,
    -template.height / 2 / unit,
    0,
    0,
    1,
  ];
  const fromUnits: Matrix = [unit, 0, template.width / 2, 0, unit, template.height / 2, 0, 0, 1];
  let matrix = start;
  for (let iteration = 0; iteration < iterations; iteration++) {
    const step = findStep(template, frame, matrix, sign);
    if (step === null) return null;
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = step;
    const back = invert([1 + a, b, c, d, 1 + e, f, g, h, 1]);
    if (back === null) return null;
    matrix = compose(matrix, compose(fromUnits, compose(back, toUnits)));
    if (step.every((value) => Math.abs(value) < SMALLEST_STEP)) break;
  }
  return matrix;
}

function findStep(template: Template, frame: Luma, matrix: Matrix, sign: 1 | -1): Float64Array | null {
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = matrix;
  const left = new Float64Array(PARAMETERS * PARAMETERS);
  const right = new Float64Array(PARAMETERS);
  const { data, width, height } = frame;
  let inside = 0;
  for (let i = 0; i < template.count; i++) {
    const tx = template.x[i] ?? 0;
    const ty = template.y[i] ?? 0;
    const depth = m6 * tx + m7 * ty + m8;
    if (depth <= 0) continue;
    const x = (m0 * tx + m1 * ty + m2) / depth;
    const y = (m3 * tx + m4 * ty + m5) / depth;
    if (!(x >= 0 && y >= 0 && x < width - 1 && y < height - 1)) continue;
    inside++;
    const at = Math.floor(y) * width + Math.floor(x);
    const fx = x - Math.floor(x);
    const fy = y - Math.floor(y);
    const upper = (data[at] ?? 0) * (1 - fx) + (data[at + 1] ?? 0) * fx;
    const lower = (data[at + width] ?? 0) * (1 - fx) + (data[at + width + 1] ?? 0) * fx;
    const error = sign * (upper * (1 - fy) + lower * fy) - (template.value[i] ?? 0);
    const size = Math.abs(error);
    const weight = size <= HUBER ? 1 : HUBER / size;
    const row = i * PARAMETERS;
    for (let j = 0; j < PARAMETERS; j++) {
      const slope = (template.slopes[row + j] ?? 0) * weight;
      right[j] = (right[j] ?? 0) + slope * error;
      for (let k = 0; k <= j; k++) {
        left[j * PARAMETERS + k] = (left[j * PARAMETERS + k] ?? 0) + slope * (template.slopes[row + k] ?? 0);
      }
    }
  }
  if (inside < FEWEST_SHARE_INSIDE * template.count || inside < 3 * PARAMETERS) return null;
  for (let j = 0; j < PARAMETERS; j++) {
    const diagonal = left[j * PARAMETERS + j] ?? 0;
    left[j * PARAMETERS + j] = diagonal * (1 + DAMPING) + DAMPING * inside;
    for (let k = 0; k < j; k++) left[k * PARAMETERS + j] = left[j * PARAMETERS + k] ?? 0;
  }
  return solveSymmetric(left, right) ? right : null;
}
