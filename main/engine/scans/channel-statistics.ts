import { srgbToLinear, SRGB_TO_XYZ_D65 } from './srgb.ts';

/** One value for each of red, green and blue. */
type Triple = readonly [number, number, number];

/** A first measure of a picture's colour, on its small preview. */
export interface ChannelStatistics {
  /** Of the sRGB values, 0 to 255. */
  readonly mean: Triple;
  /** The value below which this share of the pixels lies, per channel, 0 to 255. */
  readonly percentiles: {
    readonly p1: Triple;
    readonly p5: Triple;
    readonly p50: Triple;
    readonly p95: Triple;
    readonly p99: Triple;
  };
  /** Mean L*, a*, b* under D65. */
  readonly meanLab: Triple;
}

/** Measures 8-bit sRGB pixels, three channels each. */
export function measureChannels(pixels: Uint8Array): ChannelStatistics {
  const histograms = [new Uint32Array(256), new Uint32Array(256), new Uint32Array(256)];
  const [red, green, blue] = histograms;
  for (let at = 0; at + 2 < pixels.length; at += 3) {
    for (let channel = 0; channel < 3; channel++) {
      const histogram = histograms[channel];
      const value = pixels[at + channel] ?? 0;
      if (histogram) histogram[value] = (histogram[value] ?? 0) + 1;
    }
  }
  const count = Math.max(1, Math.floor(pixels.length / 3));
  const each = (measure: (histogram: Uint32Array) => number): Triple => [
    measure(red ?? new Uint32Array(256)),
    measure(green ?? new Uint32Array(256)),
    measure(blue ?? new Uint32Array(256)),
  ];
  const percentile = (share: number): Triple => each((histogram) => findPercentile(histogram, share * count));
  return {
    mean: each((histogram) => histogram.reduce((sum, times, value) => sum + times * value, 0) / count),
    percentiles: {
      p1: percentile(0.01),
      p5: percentile(0.05),
      p50: percentile(0.5),
      p95: percentile(0.95),
      p99: percentile(0.99),
    },
    meanLab: meanLab(pixels),
  };
}

function findPercentile(histogram: Uint32Array, below: number): number {
  let seen = 0;
  for (let value = 0; value < 255; value++) {
    seen += histogram[value] ?? 0;
    if (seen >= below) return value;
  }
  return 255;
}

const LIGHT = Float64Array.from({ length: 256 }, (_, value) => srgbToLinear(value / 255));
/** The cube-root part of Lab, in steps fine enough for 0.01 of L*. */
const STEPS = 8192;
const FOLDED = Float64Array.from({ length: STEPS + 2 }, (_, i) => foldLight(i / STEPS));

/** Source: CIE 15:2004 8.2.1.1. */
function foldLight(t: number): number {
  const knee = 6 / 29;
  return t > knee ** 3 ? Math.cbrt(t) : t / (3 * knee * knee) + 4 / 29;
}

function meanLab(pixels: Uint8Array): Triple {
  const [xr, xg, xb, yr, yg, yb, zr, zg, zb] = SRGB_TO_XYZ_D65;
  const [whiteX, whiteY, whiteZ] = [xr + xg + xb, yr + yg + yb, zr + zg + zb];
  let [sumX, sumY, sumZ] = [0, 0, 0];
  for (let at = 0; at + 2 < pixels.length; at += 3) {
    const r = LIGHT[pixels[at] ?? 0] ?? 0;
    const g = LIGHT[pixels[at + 1] ?? 0] ?? 0;
    const b = LIGHT[pixels[at + 2] ?? 0] ?? 0;
    sumX += fold((xr * r + xg * g + xb * b) / whiteX);
    sumY += fold((yr * r + yg * g + yb * b) / whiteY);
    sumZ += fold((zr * r + zg * g + zb * b) / whiteZ);
  }
  const count = Math.max(1, Math.floor(pixels.length / 3));
  const [fx, fy, fz] = [sumX / count, sumY / count, sumZ / count];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

function fold(t: number): number {
  const place = Math.min(1, t) * STEPS;
  const below = Math.floor(place);
  const low = FOLDED[below] ?? 0;
  return low + ((FOLDED[below + 1] ?? low) - low) * (place - below);
}
