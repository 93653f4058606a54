import { DESCRIPTOR_LENGTH } from './features.ts';

const ROUNDS = 2;

/** Signs drawn once and for all by a small linear congruence, so that every machine has the same. */
const SIGNS: readonly Float32Array[] = drawSigns();

function drawSigns(): Float32Array[] {
  let state = 2_463_534_242;
  return Array.from({ length: ROUNDS }, () =>
    Float32Array.from({ length: DESCRIPTOR_LENGTH }, () => {
      // Marsaglia's xorshift. Source: G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003.
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return (state >>> 16) & 1 ? 1 : -1;
    }),
  );
}

/**
 * `vector` (128 values) turned in its space so that every value mixes all of them, in place; lengths and
 * distances grow by a fixed factor. The signs of the result tell near descriptors from far ones.
 * Method: signs flipped, then a Walsh-Hadamard transform, twice; N. Ailon and B. Chazelle, "The fast
 * Johnson-Lindenstrauss transform", SIAM Journal on Computing 39(1), 2009.
 */
export function mix(vector: Float32Array): void {
  for (const signs of SIGNS) {
    for (let i = 0; i < DESCRIPTOR_LENGTH; i++) vector[i] = (vector[i] ?? 0) * (signs[i] ?? 0);
    for (let half = 1; half < DESCRIPTOR_LENGTH; half *= 2) {
      for (let start = 0; start < DESCRIPTOR_LENGTH; start += 2 * half) {
        for (let i = start; i < start + half; i++) {
          const a = vector[i] ?? 0;
          const b = vector[i + half] ?? 0;
          vector[i] = a + b;
          vector[i + half] = a - b;
        }
      }
    }
  }
}

/** 32 signs of `vector` minus `origin` from place `from` on, as the bits of an unsigned number. */
export function signBits(vector: Float32Array, origin: Float32Array, from: number): number {
  let bits = 0;
  for (let i = 0; i < 32; i++) {
    if ((vector[from + i] ?? 0) > (origin[from + i] ?? 0)) bits |= 1 << i;
  }
  return bits >>> 0;
}

/** How many of 32 bits are set. Source: H. S. Warren, Hacker's Delight, 2nd edition, 2012, figure 5-2. */
export function countOnes(bits: number): number {
  let x = bits - ((bits >>> 1) & 0x55555555);
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333);
  x = (x + (x >>> 4)) & 0x0f0f0f0f;
  return Math.imul(x, 0x01010101) >>> 24;
}
