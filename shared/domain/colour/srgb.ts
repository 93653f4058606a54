/**
 * The transfer curve of sRGB and its primaries.
 * Source: IEC 61966-2-1:1999 (sRGB), 5.2: linear below 0.0031308, exponent 2.4 above, offset 0.055, slope 12.92;
 * primaries and the white of D65 as in Rec. ITU-R BT.709-6, table 1 (chromaticities to the digits given there).
 */

/** Light of one channel from its sRGB code: 0..1 in, 0..1 linear out; outside 0..1 the curve is mirrored at 0. */
export function srgbToLinear(code: number): number {
  const size = Math.abs(code);
  const light = size <= 0.04045 ? size / 12.92 : ((size + 0.055) / 1.055) ** 2.4;
  return code < 0 ? -light : light;
}

/** The sRGB code of linear light: 0..1 in, 0..1 out; outside 0..1 the curve is mirrored at 0. */
export function linearToSrgb(light: number): number {
  const size = Math.abs(light);
  const code = size <= 0.0031308 ? size * 12.92 : 1.055 * size ** (1 / 2.4) - 0.055;
  return light < 0 ? -code : code;
}
