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

/** One entry of the index: a picture came, with what it is found by, or went. */
export type IndexEntry =
  | { readonly kind: 'added'; readonly record: PictureRecord }
  | { readonly kind: 'removed'; readonly pictureId: number };

const ADDED = 1;
const REMOVED = 2;
const KIND_BYTES = 8;
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

/** The entry for a picture that came, as bytes, little-endian. */
export function writeAdded(record: PictureRecord): Uint8Array {
  const { count, cells, voteBits, signatures } = record.features;
  const start = KIND_BYTES + HEAD_BYTES;
  const bytes = new Uint8Array(start + count * FEATURE_WORDS * 4);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, ADDED);
  view.setFloat64(8, record.pictureId, true);
  view.setFloat64(16, record.groupId, true);
  view.setUint16(24, record.width, true);
  view.setUint16(26, record.height, true);
  view.setUint32(28, record.hash.low, true);
  view.setUint32(32, record.hash.high, true);
  view.setUint32(36, count, true);
  // Every machine that this runs on is little-endian, as the file is.
  const words = new Uint32Array(bytes.buffer, start);
  let at = 0;
  for (const part of [cells, voteBits, signatures, record.placement]) {
    words.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** The entry for a picture that went. */
export function writeRemoved(pictureId: number): Uint8Array {
  const bytes = new Uint8Array(2 * KIND_BYTES);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, REMOVED);
  view.setFloat64(8, pictureId, true);
  return bytes;
}

/** The entry in `bytes`, as it was written, or null where they are none. It may look into `bytes`. */
export function readEntry(bytes: Uint8Array): IndexEntry | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 2 * KIND_BYTES) return null;
  if (view.getUint8(0) === REMOVED) return { kind: 'removed', pictureId: view.getFloat64(8, true) };
  const start = KIND_BYTES + HEAD_BYTES;
  if (view.getUint8(0) !== ADDED || bytes.length < start) return null;
  const count = view.getUint32(36, true);
  if (bytes.length !== start + count * FEATURE_WORDS * 4) return null;
  // Where the bytes lie need not be where 32-bit words may.
  const [buffer, at] =
    (bytes.byteOffset + start) % 4 === 0
      ? [bytes.buffer, bytes.byteOffset + start]
      : [new Uint8Array(bytes.subarray(start)).buffer, 0];
  const words = (from: number, length: number) => new Uint32Array(buffer, at + 4 * from, length);
  const record: PictureRecord = {
    pictureId: view.getFloat64(8, true),
    groupId: view.getFloat64(16, true),
    width: view.getUint16(24, true),
    height: view.getUint16(26, true),
    hash: { low: view.getUint32(28, true), high: view.getUint32(32, true) },
    features: {
      count,
      cells: words(0, count),
      voteBits: words(count, count),
      signatures: words(2 * count, SIGNATURE_WORDS * count),
    },
    placement: words((2 + SIGNATURE_WORDS) * count, count),
  };
  return { kind: 'added', record };
}

function stepsOf(value: number, most: number): number {
  return Math.min(most, Math.max(0, Math.round(value)));
}
