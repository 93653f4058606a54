import type { Luma } from './luma.ts';

/** Keeps flat areas flat: what is added to the local deviation before dividing by it. Our choice (measured). */
const DEVIATION_FLOOR = 0.04;

/** Long side divided by the radius of the neighbourhood. Our choice (measured). */
const RADII_PER_LONG_SIDE = 20;

/** The radius (px) of the neighbourhood that suits a picture of this long side (px). */
export function neighbourhoodOf(longSide: number): number {
  return Math.max(2, Math.round(longSide / RADII_PER_LONG_SIDE));
}

/**
 * Each pixel as its distance from the mean within `radius` px of it in local deviations, about −3 to 3: free of
 * exposure, tone curve and uneven light; a negative only changes sign.
 */
export function normaliseLocally(luma: Luma, radius: number): Luma {
  const { data, width, height } = luma;
  const columns = width + 1;
  const sums = new Float64Array(columns * (height + 1));
  const squares = new Float64Array(columns * (height + 1));
  for (let y = 0; y < height; y++) {
    let sum = 0;
    let square = 0;
    const above = y * columns;
    for (let x = 0; x < width; x++) {
      const value = data[y * width + x] ?? 0;
      sum += value;
      square += value * value;
      sums[above + columns + x + 1] = (sums[above + x + 1] ?? 0) + sum;
      squares[above + columns + x + 1] = (squares[above + x + 1] ?? 0) + square;
    }
  }
  const out = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const top = Math.max(0, y - radius) * columns;
    const bottom = Math.min(height, y + radius + 1) * columns;
    const rows = (bottom - top) / columns;
    for (let x = 0; x < width; x++) {
      const left = Math.max(0, x - radius);
      const right = Math.min(width, x + radius + 1);
      const count = rows * (right - left);
      const mean = boxSum(sums, top, bottom, left, right) / count;
      const variance = boxSum(squares, top, bottom, left, right) / count - mean * mean;
      const deviation = Math.sqrt(Math.max(0, variance));
      out[y * width + x] = ((data[y * width + x] ?? 0) - mean) / (deviation + DEVIATION_FLOOR);
    }
  }
  return { data: out, width, height };
}

function boxSum(sums: Float64Array, top: number, bottom: number, left: number, right: number): number {
  return (
    (sums[bottom + right] ?? 0) -
    (sums[top + right] ?? 0) -
    (sums[bottom + left] ?? 0) +
    (sums[top + left] ?? 0)
  );
}
