import { describe, expect, it } from 'vitest';
import { frameGeometry, holesPath, stripLengthMm } from '../../../renderer/film/film-geometry.ts';

/** Corners where the holes of a path begin, x and y. */
function holeStarts(path: string): [number, number][] {
  return [...path.matchAll(/M(\S+) (\S+?)h/g)].map(([, x, y]) => [Number(x), Number(y)]);
}

describe('frame geometry', () => {
  // Facts: 35 mm film, 24×36 picture, eight perforations of 4.75 mm = 38 mm (ISO 1007 as reported; see film-format.ts).
  it('lays a 24×36 picture in the middle of its 38 mm of film', () => {
    expect(frameGeometry('24x36', '135')).toEqual({
      filmMm: 35,
      cellMm: 38,
      xMm: 1, // (38 − 36) / 2
      yMm: 5.5, // (35 − 24) / 2
      widthMm: 36,
      heightMm: 24,
      perforated: true,
    });
  });

  it('lays a half frame upright: 18 along the film, 24 across', () => {
    const { cellMm, widthMm, heightMm } = frameGeometry('18x24', '135');
    expect([cellMm, widthMm, heightMm]).toEqual([19, 18, 24]); // four perforations of 4.75 mm
  });

  it('keeps 6 mm below a picture on film without holes for its number', () => {
    const { filmMm, yMm, heightMm, widthMm, perforated } = frameGeometry('6x6', '120');
    expect(perforated).toBe(false);
    expect(filmMm - yMm - heightMm).toBeCloseTo(6, 9);
    expect(widthMm).toBeCloseTo(heightMm, 9);
  });

  it('stands a sheet upright with its shorter side along the row', () => {
    // 4×5 in sheets are 100 × 125.4 mm, the picture 95 × 120 (film-format.ts, frame-format.ts).
    const { cellMm, filmMm, widthMm, heightMm } = frameGeometry('4x5in', '4x5in');
    expect([cellMm, filmMm]).toEqual([100, 125.4]);
    expect(widthMm / heightMm).toBeCloseTo(95 / 120, 9);
  });

  it('takes the usual frame of the film where the format is unknown', () => {
    expect(frameGeometry('somebody’s own', '135')).toEqual(frameGeometry('24x36', '135'));
  });

  it('adds up the film of a strip', () => {
    expect(stripLengthMm('135', ['24x36', '24x36', '18x24'])).toBe(95); // 38 + 38 + 19
  });
});

describe('holes', () => {
  it('are eight along each edge of a frame, 4.75 mm apart, half a pitch from the cut', () => {
    const starts = holeStarts(holesPath(frameGeometry('24x36', '135'), 'true'));
    expect(starts).toHaveLength(16);
    const upper = starts.slice(0, 8).map(([x]) => x);
    for (const [index, x] of upper.entries()) {
      // The path begins a corner (0.51 mm) right of the hole's left side, which lies half a hole (1.98 / 2) left of its middle.
      expect(x).toBeCloseTo((index + 0.5) * 4.75 - 1.98 / 2 + 0.51, 2);
    }
  });

  it('at true size begin 2.01 mm from either edge of the film', () => {
    const starts = holeStarts(holesPath(frameGeometry('24x36', '135'), 'true'));
    // 2.01 mm from the upper edge; below, 35 − 2.01 − 2.80 (draw-strip.ts).
    expect([starts[0]?.[1], starts[8]?.[1]]).toEqual([2.01, 30.19]);
  });

  it('leave the outer 3 mm free for the number when drawn for reading', () => {
    const ys = holeStarts(holesPath(frameGeometry('24x36', '135'), 'reading')).map(([, y]) => y);
    expect(Math.min(...ys)).toBeGreaterThan(3);
    expect(Math.max(...ys)).toBeLessThan(35 - 3);
  });
});
