import { writeDescriptor } from './descriptor.ts';
import { findKeypoints, type Keypoint } from './keypoints.ts';
import type { Kernels } from './kernels.ts';
import type { Luma } from './luma.ts';
import { findOrientations } from './orientation.ts';

/** Length of one descriptor: 4 × 4 places × 8 directions. */
export const DESCRIPTOR_LENGTH = 128;

/** Local features of a picture, best first. Places and scales in px of the picture, angles in radians, y down. */
export interface Features {
  readonly count: number;
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly scale: Float32Array;
  readonly angle: Float32Array;
  /** `count` rows of `DESCRIPTOR_LENGTH`, each of length 1. */
  readonly descriptors: Float32Array;
}

/** How many features to keep: of the finest octave, and of all coarser ones together. */
export interface FeatureBudget {
  readonly fine: number;
  readonly coarse: number;
}

/** For the archive. The split keeps grain, which only lives in the finest octave, from taking it all. */
export const ARCHIVE_BUDGET: FeatureBudget = { fine: 240, coarse: 160 };

/** For a picture that is looked for: more, because it may be a small part of the frame, enlarged. */
export const QUERY_BUDGET: FeatureBudget = { fine: 400, coarse: 300 };

const GRID = 6;

/** Share of an even share that each field of the grid may fill before the rest goes by strength. Our choice. */
const FIELD_SHARE = 0.7;

/** The features of a locally normalised picture, spread over it. */
export function findFeatures(normalised: Luma, budget: FeatureBudget, kernels: Kernels): Features {
  const keypoints = findKeypoints(normalised, kernels);
  const fine = keypoints.filter((point) => point.level.octave === 0);
  const coarse = keypoints.filter((point) => point.level.octave > 0);
  const chosen = [
    ...spread(coarse, budget.coarse, normalised.width, normalised.height),
    ...spread(fine, budget.fine, normalised.width, normalised.height),
  ];
  const capacity = budget.fine + budget.coarse;
  const x = new Float32Array(capacity);
  const y = new Float32Array(capacity);
  const scale = new Float32Array(capacity);
  const angle = new Float32Array(capacity);
  const descriptors = new Float32Array(capacity * DESCRIPTOR_LENGTH);
  let count = 0;
  for (const point of chosen) {
    for (const direction of findOrientations(point)) {
      if (count === capacity) break;
      const row = descriptors.subarray(count * DESCRIPTOR_LENGTH, (count + 1) * DESCRIPTOR_LENGTH);
      if (!writeDescriptor(point, direction, row)) continue;
      x[count] = (point.x + 0.5) * point.level.step;
      y[count] = (point.y + 0.5) * point.level.step;
      scale[count] = point.sigma * point.level.step;
      angle[count] = direction;
      count++;
    }
  }
  return {
    count,
    x: x.slice(0, count),
    y: y.slice(0, count),
    scale: scale.slice(0, count),
    angle: angle.slice(0, count),
    descriptors: descriptors.slice(0, count * DESCRIPTOR_LENGTH),
  };
}

/** At most `budget` points: first a fair number from each field of a grid, then the strongest of the rest. */
function spread(points: readonly Keypoint[], budget: number, width: number, height: number): Keypoint[] {
  const sorted = points.toSorted((a, b) => b.strength - a.strength);
  const quota = Math.ceil((budget * FIELD_SHARE) / (GRID * GRID));
  const taken = new Int32Array(GRID * GRID);
  const first: Keypoint[] = [];
  const rest: Keypoint[] = [];
  for (const point of sorted) {
    const column = Math.min(GRID - 1, Math.floor((point.x * point.level.step * GRID) / width));
    const row = Math.min(GRID - 1, Math.floor((point.y * point.level.step * GRID) / height));
    const field = row * GRID + column;
    if ((taken[field] ?? 0) < quota) {
      taken[field] = (taken[field] ?? 0) + 1;
      first.push(point);
    } else rest.push(point);
  }
  return [...first, ...rest].slice(0, budget).toSorted((a, b) => b.strength - a.strength);
}
