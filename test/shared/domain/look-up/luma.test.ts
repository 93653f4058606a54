import { describe, expect, it } from 'vitest';
import { fitLuma, lumaFrom, resizeLuma } from '../../../../shared/domain/look-up/luma.ts';

describe('luma', () => {
  it('spreads the tones between the clipped ends over 0 to 1', () => {
    // 1000 pixels: 5 of 10, 495 of 60, 495 of 160, 5 of 250. Half a per cent (5) goes at either end, so 60 becomes
    // black and 160 white.
    const pixels = Uint8Array.from({ length: 1000 }, (_, i) =>
      i < 5 ? 10 : i < 500 ? 60 : i < 995 ? 160 : 250,
    );
    const { data } = lumaFrom(pixels, 100, 10);
    expect(data[100]).toBeCloseTo(0, 2);
    expect(data[600]).toBeCloseTo(1, 2);
  });

  it('stretches bare paper no further than ten times', () => {
    // Tones 200 and 201 of 255 are 1/255 apart; ten times that is 0.039.
    const pixels = Uint8Array.from({ length: 1000 }, (_, i) => 200 + (i % 2));
    const { data } = lumaFrom(pixels, 100, 10);
    expect(Math.abs((data[0] ?? 0) - (data[1] ?? 0))).toBeCloseTo(10 / 255, 4);
  });

  it('keeps an even picture even at any size', () => {
    const even = { data: new Float32Array(37 * 23).fill(0.4), width: 37, height: 23 };
    for (const [width, height] of [
      [11, 7],
      [80, 61],
      [37, 5],
    ] as const) {
      for (const value of resizeLuma(even, width, height).data) expect(value).toBeCloseTo(0.4, 5);
    }
  });

  it('halves a ramp into a ramp', () => {
    // Away from the ends the middle of two neighbours of 0, 1, 2 … lies at 0.5, 2.5, 4.5 …
    const ramp = { data: Float32Array.from({ length: 16 }, (_, x) => x), width: 16, height: 1 };
    const { data } = resizeLuma(ramp, 8, 1);
    expect(Array.from(data.slice(1, 7), (value) => Math.round(value * 1000) / 1000)).toEqual([
      2.5, 4.5, 6.5, 8.5, 10.5, 12.5,
    ]);
  });

  it('keeps the proportions when it fits a long side', () => {
    const { width, height } = fitLuma({ data: new Float32Array(900 * 600), width: 900, height: 600 }, 512);
    expect([width, height]).toEqual([512, 341]);
  });
});
