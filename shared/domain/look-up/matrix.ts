/** A 3 × 3 matrix, row by row: a mapping of points (x, y) as (x, y, 1), up to a factor. */
export type Matrix = readonly [number, number, number, number, number, number, number, number, number];

/** The mapping that does `second` after `first`. */
export function compose(second: Matrix, first: Matrix): Matrix {
  const [a, b, c, d, e, f, g, h, i] = second;
  const [p, q, r, s, t, u, v, w, x] = first;
  return [
    a * p + b * s + c * v,
    a * q + b * t + c * w,
    a * r + b * u + c * x,
    d * p + e * s + f * v,
    d * q + e * t + f * w,
    d * r + e * u + f * x,
    g * p + h * s + i * v,
    g * q + h * t + i * w,
    g * r + h * u + i * x,
  ];
}

/** The mapping back, or null where there is none. */
export function invert(matrix: Matrix): Matrix | null {
  const [a, b, c, d, e, f, g, h, i] = matrix;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  if (!Number.isFinite(determinant) || Math.abs(determinant) < 1e-18) return null;
  const k = 1 / determinant;
  return [
    (e * i - f * h) * k,
    (c * h - b * i) * k,
    (b * f - c * e) * k,
    (f * g - d * i) * k,
    (a * i - c * g) * k,
    (c * d - a * f) * k,
    (d * h - e * g) * k,
    (b * g - a * h) * k,
    (a * e - b * d) * k,
  ];
}

/** Where the mapping puts (x, y); beyond the horizon of a perspective the result is not finite. */
export function mapPoint(matrix: Matrix, x: number, y: number): readonly [x: number, y: number] {
  const depth = matrix[6] * x + matrix[7] * y + matrix[8];
  if (depth * matrix[8] <= 0) return [NaN, NaN];
  return [
    (matrix[0] * x + matrix[1] * y + matrix[2]) / depth,
    (matrix[3] * x + matrix[4] * y + matrix[5]) / depth,
  ];
}

/** The mapping of (x, y) to (x · across, y · down). */
export function scaling(across: number, down: number): Matrix {
  return [across, 0, 0, 0, down, 0, 0, 0, 1];
}

/** The linear part of the mapping at (x, y): how far its x and y move for a small step in x and in y. */
export function slopeAt(matrix: Matrix, x: number, y: number): readonly [number, number, number, number] {
  const depth = matrix[6] * x + matrix[7] * y + matrix[8];
  const [px, py] = mapPoint(matrix, x, y);
  return [
    (matrix[0] - px * matrix[6]) / depth,
    (matrix[1] - px * matrix[7]) / depth,
    (matrix[3] - py * matrix[6]) / depth,
    (matrix[4] - py * matrix[7]) / depth,
  ];
}

/**
 * Solves the symmetric positive system `left · x = right` of `right.length` unknowns by Cholesky's method, in
 * place: `right` becomes the solution. False where the system has no single solution.
 */
export function solveSymmetric(left: Float64Array, right: Float64Array): boolean {
  const n = right.length;
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = left[i * n + j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (left[i * n + k] ?? 0) * (left[j * n + k] ?? 0);
      if (i === j) {
        if (!(sum > 1e-12)) return false;
        left[j * n + j] = Math.sqrt(sum);
      } else left[i * n + j] = sum / (left[j * n + j] ?? 1);
    }
  }
  for (let i = 0; i < n; i++) {
    let sum = right[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (left[i * n + k] ?? 0) * (right[k] ?? 0);
    right[i] = sum / (left[i * n + i] ?? 1);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = right[i] ?? 0;
    for (let k = i + 1; k < n; k++) sum -= (left[k * n + i] ?? 0) * (right[k] ?? 0);
    right[i] = sum / (left[i * n + i] ?? 1);
  }
  return true;
}
