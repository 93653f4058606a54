import type { Kernels } from './kernels.ts';
import type { Luma } from './luma.ts';

// Difference-of-Gaussian points. Source: D. G. Lowe, "Distinctive Image Features from Scale-Invariant Keypoints",
// International Journal of Computer Vision 60(2), 2004, sections 3 and 4: 3 scales an octave, first sigma 1.6,
// edge ratio 10. The threshold is ours, for locally normalised pictures.
const SCALES = 3;
const FIRST_SIGMA = 1.6;
const SIGMA_OF_PICTURE = 0.5;
const SMALLEST_CONTRAST = 0.02;
const EDGE_RATIO = 10;
const SMALLEST_SIDE = 20;
const BORDER = 4;
const NOWHERE = new Int32Array(0);

/** One blurred level of the pyramid; `step` px of the picture lie between its pixels. */
export interface Level {
  readonly picture: Luma;
  readonly step: number;
  readonly octave: number;
}

/** A point that stands out at its own scale, in px of its level; `sigma` in px of the level, too. */
export interface Keypoint {
  readonly level: Level;
  readonly x: number;
  readonly y: number;
  readonly sigma: number;
  readonly strength: number;
}

/** All points of a locally normalised picture that stand out from what surrounds them in place and scale. */
export function findKeypoints(normalised: Luma, kernels: Kernels): Keypoint[] {
  const found: Keypoint[] = [];
  let first = blurred(normalised, Math.sqrt(FIRST_SIGMA ** 2 - SIGMA_OF_PICTURE ** 2), kernels);
  for (let octave = 0; Math.min(first.width, first.height) >= SMALLEST_SIDE; octave++) {
    const levels: Luma[] = [first];
    for (let i = 1; i < SCALES + 3; i++) {
      const before = FIRST_SIGMA * 2 ** ((i - 1) / SCALES);
      const after = FIRST_SIGMA * 2 ** (i / SCALES);
      levels.push(blurred(levels[i - 1] ?? first, Math.sqrt(after ** 2 - before ** 2), kernels));
    }
    const planes = levels.map((level) => level.data);
    const places = kernels.extrema(planes, first.width, first.height, BORDER, SMALLEST_CONTRAST);
    for (let scale = 1; scale <= SCALES; scale++) {
      const level: Level = { picture: levels[scale] ?? first, step: 2 ** octave, octave };
      collectPoints(planes, places[scale - 1] ?? NOWHERE, scale, level, found);
    }
    first = halved(levels[SCALES] ?? first);
  }
  return found;
}

function blurred(picture: Luma, sigma: number, kernels: Kernels): Luma {
  const radius = Math.max(1, Math.ceil(sigma * 3));
  const weights = new Float32Array(radius + 1);
  let sum = 0;
  for (let k = 0; k <= radius; k++) {
    const weight = Math.exp((-k * k) / (2 * sigma * sigma));
    weights[k] = weight;
    sum += k === 0 ? weight : 2 * weight;
  }
  for (let k = 0; k <= radius; k++) weights[k] = (weights[k] ?? 0) / sum;
  const data = new Float32Array(picture.data.length);
  kernels.blur(picture.data, picture.width, picture.height, weights, data);
  return { data, width: picture.width, height: picture.height };
}

function halved(picture: Luma): Luma {
  const width = picture.width >> 1;
  const height = picture.height >> 1;
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const from = 2 * y * picture.width;
    for (let x = 0; x < width; x++) data[y * width + x] = picture.data[from + 2 * x] ?? 0;
  }
  return { data, width, height };
}

/** A value of a difference of two levels. */
type Difference = (at: number) => number;

function collectPoints(
  planes: readonly Float32Array[],
  places: Int32Array,
  scale: number,
  level: Level,
  found: Keypoint[],
): void {
  const [below, here, above] = [scale - 1, scale, scale + 1].map((lower): Difference => {
    const upper = planes[lower + 1];
    const under = planes[lower];
    return (at) => Math.fround((upper?.[at] ?? 0) - (under?.[at] ?? 0));
  });
  if (!below || !here || !above) return;
  const { width } = level.picture;
  for (const at of places) {
    const value = here(at);
    const sign = value > 0 ? 1 : -1;
    // The kernel takes equal values for extrema; they are none.
    if (!standsOut(here, at, width, value, sign)) continue;
    if (!standsOut(below, at, width, value, sign) || below(at) * sign >= value * sign) continue;
    if (!standsOut(above, at, width, value, sign) || above(at) * sign >= value * sign) continue;
    const point = refined(below, here, above, at, width);
    if (point === null) continue;
    const sigma = FIRST_SIGMA * 2 ** ((scale + point.scale) / SCALES);
    const [x, y] = [at % width, Math.floor(at / width)];
    found.push({ level, x: x + point.x, y: y + point.y, sigma, strength: point.strength });
  }
}

/** Whether no neighbour around `at` (itself left out) lies beyond `value` in the direction of `sign`. */
function standsOut(plane: Difference, at: number, width: number, value: number, sign: number): boolean {
  const own = value * sign;
  return (
    plane(at - 1) * sign < own &&
    plane(at + 1) * sign < own &&
    plane(at - width) * sign < own &&
    plane(at + width) * sign < own &&
    plane(at - width - 1) * sign < own &&
    plane(at - width + 1) * sign < own &&
    plane(at + width - 1) * sign < own &&
    plane(at + width + 1) * sign < own
  );
}

/** One step of quadratic interpolation (Lowe 2004, section 4), or null on an edge or where contrast is too low. */
function refined(below: Difference, here: Difference, above: Difference, at: number, width: number) {
  const centre = here(at);
  const left = here(at - 1);
  const right = here(at + 1);
  const up = here(at - width);
  const down = here(at + width);
  const xx = left + right - 2 * centre;
  const yy = up + down - 2 * centre;
  const xy = (here(at + width + 1) - here(at + width - 1) - here(at - width + 1) + here(at - width - 1)) / 4;
  const trace = xx + yy;
  const determinant = xx * yy - xy * xy;
  if (determinant <= 0 || trace * trace * EDGE_RATIO >= (EDGE_RATIO + 1) ** 2 * determinant) return null;
  const gx = (right - left) / 2;
  const gy = (down - up) / 2;
  const gs = (above(at) - below(at)) / 2;
  const ss = above(at) + below(at) - 2 * centre;
  // Place and scale are solved apart: the mixed terms change the result by a few hundredths of a pixel.
  const x = clampStep((xy * gy - yy * gx) / determinant);
  const y = clampStep((xy * gx - xx * gy) / determinant);
  const scale = ss === 0 ? 0 : clampStep(-gs / ss);
  const strength = Math.abs(centre + (gx * x + gy * y + gs * scale) / 2);
  return strength < SMALLEST_CONTRAST ? null : { x, y, scale, strength };
}

function clampStep(step: number): number {
  return Math.min(0.5, Math.max(-0.5, step));
}
