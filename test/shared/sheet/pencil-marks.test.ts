import { describe, expect, it } from 'vitest';
import { drawPencilMark } from '../../../shared/sheet/pencil-marks.ts';

const picture = { xMm: 10, yMm: 20, widthMm: 36, heightMm: 24 };

describe('a pencil mark', () => {
  it.each(['box', 'dot', 'stroke'] as const)('%s always looks the same on the same frame', (kind) => {
    expect(drawPencilMark({ kind }, 'frame-7', picture, 1)).toEqual(
      drawPencilMark({ kind }, 'frame-7', picture, 1),
    );
  });

  it('looks a little different on another frame', () => {
    const [one, other] = ['frame-7', 'frame-8'].map((key) =>
      drawPencilMark({ kind: 'box' }, key, picture, 1),
    );
    expect(one).not.toEqual(other);
  });

  it.each(['box', 'dot', 'stroke'] as const)('%s stays within 3 mm of its picture', (kind) => {
    for (let frame = 0; frame < 200; frame += 1) {
      const points = drawPencilMark({ kind }, `frame-${frame}`, picture, 1).flatMap((line) => line.points);
      const outside = points.filter(([x, y]) => x < 10 - 3 || x > 46 + 3 || y < 20 - 3 || y > 44 + 3);
      expect(outside).toEqual([]);
    }
  });

  it('leaves the foot of the picture free of the box, so that the number stays legible', () => {
    const points = drawPencilMark({ kind: 'box' }, 'frame-7', picture, 1).flatMap((line) => line.points);
    expect(Math.max(...points.map(([, y]) => y))).toBeLessThan(44);
  });

  it('draws crop lines at their fractions of the picture', () => {
    const lines = drawPencilMark(
      { kind: 'crop', x: 0.25, y: 0.5, width: 0.5, height: 0.25 },
      'frame-7',
      picture,
      1,
    );
    // Left line at 10 + 36 / 4 = 19, right at 19 + 18 = 37; upper at 20 + 12 = 32, lower at 32 + 6 = 38. By hand: within 1 mm.
    const ends = lines.slice(4).map(({ points }) => [points[0], points.at(-1)]);
    expect(ends[0]?.[0]?.[0]).toBeCloseTo(19, 0);
    expect(ends[1]?.[0]?.[0]).toBeCloseTo(37, 0);
    expect(ends[2]?.[0]?.[1]).toBeCloseTo(32, 0);
    expect(ends[3]?.[0]?.[1]).toBeCloseTo(38, 0);
  });
});
