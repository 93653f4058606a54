import type { Codebook } from './codebook.ts';
import { DESCRIPTOR_LENGTH, type Features } from './features.ts';
import type { Kernels } from './kernels.ts';
import { mix, signBits } from './mixing.ts';
import { descriptorOrder, HALF_LENGTH, turnHalf, type Variant } from './variants.ts';

/** Numbers of 32 bits that a feature's signature has. */
export const SIGNATURE_WORDS = 3;

/** The 32 values of a mixed descriptor that decide a vote, before the 96 of the signature. */
export const VOTE_BITS = 32;

/** What the archive keeps of each feature: its cell, the bits that filter votes, and a signature to match by. */
export interface EncodedFeatures {
  readonly count: number;
  readonly cells: Uint32Array;
  /** Signs of the descriptor against the middle of its cell. */
  readonly voteBits: Uint32Array;
  /** Signs of the descriptor against the mean of all; rows of `SIGNATURE_WORDS`. */
  readonly signatures: Uint32Array;
}

/** The features in the terms of `codebook`. */
export function encodeFeatures(features: Features, codebook: Codebook, kernels: Kernels): EncodedFeatures {
  const { count } = features;
  const upper = nearestWords(features, 0, codebook, kernels);
  const lower = nearestWords(features, 1, codebook, kernels);
  const cells = new Uint32Array(count);
  const voteBits = new Uint32Array(count);
  const signatures = new Uint32Array(count * SIGNATURE_WORDS);
  const mixed = new Float32Array(DESCRIPTOR_LENGTH);
  const middle = new Float32Array(VOTE_BITS);
  for (let i = 0; i < count; i++) {
    mixed.set(features.descriptors.subarray(i * DESCRIPTOR_LENGTH, (i + 1) * DESCRIPTOR_LENGTH));
    mix(mixed);
    const cell = (upper[i] ?? 0) * codebook.size + (lower[i] ?? 0);
    cells[i] = cell;
    writeCellMiddle(codebook, cell, middle);
    voteBits[i] = signBits(mixed, middle, 0);
    writeSignature(mixed, codebook, signatures, i);
  }
  return { count, cells, voteBits, signatures };
}

/** Descriptors of all features as `variant` changes them, mixed; rows of 128. */
export function mixedDescriptors(features: Features, variant: Variant): Float32Array {
  const order = descriptorOrder(variant);
  const out = new Float32Array(features.count * DESCRIPTOR_LENGTH);
  for (let i = 0; i < features.count; i++) {
    const from = i * DESCRIPTOR_LENGTH;
    const row = out.subarray(from, from + DESCRIPTOR_LENGTH);
    for (let place = 0; place < DESCRIPTOR_LENGTH; place++) {
      row[place] = features.descriptors[from + (order[place] ?? 0)] ?? 0;
    }
    mix(row);
  }
  return out;
}

/** Signatures of mixed descriptors, rows of `SIGNATURE_WORDS`. */
export function signaturesOf(mixed: Float32Array, codebook: Codebook): Uint32Array {
  const count = mixed.length / DESCRIPTOR_LENGTH;
  const signatures = new Uint32Array(count * SIGNATURE_WORDS);
  for (let i = 0; i < count; i++) {
    const row = mixed.subarray(i * DESCRIPTOR_LENGTH, (i + 1) * DESCRIPTOR_LENGTH);
    writeSignature(row, codebook, signatures, i);
  }
  return signatures;
}

/** Into `out`: the first `VOTE_BITS` values of the middle of `cell`, mixed. */
export function writeCellMiddle(codebook: Codebook, cell: number, out: Float32Array): void {
  const upper = Math.floor(cell / codebook.size) * DESCRIPTOR_LENGTH;
  const lower = (cell % codebook.size) * DESCRIPTOR_LENGTH;
  for (let i = 0; i < VOTE_BITS; i++) {
    out[i] = (codebook.mixedUpper[upper + i] ?? 0) + (codebook.mixedLower[lower + i] ?? 0);
  }
}

/**
 * Into `out`: for each word of the codebook, half its squared distance from half `side` (0 upper, 1 lower) of
 * feature `i`, less what is the same for all words.
 */
export function writeHalfDistances(
  features: Features,
  i: number,
  side: 0 | 1,
  codebook: Codebook,
  kernels: Kernels,
  out: Float32Array,
): void {
  const from = i * DESCRIPTOR_LENGTH + side * HALF_LENGTH;
  const half = features.descriptors.subarray(from, from + HALF_LENGTH);
  kernels.dots(side === 0 ? half : turnHalf(half), codebook.columns, out);
  for (let word = 0; word < out.length; word++) {
    out[word] = (codebook.halfSquares[word] ?? 0) - (out[word] ?? 0);
  }
}

function nearestWords(features: Features, side: 0 | 1, codebook: Codebook, kernels: Kernels): Uint32Array {
  const distances = new Float32Array(codebook.size);
  return Uint32Array.from({ length: features.count }, (_, i) => {
    writeHalfDistances(features, i, side, codebook, kernels, distances);
    let nearest = 0;
    let least = Infinity;
    for (let word = 0; word < distances.length; word++) {
      const distance = distances[word] ?? Infinity;
      if (distance < least) {
        least = distance;
        nearest = word;
      }
    }
    return nearest;
  });
}

function writeSignature(mixed: Float32Array, codebook: Codebook, signatures: Uint32Array, i: number): void {
  for (let word = 0; word < SIGNATURE_WORDS; word++) {
    signatures[i * SIGNATURE_WORDS + word] = signBits(mixed, codebook.mixedMean, VOTE_BITS + word * 32);
  }
}
