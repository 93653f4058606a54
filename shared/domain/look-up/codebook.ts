import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import { DESCRIPTOR_LENGTH } from './features.ts';
import { mix } from './mixing.ts';
import { HALF_LENGTH, turnHalf } from './variants.ts';

/** First four bytes of a codebook file: "EPCB", little-endian. */
const MAGIC = 0x42435045;
const HEADER_BYTES = 16;
const FULL_SCALE = 65_535;

/**
 * The words that descriptors are sorted by. A descriptor's upper half falls to the nearest of `size` words, and
 * its lower half, turned half round, to another: its cell is the pair. Word i + size/2 is word i swapped left
 * for right, so that a mirrored or inverted picture's cells follow from the plain picture's (see `variedCell`).
 */
export interface Codebook {
  readonly version: number;
  readonly size: number;
  /** The words as columns: `columns[place * size + word]`. */
  readonly columns: Float32Array;
  /** Half the squared length of each word. */
  readonly halfSquares: Float32Array;
  /** The mixed form of each word where it stands for an upper or for a lower half; rows of 128. */
  readonly mixedUpper: Float32Array;
  readonly mixedLower: Float32Array;
  /** The mean descriptor, mixed: the origin of signatures. */
  readonly mixedMean: Float32Array;
}

/** The codebook of `words` (rows of 64, closed under swapping as above) and the mean descriptor. */
export function buildCodebook(version: number, words: Float32Array, mean: Float32Array): Codebook {
  const size = words.length / HALF_LENGTH;
  const columns = new Float32Array(words.length);
  const halfSquares = new Float32Array(size);
  const mixedUpper = new Float32Array(size * DESCRIPTOR_LENGTH);
  const mixedLower = new Float32Array(size * DESCRIPTOR_LENGTH);
  for (let word = 0; word < size; word++) {
    const row = words.subarray(word * HALF_LENGTH, (word + 1) * HALF_LENGTH);
    for (let place = 0; place < HALF_LENGTH; place++) columns[place * size + word] = row[place] ?? 0;
    halfSquares[word] = row.reduce((sum, value) => sum + (value * value) / 2, 0);
    const upper = mixedUpper.subarray(word * DESCRIPTOR_LENGTH, (word + 1) * DESCRIPTOR_LENGTH);
    upper.set(row, 0);
    mix(upper);
    const lower = mixedLower.subarray(word * DESCRIPTOR_LENGTH, (word + 1) * DESCRIPTOR_LENGTH);
    lower.set(turnHalf(row), HALF_LENGTH);
    mix(lower);
  }
  const mixedMean = mean.slice();
  mix(mixedMean);
  return { version, size, columns, halfSquares, mixedUpper, mixedLower, mixedMean };
}

/** A codebook as bytes: magic, version, size, zero; then the mean and the words as 16-bit fractions. */
export function writeCodebook(version: number, words: Float32Array, mean: Float32Array): Uint8Array {
  const values = [...mean, ...words];
  const bytes = new Uint8Array(HEADER_BYTES + values.length * 2);
  const view = new DataView(bytes.buffer);
  [MAGIC, version, words.length / HALF_LENGTH, 0].forEach((value, i) => view.setUint32(i * 4, value, true));
  values.forEach((value, i) => view.setUint16(HEADER_BYTES + i * 2, Math.round(value * FULL_SCALE), true));
  return bytes;
}

/** The codebook in `bytes`, as `writeCodebook` leaves it. */
export function readCodebook(bytes: Uint8Array): Checked<Codebook, 'not_a_codebook'> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < HEADER_BYTES || view.getUint32(0, true) !== MAGIC) return refuse('not_a_codebook');
  const version = view.getUint32(4, true);
  const size = view.getUint32(8, true);
  const expected = HEADER_BYTES + (DESCRIPTOR_LENGTH + size * HALF_LENGTH) * 2;
  if (size === 0 || size % 16 !== 0 || bytes.length !== expected) return refuse('not_a_codebook');
  const values = Float32Array.from(
    { length: DESCRIPTOR_LENGTH + size * HALF_LENGTH },
    (_, i) => view.getUint16(HEADER_BYTES + i * 2, true) / FULL_SCALE,
  );
  return accept(buildCodebook(version, values.slice(DESCRIPTOR_LENGTH), values.slice(0, DESCRIPTOR_LENGTH)));
}
