import { SIGNATURE_WORDS, type EncodedFeatures } from '../../../shared/domain/look-up/encode.ts';
import type { FrameHash } from '../../../shared/domain/look-up/frame-hash.ts';
import { DESCRIBED_LONG_SIDE } from '../../../shared/domain/look-up/luma.ts';
import type { Placement, Signed } from '../../../shared/domain/look-up/match.ts';

/** What the index keeps of one picture. */
export interface PictureRecord {
  readonly pictureId: number;
  readonly groupId: number;
  readonly width: number;
  readonly height: number;
  readonly hash: FrameHash;
  readonly features: EncodedFeatures;
  /** Place, scale and angle of each feature, packed: see `packPlacement`. */
  readonly placement: Uint32Array;
}

const HEAD_BYTES = 32;
const FEATURE_WORDS = 3 + SIGNATURE_WORDS;
const PLACE_STEPS = 1023;
const SCALE_STEPS_PER_OCTAVE = 4;
const ANGLE_STEPS = 128;
const TURN = 2 * Math.PI;

/** Features' places in 32 bits each: x 10 (½ px), y 10, scale 5 (quarter octaves), angle 7 (2.8°). */
export function packPlacement(features: Placement): Uint32Array {
  return Uint32Array.from({ length: features.count }, (_, i) => {
    const x = stepsOf(((features.x[i] ?? 0) / DESCRIBED_LONG_SIDE) * PLACE_STEPS, PLACE_STEPS);
    const y = stepsOf(((features.y[i] ?? 0) / DESCRIBED_LONG_SIDE) * PLACE_STEPS, PLACE_STEPS);
    const scale = stepsOf(Math.log2(features.scale[i] ?? 1) * SCALE_STEPS_PER_OCTAVE, 31);
    return ((x << 22) | (y << 12) | (scale << 7) | angleStep(features.angle[i] ?? 0)) >>> 0;
  });
}

/** The angle (radians) in steps of 1/128 turn, 0 to 127. */
function angleStep(angle: number): number {
  return ((Math.round((angle / TURN) * ANGLE_STEPS) % ANGLE_STEPS) + ANGLE_STEPS) % ANGLE_STEPS;
}

/** The sixteenth of a turn, 0 to 15, that an angle (radians) lies in. */
export function sixteenthOf(angle: number): number {
  return angleStep(angle) >>> 3;
}

/** The same of a packed placement. */
export function angleSixteenth(packed: number): number {
  return (packed & (ANGLE_STEPS - 1)) >>> 3;
}

/** A record's features ready to be matched. */
export function signedFromRecord(record: PictureRecord): Signed {
  const { count, signatures } = record.features;
  const [x, y, scale, angle] = [0, 1, 2, 3].map(() => new Float32Array(count));
  if (!x || !y || !scale || !angle) throw new Error('four arrays were made');
  for (let i = 0; i < count; i++) {
    const packed = record.placement[i] ?? 0;
    x[i] = ((packed >>> 22) / PLACE_STEPS) * DESCRIBED_LONG_SIDE;
    y[i] = (((packed >>> 12) & PLACE_STEPS) / PLACE_STEPS) * DESCRIBED_LONG_SIDE;
    scale[i] = 2 ** (((packed >>> 7) & 31) / SCALE_STEPS_PER_OCTAVE);
    angle[i] = ((packed & (ANGLE_STEPS - 1)) / ANGLE_STEPS) * TURN;
  }
  return { count, signatures, x, y, scale, angle };
}

/** A record as bytes, little-endian. */
export function writeRecord(record: PictureRecord): Uint8Array {
  const { count, cells, voteBits, signatures } = record.features;
  const bytes = new Uint8Array(HEAD_BYTES + count * FEATURE_WORDS * 4);
  const view = new DataView(bytes.buffer);
  view.setFloat64(0, record.pictureId, true);
  view.setFloat64(8, record.groupId, true);
  view.setUint16(16, record.width, true);
  view.setUint16(18, record.height, true);
  view.setUint32(20, record.hash.low, true);
  view.setUint32(24, record.hash.high, true);
  view.setUint32(28, count, true);
  // Every machine that this runs on is little-endian, as the file is.
  const words = new Uint32Array(bytes.buffer, HEAD_BYTES);
  let at = 0;
  for (const part of [cells, voteBits, signatures, record.placement]) {
    words.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** The record in `bytes`, as `writeRecord` left it, or null where they are no record. */
export function readRecord(bytes: Uint8Array): PictureRecord | null {
  if (bytes.length < HEAD_BYTES) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(28, true);
  if (bytes.length !== HEAD_BYTES + count * FEATURE_WORDS * 4) return null;
  const copy = new Uint32Array(bytes.slice(HEAD_BYTES).buffer, 0, count * FEATURE_WORDS);
  const words = (start: number, length: number) => copy.subarray(start, start + length);
  return {
    pictureId: view.getFloat64(0, true),
    groupId: view.getFloat64(8, true),
    width: view.getUint16(16, true),
    height: view.getUint16(18, true),
    hash: { low: view.getUint32(20, true), high: view.getUint32(24, true) },
    features: {
      count,
      cells: words(0, count),
      voteBits: words(count, count),
      signatures: words(2 * count, SIGNATURE_WORDS * count),
    },
    placement: words((2 + SIGNATURE_WORDS) * count, count),
  };
}

function stepsOf(value: number, most: number): number {
  return Math.min(most, Math.max(0, Math.round(value)));
}
