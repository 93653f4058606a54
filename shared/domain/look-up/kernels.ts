import { countOnes } from './mixing.ts';

/** How many bits two signatures may differ in: in their first word, and in all three. */
export interface SignatureLimits {
  readonly first: number;
  readonly whole: number;
}

/**
 * The loops that take most of the time of a look-up. The engine brings faster ones with the same answers;
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
  /**
   * For each difference of neighbouring `levels` (upper less lower) except the first and the last: the places of all
   * values, at least `least` from 0 and `border` px from the edge, that none of the 26 around them in place and level
   * goes beyond. Equal ones are not told apart.
   */
  readonly extrema: (
    levels: readonly Float32Array[],
    width: number,
    height: number,
    border: number,
    least: number,
  ) => Int32Array[];
  /**
   * For each of the `wanted` signatures (three words each) the nearest of the `known` ones within its two ranges
   * (`ranges`: from, before, from, before) and the limits: its bits × 65536 + its number, or −1.
   */
  readonly nearest: (
    wanted: Uint32Array,
    known: Uint32Array,
    ranges: Uint16Array,
    limits: SignatureLimits,
  ) => Int32Array;
}

/** The kernels in plain typed arrays. */
export const PLAIN_KERNELS: Kernels = {
  blur: blurPlainly,
  dots: dotPlainly,
  extrema: findExtremaPlainly,
  nearest: findNearestPlainly,
};

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

function findExtremaPlainly(
  levels: readonly Float32Array[],
  width: number,
  height: number,
  border: number,
  least: number,
): Int32Array[] {
  const differences = levels
    .slice(1)
    .map((upper, i) => upper.map((value, at) => value - (levels[i]?.[at] ?? 0)));
  return differences.slice(1, -1).map((here, i) => {
    const planes = differences.slice(i, i + 3);
    const found: number[] = [];
    for (let y = border; y < height - border; y++) {
      for (let x = border; x < width - border; x++) {
        const at = y * width + x;
        const value = here[at] ?? 0;
        if (Math.abs(value) < Math.fround(least)) continue;
        let [high, low] = [value, value];
        for (const plane of planes) {
          for (let row = at - width - 1; row < at + width; row += width) {
            high = Math.max(high, plane[row] ?? 0, plane[row + 1] ?? 0, plane[row + 2] ?? 0);
            low = Math.min(low, plane[row] ?? 0, plane[row + 1] ?? 0, plane[row + 2] ?? 0);
          }
        }
        if (value >= high || value <= low) found.push(at);
      }
    }
    return Int32Array.from(found);
  });
}

function findNearestPlainly(
  wanted: Uint32Array,
  known: Uint32Array,
  ranges: Uint16Array,
  limits: SignatureLimits,
): Int32Array {
  const out = new Int32Array(wanted.length / 3).fill(-1);
  for (let i = 0; i < out.length; i++) {
    let least = limits.whole + 1;
    for (const range of [0, 2]) {
      const end = ranges[i * 4 + range + 1] ?? 0;
      for (let k = ranges[i * 4 + range] ?? 0; k < end; k++) {
        const apart = (word: number) => countOnes((wanted[i * 3 + word] ?? 0) ^ (known[k * 3 + word] ?? 0));
        const first = apart(0);
        const distance = first + apart(1) + apart(2);
        if (first > limits.first || distance >= least) continue;
        least = distance;
        out[i] = distance * 65_536 + k;
      }
    }
  }
  return out;
}
