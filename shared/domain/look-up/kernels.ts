/**
 * The two loops that take most of the time of a look-up. The engine brings faster ones with the same answers;
 * `PLAIN_KERNELS` needs nothing.
 */
export interface Kernels {
  /** The picture blurred by `weights` (middle first, then outwards; symmetric), edges repeated, into `out`. */
  readonly blur: (
    source: Float32Array,
    width: number,
    height: number,
    weights: Float32Array,
    out: Float32Array,
  ) => void;
  /**
   * Into `out`: the dot product of `vector` with each of `out.length` columns of `table`, which is laid out row
   * by row (`table[row * out.length + column]`), `vector.length` rows; `out.length` is a multiple of 16.
   */
  readonly dots: (vector: Float32Array, table: Float32Array, out: Float32Array) => void;
}

/** The kernels in plain typed arrays. */
export const PLAIN_KERNELS: Kernels = { blur: blurPlainly, dots: dotPlainly };

function blurPlainly(
  source: Float32Array,
  width: number,
  height: number,
  weights: Float32Array,
  out: Float32Array,
): void {
  const radius = weights.length - 1;
  const rows = new Float32Array(width * height);
  const middle = weights[0] ?? 0;
  for (let y = 0; y < height; y++) {
    const at = y * width;
    for (let x = 0; x < width; x++) {
      let sum = middle * (source[at + x] ?? 0);
      for (let k = 1; k <= radius; k++) {
        const left = source[at + Math.max(0, x - k)] ?? 0;
        const right = source[at + Math.min(width - 1, x + k)] ?? 0;
        sum += (weights[k] ?? 0) * (left + right);
      }
      rows[at + x] = sum;
    }
  }
  for (let y = 0; y < height; y++) {
    const at = y * width;
    for (let x = 0; x < width; x++) out[at + x] = middle * (rows[at + x] ?? 0);
    for (let k = 1; k <= radius; k++) {
      const weight = weights[k] ?? 0;
      const above = Math.max(0, y - k) * width;
      const below = Math.min(height - 1, y + k) * width;
      for (let x = 0; x < width; x++) {
        out[at + x] = (out[at + x] ?? 0) + weight * ((rows[above + x] ?? 0) + (rows[below + x] ?? 0));
      }
    }
  }
}

function dotPlainly(vector: Float32Array, table: Float32Array, out: Float32Array): void {
  const columns = out.length;
  out.fill(0);
  for (let row = 0; row < vector.length; row++) {
    const factor = vector[row] ?? 0;
    const at = row * columns;
    for (let column = 0; column < columns; column++) {
      out[column] = (out[column] ?? 0) + factor * (table[at + column] ?? 0);
    }
  }
}
