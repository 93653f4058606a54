import { resizeLuma, type Luma } from './luma.ts';

/** 63 signs of the lowest cosine waves of a whole picture: wave (u, v), without (0, 0), at bit v · 8 + u − 1. */
export interface FrameHash {
  readonly low: number;
  readonly high: number;
}

/** A hash as it would be of the picture turned clockwise, then seen mirrored and as a negative. */
export interface TurnedHash extends FrameHash {
  readonly turned: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
  readonly negative: boolean;
}

const SIDE = 32;
const WAVES = 8;
const COSINES = Float32Array.from({ length: SIDE * WAVES }, (_, i) =>
  Math.cos(((2 * (i % SIDE) + 1) * Math.floor(i / SIDE) * Math.PI) / (2 * SIDE)),
);

/**
 * The hash of a whole picture. Method: signs of the 8 × 8 lowest coefficients of a 32 × 32 cosine transform;
 * C. Zauner, "Implementation and Benchmarking of Perceptual Image Hash Functions", 2010, section 3.2; signs
 * instead of a comparison with the median, so that turning, mirroring and inverting only move and flip bits.
 */
export function hashFrame(luma: Luma): FrameHash {
  const { data } = resizeLuma(luma, SIDE, SIDE);
  const rows = new Float32Array(SIDE * WAVES);
  for (let y = 0; y < SIDE; y++) {
    for (let u = 0; u < WAVES; u++) {
      let sum = 0;
      for (let x = 0; x < SIDE; x++) sum += (data[y * SIDE + x] ?? 0) * (COSINES[u * SIDE + x] ?? 0);
      rows[y * WAVES + u] = sum;
    }
  }
  return pack((u, v) => {
    let sum = 0;
    for (let y = 0; y < SIDE; y++) sum += (rows[y * WAVES + u] ?? 0) * (COSINES[v * SIDE + y] ?? 0);
    return sum > 0;
  });
}

/**
 * The hashes of all frames of which a picture with `hash` may be a whole copy, sixteen: each is the hash of the
 * frame before it was mirrored (left for right) and then turned clockwise by `turned`, and perhaps inverted.
 */
export function turnHash(hash: FrameHash): TurnedHash[] {
  const all: TurnedHash[] = [];
  for (const turned of [0, 90, 180, 270] as const) {
    for (const mirrored of [false, true]) {
      for (const negative of [false, true]) {
        const wave = (u: number, v: number): boolean => {
          // The frame's wave (u, v), mirrored and turned, is the picture's wave (v, u) or (u, v) with these signs.
          const [pu, pv] = turned === 90 || turned === 270 ? [v, u] : [u, v];
          let odd = negative;
          if (mirrored && u % 2 === 1) odd = !odd;
          if ((turned === 90 || turned === 180) && pu % 2 === 1) odd = !odd;
          if ((turned === 180 || turned === 270) && pv % 2 === 1) odd = !odd;
          return isSet(hash, pu, pv) !== odd;
        };
        all.push({ ...pack(wave), turned, mirrored, negative });
      }
    }
  }
  return all;
}

function pack(wave: (u: number, v: number) => boolean): FrameHash {
  let low = 0;
  let high = 0;
  for (let bit = 0; bit < WAVES * WAVES - 1; bit++) {
    if (!wave((bit + 1) % WAVES, Math.floor((bit + 1) / WAVES))) continue;
    if (bit < 32) low |= 1 << bit;
    else high |= 1 << (bit - 32);
  }
  return { low: low >>> 0, high: high >>> 0 };
}

function isSet(hash: FrameHash, u: number, v: number): boolean {
  const bit = v * WAVES + u - 1;
  return bit < 32 ? ((hash.low >>> bit) & 1) === 1 : ((hash.high >>> (bit - 32)) & 1) === 1;
}
