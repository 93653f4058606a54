import type { Keypoint } from './keypoints.ts';
import { directionOf } from './orientation.ts';

// A 4 × 4 grid of 8-direction histograms over a turned window. Source: Lowe 2004, section 6; the root of the
// sum-normalised histogram: R. Arandjelović and A. Zisserman, "Three things everyone should know to improve object
// retrieval", CVPR 2012. The step of 0.75 sigma makes the window 12 sigma wide, as Lowe's.
const FIELDS = 4;
const DIRECTIONS = 8;
const SAMPLES = 16;
const STEP_SIGMAS = 0.75;
const TURN = 2 * Math.PI;

interface Sample {
  readonly u: number;
  readonly v: number;
  /** Where the sample counts: offsets of up to four fields in the descriptor, with their weights. */
  readonly fields: readonly (readonly [at: number, weight: number])[];
}

const WINDOW: readonly Sample[] = layOutWindow();

function layOutWindow(): Sample[] {
  const samples: Sample[] = [];
  for (let row = 0; row < SAMPLES; row++) {
    for (let column = 0; column < SAMPLES; column++) {
      const u = column - (SAMPLES - 1) / 2;
      const v = row - (SAMPLES - 1) / 2;
      const fall = Math.exp(-(u * u + v * v) / (2 * (SAMPLES / 2) ** 2));
      const fields: [number, number][] = [];
      for (const [by, wy] of sharesOf(row)) {
        for (const [bx, wx] of sharesOf(column)) {
          fields.push([(by * FIELDS + bx) * DIRECTIONS, wy * wx * fall]);
        }
      }
      samples.push({ u, v, fields });
    }
  }
  return samples;
}

/** The one or two fields along one side that a sample at `index` of 16 belongs to, with linear shares. */
function sharesOf(index: number): [field: number, share: number][] {
  const place = (index + 0.5) / (SAMPLES / FIELDS) - 0.5;
  const field = Math.floor(place);
  const share = place - field;
  const both: [number, number][] = [
    [field, 1 - share],
    [field + 1, share],
  ];
  return both.filter(([at, weight]) => at >= 0 && at < FIELDS && weight > 0);
}

const SAMPLE_COUNT = WINDOW.length;
const SAMPLE_U = Float32Array.from(WINDOW, (sample) => sample.u);
const SAMPLE_V = Float32Array.from(WINDOW, (sample) => sample.v);
/** The fields of sample i are those from `FIELD_START[i]` to before `FIELD_START[i + 1]`. */
const FIELD_START = Int32Array.from({ length: SAMPLE_COUNT + 1 }, (_, i) =>
  WINDOW.slice(0, i).reduce((sum, sample) => sum + sample.fields.length, 0),
);
const FIELD_AT = Int32Array.from(WINDOW.flatMap((sample) => sample.fields.map(([at]) => at)));
const FIELD_WEIGHT = Float32Array.from(WINDOW.flatMap((sample) => sample.fields.map(([, weight]) => weight)));

/**
 * Writes the descriptor of `point` seen along `direction` (radians) into `out` (128 values, length 1);
 * false where there is no slope at all, or the window lies mostly outside the picture.
 */
export function writeDescriptor(point: Keypoint, direction: number, out: Float32Array): boolean {
  const { data, width, height } = point.level.picture;
  const cos = Math.cos(direction) * STEP_SIGMAS * point.sigma;
  const sin = Math.sin(direction) * STEP_SIGMAS * point.sigma;
  out.fill(0);
  let inside = 0;
  for (let i = 0; i < SAMPLE_COUNT; i++) {
    const u = SAMPLE_U[i] ?? 0;
    const v = SAMPLE_V[i] ?? 0;
    const x = Math.round(point.x + u * cos - v * sin);
    const y = Math.round(point.y + u * sin + v * cos);
    if (x < 1 || y < 1 || x > width - 2 || y > height - 2) continue;
    inside++;
    const at = y * width + x;
    const dx = (data[at + 1] ?? 0) - (data[at - 1] ?? 0);
    const dy = (data[at + width] ?? 0) - (data[at - width] ?? 0);
    const slope = Math.sqrt(dx * dx + dy * dy);
    let place = ((directionOf(dy, dx) - direction) / TURN) * DIRECTIONS;
    if (place < 0) place += DIRECTIONS;
    if (place < 0) place += DIRECTIONS;
    const floor = Math.floor(place);
    const share = place - floor;
    const here = floor & (DIRECTIONS - 1);
    const next = (floor + 1) & (DIRECTIONS - 1);
    const end = FIELD_START[i + 1] ?? 0;
    for (let k = FIELD_START[i] ?? 0; k < end; k++) {
      const weight = (FIELD_WEIGHT[k] ?? 0) * slope;
      const field = FIELD_AT[k] ?? 0;
      out[field + here] = (out[field + here] ?? 0) + weight * (1 - share);
      out[field + next] = (out[field + next] ?? 0) + weight * share;
    }
  }
  if (inside < SAMPLE_COUNT / 2) return false;
  let sum = 0;
  for (let i = 0; i < out.length; i++) sum += out[i] ?? 0;
  if (sum === 0) return false;
  for (let i = 0; i < out.length; i++) out[i] = Math.sqrt((out[i] ?? 0) / sum);
  return true;
}
