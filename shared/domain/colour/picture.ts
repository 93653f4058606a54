import { srgbToLinear } from './srgb.ts';

/**
 * Pixels of a preview as they come from a decoder: rows from the top, samples of one pixel side by side, infrared
 * and transparency left out. Full scale is 255, 65 535 or 1 by the kind of array.
 */
export type Picture = {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly samples: Uint8Array | Uint8ClampedArray | Uint16Array | Float32Array;
  /** What a sample means: a code of the sRGB curve, or light itself (raw scans at gamma 1). */
  readonly encoding: 'srgb' | 'linear';
};

/** A picture as linear light 0..1, one plane per channel; in a one-channel picture the three planes are one. */
export type Light = {
  readonly width: number;
  readonly height: number;
  readonly red: Float32Array;
  readonly green: Float32Array;
  readonly blue: Float32Array;
};

/** Full scale of a sample array. */
export function fullScale(samples: Picture['samples']): number {
  if (samples instanceof Float32Array) return 1;
  return samples instanceof Uint16Array ? 65_535 : 255;
}

/** The linear light of a picture. */
export function lightOf(picture: Picture): Light {
  const { width, height, channels, samples, encoding } = picture;
  const count = width * height;
  const full = fullScale(samples);
  const toLight = encoding === 'linear' ? (code: number) => code / full : tableOfLight(samples, full);
  const plane = (channel: number) => {
    const values = new Float32Array(count);
    for (let at = 0; at < count; at += 1) values[at] = toLight(samples[at * channels + channel] ?? 0);
    return values;
  };
  const red = plane(0);
  if (channels === 1) return { width, height, red, green: red, blue: red };
  return { width, height, red, green: plane(1), blue: plane(2) };
}

function tableOfLight(samples: Picture['samples'], full: number): (code: number) => number {
  if (samples instanceof Float32Array) return srgbToLinear;
  const table = Float32Array.from({ length: full + 1 }, (_, code) => srgbToLinear(code / full));
  return (code) => table[code] ?? 0;
}

/** Relative luminance of linear sRGB light. Source: IEC 61966-2-1:1999, 5.2, the row of Y. */
export function luminance(red: number, green: number, blue: number): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** The picture cut into equal blocks: the mean light of each. */
export type Blocks = {
  readonly columns: number;
  readonly rows: number;
  readonly red: Float32Array;
  readonly green: Float32Array;
  readonly blue: Float32Array;
};

/**
 * The mean light of equal blocks, about `acrossLongEdge` of them along the longer side (at least one pixel each):
 * takes grain, scanner noise and the blocks of JPEG out before colours are compared.
 */
export function blockMeans(light: Light, acrossLongEdge: number): Blocks {
  const side = Math.max(1, Math.floor(Math.max(light.width, light.height) / acrossLongEdge));
  const columns = Math.max(1, Math.floor(light.width / side));
  const rows = Math.max(1, Math.floor(light.height / side));
  const mean = (plane: Float32Array) => {
    const values = new Float32Array(columns * rows);
    const width = Math.min(side, light.width);
    const height = Math.min(side, light.height);
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        let sum = 0;
        for (let y = row * side; y < row * side + height; y += 1) {
          for (let x = column * side; x < column * side + width; x += 1)
            sum += plane[y * light.width + x] ?? 0;
        }
        values[row * columns + column] = sum / (width * height);
      }
    }
    return values;
  };
  const red = mean(light.red);
  if (light.green === light.red) return { columns, rows, red, green: red, blue: red };
  return { columns, rows, red, green: mean(light.green), blue: mean(light.blue) };
}
