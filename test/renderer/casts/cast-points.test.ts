import { describe, expect, it } from 'vitest';
import { castPoints, plotScale, trendLine } from '../../../renderer/casts/cast-points.ts';
import { plotted } from './some-casts.ts';

const ROLLS = [
  plotted(1, { a: 1, temperatureErrorC: 0.2 }),
  plotted(2, { a: 3, temperatureErrorC: 0 }),
  plotted(3, { a: 8, temperatureErrorC: -0.4 }),
  plotted(4, { a: 5, temperatureErrorC: null }),
  plotted(5, { a: null, temperatureErrorC: 0.1 }),
  plotted(6, { a: 20, temperatureErrorC: 0.3, stock: 'Harrow 100' }),
  plotted(7, { a: 30, temperatureErrorC: 0.4, stock: 'Slide 50' }),
];

describe('the dots of a plot', () => {
  it('counts casts from the middle of the stock, from left to right', () => {
    const { points, own, relative, measured } = castPoints(
      ROLLS,
      'Fenn 200',
      new Set(),
      'a',
      'temperatureErrorC',
    );
    // The middle of 1, 3, 5, 8 is 4.
    expect({ own, relative, measured }).toEqual({ own: 4, relative: true, measured: 4 });
    expect(points.map(({ rollId, x, y }) => [rollId, x, y])).toEqual([
      [3, -0.4, 4],
      [2, 0, -1],
      [1, 0.2, -3],
    ]);
  });

  it('shows other stocks from three rolls on, each from its own middle', () => {
    const harrow = [
      plotted(8, { a: 24, temperatureErrorC: 1, stock: 'Harrow 100' }),
      plotted(9, { a: 21, temperatureErrorC: 1, stock: 'Harrow 100' }),
    ];
    const others = new Set(['Harrow 100', 'Slide 50']);
    const { points } = castPoints([...ROLLS, ...harrow], 'Fenn 200', others, 'a', 'temperatureErrorC');
    const rings = points.filter(({ own }) => !own);
    // Harrow 100: 20, 21, 24, middle 21. Slide 50 has one roll, and no middle.
    expect(rings.map(({ rollId, y }) => [rollId, y])).toEqual([
      [6, -1],
      [9, 0],
      [8, 3],
    ]);
  });

  it('leaves casts as they are where the stock has too few rolls', () => {
    const drawn = castPoints(ROLLS.slice(0, 2), 'Fenn 200', new Set(), 'a', 'temperatureErrorC');
    expect(drawn).toMatchObject({ relative: false, own: 0 });
    expect(drawn.points.map(({ y }) => y)).toEqual([3, 1]);
  });
});

describe('the line of a plot', () => {
  it('goes through the medians, its interval turning about them', () => {
    const points = [-1, 0, 2].map((x, at) => ({ rollId: at, roll: `${at}`, x, y: 2 * x + 1, own: true }));
    // Medians: x 0, y 1. At −1 the slopes 1, 2, 3 give 0, −1, −2; at 2 they give 3, 5, 7.
    expect(trendLine(points, { slope: 2, slopeLow: 1, slopeHigh: 3 })).toEqual({
      from: { x: -1, y: -1, low: -2, high: 0 },
      middle: { x: 0, y: 1 },
      to: { x: 2, y: 5, low: 3, high: 7 },
    });
    expect(trendLine(points, { slope: null, slopeLow: null, slopeHigh: null })).toBeNull();
  });
});

describe('the scale of a plot', () => {
  it('holds every value, with round ticks within it', () => {
    const { low, high, ticks } = plotScale([-0.9, 0.8], 1, true);
    expect(low).toBeLessThan(-0.9);
    expect(high).toBeGreaterThan(0.8);
    expect(ticks.length).toBeGreaterThanOrEqual(4);
    for (const tick of ticks) expect(tick >= low && tick <= high).toBe(true);
  });

  it('is as wide as asked for though all values are one, and for none at all', () => {
    for (const values of [[5], []]) {
      const { low, high } = plotScale(values, 12, false);
      expect(high - low).toBeGreaterThanOrEqual(12);
    }
  });
});
