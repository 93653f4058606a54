import { DESCRIPTOR_LENGTH } from './features.ts';

/** How a picture may differ from the frame besides place, size and turn: tones inverted, sides swapped. */
export interface Variant {
  readonly negative: boolean;
  readonly mirrored: boolean;
}

/** The four of them, the likeliest first. */
export const VARIANTS: readonly Variant[] = [
  { negative: false, mirrored: false },
  { negative: true, mirrored: false },
  { negative: false, mirrored: true },
  { negative: true, mirrored: true },
];

/** Half a descriptor: the two rows of fields on one side. */
export const HALF_LENGTH = DESCRIPTOR_LENGTH / 2;

/**
 * Where each value of a varied picture's descriptor is found in the plain picture's. Descriptor place
 * (row, column, direction): inverting turns the window half round and leaves directions as they are, because the
 * slope turns with it: (3 − row, 3 − column, direction); mirroring gives (3 − row, column, −direction).
 */
export function descriptorOrder(variant: Variant): Uint8Array {
  const order = new Uint8Array(DESCRIPTOR_LENGTH);
  for (let row = 0; row < 4; row++) {
    for (let column = 0; column < 4; column++) {
      for (let direction = 0; direction < 8; direction++) {
        let [fromRow, fromColumn, fromDirection] = [row, column, direction];
        if (variant.negative) [fromRow, fromColumn] = [3 - fromRow, 3 - fromColumn];
        if (variant.mirrored) [fromRow, fromDirection] = [3 - fromRow, (8 - fromDirection) % 8];
        order[(row * 4 + column) * 8 + direction] = (fromRow * 4 + fromColumn) * 8 + fromDirection;
      }
    }
  }
  return order;
}

/** The angle (radians) that a feature at `angle` has in the varied picture. */
export function variedAngle(angle: number, variant: Variant): number {
  const turned = variant.negative ? angle + Math.PI : angle;
  return variant.mirrored ? Math.PI - turned : turned;
}

/** A half descriptor with its columns swapped and directions reversed: what mirroring leaves within a half. */
export function swapHalf(half: Float32Array): Float32Array {
  const out = new Float32Array(HALF_LENGTH);
  for (let row = 0; row < 2; row++) {
    for (let column = 0; column < 4; column++) {
      for (let direction = 0; direction < 8; direction++) {
        const from = (row * 4 + 3 - column) * 8 + ((8 - direction) % 8);
        out[(row * 4 + column) * 8 + direction] = half[from] ?? 0;
      }
    }
  }
  return out;
}

/** The lower half of a descriptor laid out as an upper half, and back: rows and columns turned half round. */
export function turnHalf(half: Float32Array): Float32Array {
  const out = new Float32Array(HALF_LENGTH);
  for (let row = 0; row < 2; row++) {
    for (let column = 0; column < 4; column++) {
      for (let direction = 0; direction < 8; direction++) {
        const from = ((1 - row) * 4 + 3 - column) * 8 + direction;
        out[(row * 4 + column) * 8 + direction] = half[from] ?? 0;
      }
    }
  }
  return out;
}
