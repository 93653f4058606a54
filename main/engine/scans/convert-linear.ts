import { invert, makeLinearTable, multiply, SRGB_TO_XYZ_D65, type Matrix3 } from './srgb.ts';
import { numbersOf, type TiffDirectory } from './tiff-directory.ts';
import { TIFF_TAG } from './tiff-tags.ts';

/** How sensor values become linear sRGB: (value − black) / (white − black), then the matrix. */
export interface LinearColour {
  readonly black: readonly [number, number, number];
  readonly white: readonly [number, number, number];
  /** Null: the channels are taken as sRGB primaries. */
  readonly matrix: Matrix3 | null;
}

/** Linear 16-bit values that already are what they should be. */
export const PLAIN_LINEAR: LinearColour = { black: [0, 0, 0], white: [65_535, 65_535, 65_535], matrix: null };

/**
 * Reads a linear DNG's levels and colour. Assumed, because scanners write no more: one calibration (ColorMatrix1,
 * taken as for D65), AsShotNeutral as the white of the picture, no linearisation table, no opcodes, no exposure shift.
 * `bits` scale the default white level. `colour` is the directory that holds the colour tags, the file's first.
 * Source: Adobe DNG Specification 1.4.0.0, chapter 6, "Mapping Camera Color Space to CIE XYZ Space", without the
 * adaptation to D50: camera white goes to sRGB white.
 */
export function readDngColour(raw: TiffDirectory, colour: TiffDirectory, bits: number): LinearColour {
  const fullScale = 2 ** Math.min(16, bits) - 1;
  const scale = 65_535 / fullScale;
  const levels = (tag: number, absent: number): [number, number, number] => {
    const [first = absent, second = first, third = first] = numbersOf(raw, tag);
    return [first * scale, second * scale, third * scale];
  };
  return {
    black: levels(TIFF_TAG.blackLevel, 0),
    white: levels(TIFF_TAG.whiteLevel, fullScale),
    matrix: cameraToSrgb(numbersOf(colour, TIFF_TAG.colorMatrix1), numbersOf(colour, TIFF_TAG.asShotNeutral)),
  };
}

function cameraToSrgb(xyzToCamera: readonly number[], neutral: readonly number[]): Matrix3 | null {
  const matrix = asMatrix(xyzToCamera);
  if (matrix === null) return null;
  const srgbToCamera = multiply(matrix, SRGB_TO_XYZ_D65);
  // Each channel is scaled so that the camera's white is (1, 1, 1), as the neutral of the picture will be.
  const balanced = asMatrix(
    srgbToCamera.map((value, i) => {
      const row = Math.floor(i / 3) * 3;
      return value / ((srgbToCamera[row] ?? 0) + (srgbToCamera[row + 1] ?? 0) + (srgbToCamera[row + 2] ?? 0));
    }),
  );
  const inverse = balanced === null ? null : invert(balanced);
  if (inverse === null) return null;
  const [r = 1, g = 1, b = 1] = neutral.length === 3 && neutral.every((value) => value > 0) ? neutral : [];
  return multiply(inverse, [1 / r, 0, 0, 0, 1 / g, 0, 0, 0, 1 / b]);
}

function asMatrix(values: readonly number[]): Matrix3 | null {
  const [a, b, c, d, e, f, g, h, i] = values;
  if (values.length !== 9 || !values.every(Number.isFinite)) return null;
  if (a === undefined || b === undefined || c === undefined || d === undefined || e === undefined)
    return null;
  if (f === undefined || g === undefined || h === undefined || i === undefined) return null;
  return [a, b, c, d, e, f, g, h, i];
}

/** Linear 16-bit pixels of 1 or 3 channels (further ones are dropped) as sRGB, 8 bits, always 3 channels. */
export function convertLinear(pixels: Uint16Array, channels: number, colour: LinearColour): Buffer {
  const table = makeLinearTable();
  const count = Math.floor(pixels.length / channels);
  const out = Buffer.allocUnsafe(count * 3);
  const scales = colour.white.map((white, i) => 1 / Math.max(1, white - (colour.black[i] ?? 0)));
  const [blackR, blackG, blackB] = colour.black;
  const [scaleR = 1, scaleG = 1, scaleB = 1] = scales;
  const [a, b, c, d, e, f, g, h, i] = colour.matrix ?? [1, 0, 0, 0, 1, 0, 0, 0, 1];
  for (let pixel = 0; pixel < count; pixel++) {
    const at = pixel * channels;
    const first = pixels[at] ?? 0;
    const red = (first - blackR) * scaleR;
    if (channels < 3) {
      out.fill(table[toIndex(red)] ?? 0, pixel * 3, pixel * 3 + 3);
      continue;
    }
    const green = ((pixels[at + 1] ?? 0) - blackG) * scaleG;
    const blue = ((pixels[at + 2] ?? 0) - blackB) * scaleB;
    out[pixel * 3] = table[toIndex(a * red + b * green + c * blue)] ?? 0;
    out[pixel * 3 + 1] = table[toIndex(d * red + e * green + f * blue)] ?? 0;
    out[pixel * 3 + 2] = table[toIndex(g * red + h * green + i * blue)] ?? 0;
  }
  return out;
}

function toIndex(light: number): number {
  return light <= 0 ? 0 : light >= 1 ? 65_535 : Math.round(light * 65_535);
}
