import { describe, expect, it } from 'vitest';
import { cropBetween, cropByKey, pointOnFilm } from '../../../renderer/roll/crop-geometry.ts';

describe('crop on a frame that is held upright', () => {
  it('finds the point of the film under a point of the screen', () => {
    expect(pointOnFilm('lying', { u: 0.2, v: 0.7 })).toEqual({ x: 0.2, y: 0.7 });
    // Turned back a quarter against the clock: the left upper corner of the screen is the right upper one of the film.
    expect(pointOnFilm('turned back', { u: 0, v: 0 })).toEqual({ x: 1, y: 0 });
    expect(pointOnFilm('turned back', { u: 1, v: 1 })).toEqual({ x: 0, y: 1 });
  });

  it('spans the part between two points, whichever came first', () => {
    expect(cropBetween({ x: 0.75, y: 0.5 }, { x: 0.25, y: 0.25 })).toEqual({
      x: 0.25,
      y: 0.25,
      width: 0.5,
      height: 0.25,
    });
  });

  it('moves by a hundredth in the direction of the arrow', () => {
    const crop = { x: 0.1, y: 0.2, width: 0.5, height: 0.5 };
    expect(cropByKey(crop, 'ArrowRight', false, 'lying')).toEqual({ ...crop, x: 0.11 });
    // What lies to the right on the screen lies further down on the film.
    expect(cropByKey(crop, 'ArrowRight', false, 'turned back')).toEqual({ ...crop, y: 0.21 });
    expect(cropByKey(crop, 'ArrowDown', false, 'turned back')).toEqual({ ...crop, x: 0.09 });
  });

  it('grows to the side that the arrow points to', () => {
    const crop = { x: 0.1, y: 0.2, width: 0.5, height: 0.5 };
    expect(cropByKey(crop, 'ArrowDown', true, 'lying')).toEqual({ ...crop, height: 0.51 });
    // Down on the screen is to the left on the film: the lower edge on the screen is the left one there.
    expect(cropByKey(crop, 'ArrowDown', true, 'turned back')).toEqual({ ...crop, x: 0.09, width: 0.51 });
  });

  it('stays inside the picture', () => {
    expect(cropByKey({ x: 0.5, y: 0, width: 0.5, height: 1 }, 'ArrowRight', false, 'lying')?.x).toBe(0.5);
  });
});
