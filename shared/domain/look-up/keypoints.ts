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
    const differences = levels.slice(1).map((level, i) => difference(level.data, (levels[i] ?? first).data));
    for (let scale = 1; scale <= SCALES; scale++) {
      const level: Level = { picture: levels[scale] ?? first, step: 2 ** octave, octave };
      collectExtrema(differences, scale, level, found);
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

function difference(upper: Float32Array, lower: Float32Array): Float32Array {
  const out = new Float32Array(upper.length);
  for (let i = 0; i < out.length; i++) out[i] = (upper[i] ?? 0) - (lower[i] ?? 0);
  return out;
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

function collectExtrema(differences: Float32Array[], scale: number, level: Level, found: Keypoint[]): void {
  const [below, here, above] = differences.slice(scale - 1, scale + 2);
  if (!below || !here || !above) return;
  const { width, height } = level.picture;
  for (let y = BORDER; y < height - BORDER; y++) {
    for (let x = BORDER; x < width - BORDER; x++) {
      const at = y * width + x;
      const value = here[at] ?? 0;
      if (value < SMALLEST_CONTRAST && value > -SMALLEST_CONTRAST) continue;
      const sign = value > 0 ? 1 : -1;
      if (!standsOut(here, at, width, value, sign)) continue;
      if (!standsOut(below, at, width, value, sign) || (below[at] ?? 0) * sign >= value * sign) continue;
      if (!standsOut(above, at, width, value, sign) || (above[at] ?? 0) * sign >= value * sign) continue;
      const point = refined(below, here, above, at, width);
      if (point === null) continue;
      const sigma = FIRST_SIGMA * 2 ** ((scale + point.scale) / SCALES);
      found.push({ level, x: x + point.x, y: y + point.y, sigma, strength: point.strength });
    }
  }
}

/** Whether no neighbour around `at` (itself left out) lies beyond `value` in the direction of `sign`. */
function standsOut(plane: Float32Array, at: number, width: number, value: number, sign: number): boolean {
  const own = value * sign;
  return (
    (plane[at - 1] ?? 0) * sign < own &&
    (plane[at + 1] ?? 0) * sign < own &&
    (plane[at - width] ?? 0) * sign < own &&
    (plane[at + width] ?? 0) * sign < own &&
    (plane[at - width - 1] ?? 0) * sign < own &&
    (plane[at - width + 1] ?? 0) * sign < own &&
    (plane[at + width - 1] ?? 0) * sign < own &&
    (plane[at + width + 1] ?? 0) * sign < own
  );
}

/** One step of quadratic interpolation (Lowe 2004, section 4), or null on an edge or where contrast is too low. */
function refined(below: Float32Array, here: Float32Array, above: Float32Array, at: number, width: number) {
  const centre = here[at] ?? 0;
  const left = here[at - 1] ?? 0;
  const right = here[at + 1] ?? 0;
  const up = here[at - width] ?? 0;
  const down = here[at + width] ?? 0;
  const xx = left + right - 2 * centre;
  const yy = up + down - 2 * centre;
  const xy =
    ((here[at + width + 1] ?? 0) -
      (here[at + width - 1] ?? 0) -
      (here[at - width + 1] ?? 0) +
      (here[at - width - 1] ?? 0)) /
    4;
  const trace = xx + yy;
  const determinant = xx * yy - xy * xy;
  if (determinant <= 0 || trace * trace * EDGE_RATIO >= (EDGE_RATIO + 1) ** 2 * determinant) return null;
  const gx = (right - left) / 2;
  const gy = (down - up) / 2;
  const gs = ((above[at] ?? 0) - (below[at] ?? 0)) / 2;
  const ss = (above[at] ?? 0) + (below[at] ?? 0) - 2 * centre;
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
