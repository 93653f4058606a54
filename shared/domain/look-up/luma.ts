/** A grey picture: rows of `width` values from the top left, 0 black to 1 white. */
export interface Luma {
  readonly data: Float32Array;
  readonly width: number;
  readonly height: number;
}

/** Pictures are described and compared at this long side, in px. Our choice: measured, see test/bench. */
export const DESCRIBED_LONG_SIDE = 512;

/** Share of the darkest and of the lightest pixels that a stretch lets go. Our choice. */
const CLIPPED_SHARE = 0.005;

/** A picture whose tones span less than this is stretched no further, so that bare paper stays bare. Our choice. */
const SMALLEST_SPAN = 0.1;

/** Bytes (0 to 255) or floats (0 to 1) as a grey picture whose tones fill 0 to 1. */
export function lumaFrom(pixels: Uint8Array | Float32Array, width: number, height: number): Luma {
  const count = width * height;
  const data = new Float32Array(count);
  const scale = pixels instanceof Uint8Array ? 1 / 255 : 1;
  for (let i = 0; i < count; i++) data[i] = (pixels[i] ?? 0) * scale;
  stretch(data);
  return { data, width, height };
}

/** The picture with `longSide` px on its longer side, in its own proportions, at least 1 px on the other. */
export function fitLuma(luma: Luma, longSide: number): Luma {
  const scale = longSide / Math.max(luma.width, luma.height);
  return resizeLuma(
    luma,
    Math.max(1, Math.round(luma.width * scale)),
    Math.max(1, Math.round(luma.height * scale)),
  );
}

/** The picture at `width` × `height` px through a triangle filter, wide enough not to alias when it shrinks. */
export function resizeLuma(luma: Luma, width: number, height: number): Luma {
  if (width === luma.width && height === luma.height) return luma;
  const across = triangleWeights(luma.width, width);
  const rows = new Float32Array(width * luma.height);
  for (let y = 0; y < luma.height; y++) {
    const from = y * luma.width;
    for (let x = 0; x < width; x++) {
      const start = across.starts[x] ?? 0;
      const at = x * across.reach;
      let sum = 0;
      for (let k = 0; k < across.reach; k++) {
        sum += (luma.data[from + start + k] ?? 0) * (across.weights[at + k] ?? 0);
      }
      rows[y * width + x] = sum;
    }
  }
  const down = triangleWeights(luma.height, height);
  const data = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const to = y * width;
    const start = down.starts[y] ?? 0;
    for (let k = 0; k < down.reach; k++) {
      const weight = down.weights[y * down.reach + k] ?? 0;
      if (weight === 0) continue;
      const from = (start + k) * width;
      for (let x = 0; x < width; x++) data[to + x] = (data[to + x] ?? 0) + weight * (rows[from + x] ?? 0);
    }
  }
  return { data, width, height };
}

function triangleWeights(from: number, to: number) {
  const ratio = from / to;
  const support = Math.max(1, ratio);
  const reach = Math.min(from, Math.ceil(support * 2) + 1);
  const starts = new Int32Array(to);
  const weights = new Float32Array(to * reach);
  for (let i = 0; i < to; i++) {
    const centre = (i + 0.5) * ratio - 0.5;
    const start = Math.min(Math.max(0, Math.ceil(centre - support)), from - reach);
    starts[i] = start;
    let sum = 0;
    for (let k = 0; k < reach; k++) sum += Math.max(0, 1 - Math.abs(start + k - centre) / support);
    for (let k = 0; k < reach; k++) {
      weights[i * reach + k] = Math.max(0, 1 - Math.abs(start + k - centre) / support) / sum;
    }
  }
  return { starts, weights, reach };
}

function stretch(data: Float32Array): void {
  const bins = 1024;
  const histogram = new Int32Array(bins);
  for (let i = 0; i < data.length; i++) {
    const bin = Math.min(bins - 1, Math.max(0, Math.floor((data[i] ?? 0) * bins)));
    histogram[bin] = (histogram[bin] ?? 0) + 1;
  }
  const clipped = data.length * CLIPPED_SHARE;
  let low = 0;
  for (let seen = histogram[0] ?? 0; seen <= clipped && low < bins - 1; seen += histogram[low] ?? 0) low++;
  let high = bins - 1;
  for (let seen = histogram[high] ?? 0; seen <= clipped && high > low; seen += histogram[high] ?? 0) high--;
  const black = low / bins;
  const span = Math.max((high + 1) / bins - black, SMALLEST_SPAN);
  for (let i = 0; i < data.length; i++) {
    data[i] = Math.min(1, Math.max(0, ((data[i] ?? 0) - black) / span));
  }
}
