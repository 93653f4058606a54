import { describe, expect, it } from 'vitest';
import { bearingOf, regionOf } from '../../../../shared/domain/look-up/decide.ts';
import { compose, type Matrix } from '../../../../shared/domain/look-up/matrix.ts';

// Fractions of the picture to fractions of the frame, by hand: a picture that is the frame turned clockwise has the
// frame's lower left corner (0, 1) at its own upper left (0, 0), and the frame's upper left at its upper right (1, 0).
const TURNED: readonly (readonly [0 | 90 | 180 | 270, Matrix])[] = [
  [0, [1, 0, 0, 0, 1, 0, 0, 0, 1]],
  [90, [0, 1, 0, -1, 0, 1, 0, 0, 1]],
  [180, [-1, 0, 1, 0, -1, 1, 0, 0, 1]],
  [270, [0, -1, 1, 1, 0, 0, 0, 0, 1]],
];
const MIRROR: Matrix = [-1, 0, 1, 0, 1, 0, 0, 0, 1];

describe('how a picture lies in a frame', () => {
  it('is told for quarter turns', () => {
    for (const [turned, matrix] of TURNED) expect(bearingOf(matrix)).toEqual({ turned, mirrored: false });
  });

  it('is told for quarter turns of the mirrored frame', () => {
    for (const [turned, matrix] of TURNED) {
      expect(bearingOf(compose(MIRROR, matrix))).toEqual({ turned, mirrored: true });
    }
  });

  it('is the nearest quarter turn for a picture held askew', () => {
    const [cos, sin] = [Math.cos(0.2), Math.sin(0.2)];
    expect(bearingOf([cos, -sin, 0, sin, cos, 0, 0, 0, 1])).toEqual({ turned: 0, mirrored: false });
  });

  it('is the part of the frame that a crop shows', () => {
    // Half as wide, a quarter as high, from (0.25, 0.5) on.
    expect(regionOf([0.5, 0, 0.25, 0, 0.25, 0.5, 0, 0, 1])).toEqual({
      x: 0.25,
      y: 0.5,
      width: 0.5,
      height: 0.25,
    });
  });

  it('ends at the edges of the frame when the picture shows more', () => {
    // A border of a tenth all around.
    expect(regionOf([1.2, 0, -0.1, 0, 1.2, -0.1, 0, 0, 1])).toEqual({ x: 0, y: 0, width: 1, height: 1 });
  });
});
