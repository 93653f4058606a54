import { describe, expect, it } from 'vitest';
import { placeByKey, placeInBox } from '../../../renderer/roll/pick-geometry.ts';

describe('picking a place on a scan', () => {
  it('finds the place under a point of a box that shows the picture whole in its middle', () => {
    // A picture of 200 × 100 in a box of 400 × 400 is 400 × 200, with 100 free above and below it.
    const box = { width: 400, height: 400 };
    const picture = { width: 200, height: 100 };
    expect(placeInBox({ x: 100, y: 150 }, box, picture)).toEqual({ x: 0.25, y: 0.25 });
    expect(placeInBox({ x: 100, y: 50 }, box, picture)).toBeNull();
  });

  it('moves as the eye sees it on a picture that lies as scanned', () => {
    const moved = placeByKey({ x: 0.5, y: 0.5 }, 'ArrowRight', false, { turned: 0, mirrored: false });
    expect(moved?.x).toBeCloseTo(0.52);
    expect(moved?.y).toBe(0.5);
  });

  it('moves as the eye sees it on a picture that is turned', () => {
    // Turned clockwise by a quarter, what is to the right on the screen was above on the scan.
    const moved = placeByKey({ x: 0.5, y: 0.5 }, 'ArrowRight', false, { turned: 90, mirrored: false });
    expect(moved?.x).toBeCloseTo(0.5);
    expect(moved?.y).toBeCloseTo(0.48);
  });

  it('moves as the eye sees it on a picture that is mirrored', () => {
    const moved = placeByKey({ x: 0.5, y: 0.5 }, 'ArrowRight', true, { turned: 0, mirrored: true });
    expect(moved?.x).toBeCloseTo(0.496);
  });

  it('stays on the picture, and leaves other keys alone', () => {
    expect(placeByKey({ x: 0, y: 0 }, 'ArrowUp', false, { turned: 0, mirrored: false })).toEqual({
      x: 0,
      y: 0,
    });
    expect(placeByKey({ x: 0, y: 0 }, 'Tab', false, { turned: 0, mirrored: false })).toBeNull();
  });
});
