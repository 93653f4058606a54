import { converter } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureChannels } from '../../../../main/engine/scans/channel-statistics.ts';

describe('channel statistics', () => {
  it('count every pixel once', () => {
    // 99 pixels of 10, 20, 30 and one of 250, 240, 230: mean red (99 × 10 + 250) / 100 = 12.4, and so on.
    const pixels = new Uint8Array(300);
    for (let at = 0; at < 300; at += 3) pixels.set(at === 0 ? [250, 240, 230] : [10, 20, 30], at);
    const { mean, percentiles } = measureChannels(pixels);
    expect(mean).toEqual([12.4, 22.2, 32]);
    expect(percentiles).toEqual({
      p1: [10, 20, 30],
      p5: [10, 20, 30],
      p50: [10, 20, 30],
      p95: [10, 20, 30],
      p99: [10, 20, 30],
    });
  });

  it('find percentiles of an even ramp', () => {
    const pixels = Uint8Array.from({ length: 768 }, (_, i) => Math.floor(i / 3));
    // 256 equal steps: the share of 0.05 is reached with the 13th value, 12; of 0.5 with the 128th, 127.
    expect(measureChannels(pixels).percentiles).toMatchObject({ p5: [12, 12, 12], p50: [127, 127, 127] });
  });

  it('give the Lab that another library gives', () => {
    // Oracle: culori 4.0.2, Lab under D65. Tolerance: below what anyone sees (a tenth of a step of ΔE).
    const toLab = converter('lab65');
    fc.assert(
      fc.property(fc.nat(255), fc.nat(255), fc.nat(255), (r, g, b) => {
        const [lightness, a, bStar] = measureChannels(Uint8Array.of(r, g, b)).meanLab;
        const expected = toLab({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
        expect(Math.abs(lightness - expected.l)).toBeLessThan(0.1);
        expect(Math.abs(a - expected.a)).toBeLessThan(0.1);
        expect(Math.abs(bStar - expected.b)).toBeLessThan(0.1);
      }),
    );
  });
});
