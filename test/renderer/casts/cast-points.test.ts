import { describe, expect, it } from 'vitest';
import { castPoints, plotScale, trendLine } from '../../../renderer/casts/cast-points.ts';
import { plotted } from './some-casts.ts';

const OWN = [
  plotted(1, { deltaA: 1, temperatureErrorC: 0.2, camera: 'B' }),
  plotted(2, { deltaA: 3, temperatureErrorC: 0, camera: 'A' }),
  plotted(3, { deltaA: 8, temperatureErrorC: -0.4, camera: 'B' }),
  plotted(4, { deltaA: 5, temperatureErrorC: null }),
  plotted(5, { deltaA: null, temperatureErrorC: 0.1 }),
];
const OTHERS = [plotted(6, { deltaA: 20, temperatureErrorC: 0.3, stock: 'Harrow 100', camera: 'C' })];

describe('the dots of a plot', () => {
  it('lie from left to right, those of other stocks among them', () => {
    const { points, measured, kinds } = castPoints(OWN, OTHERS, 'roll', 'deltaA', 'temperatureErrorC');
    expect(points.map(({ id, x, y, own }) => [id, x, y, own])).toEqual([
      [3, -0.4, 8, true],
      [2, 0, 3, true],
      [1, 0.2, 1, true],
      [6, 0.3, 20, false],
    ]);
    // Measured are 1, 2, 3 and 4; the temperature of 4 is not known.
    expect({ measured, kinds }).toEqual({ measured: 4, kinds: [] });
  });

  it('stand on the strip of their kind', () => {
    const { points, kinds } = castPoints(OWN, OTHERS, 'roll', 'deltaA', 'camera');
    expect(kinds).toEqual(['A', 'B', 'C']);
    expect(points.map(({ id, x }) => [id, x])).toEqual([
      [2, 0],
      [1, 1],
      [3, 1],
      [6, 2],
    ]);
  });

  it('are developments where these are asked for', () => {
    const development = { id: 9, name: '2026-05-03' };
    const rolls = [
      plotted(1, { development, deltaA: 1, temperatureErrorC: 0.2 }),
      plotted(2, { development, deltaA: 4, temperatureErrorC: 0.2 }),
      plotted(3, { deltaA: 50, temperatureErrorC: 0.2 }),
    ];
    const { points, measured } = castPoints(rolls, [], 'development', 'deltaA', 'temperatureErrorC');
    // The middle of 1 and 4.
    expect(points).toEqual([{ id: 9, name: '2026-05-03', x: 0.2, y: 2.5, own: true }]);
    expect(measured).toBe(1);
  });
});

describe('the line of a plot', () => {
  it('goes through the medians, its interval turning about them', () => {
    const points = [-1, 0, 2].map((x, at) => ({ id: at, name: `${at}`, x, y: 2 * x + 1, own: true }));
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
