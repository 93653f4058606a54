/** A 3 × 3 matrix by rows. */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];

/**
 * XYZ (D65) to linear sRGB. Source: IEC 61966-2-1:1999, the inverse of its matrix, to the digits published there.
 */
export const XYZ_D65_TO_SRGB: Matrix3 = [
  3.2406, -1.5372, -0.4986, -0.9689, 1.8758, 0.0415, 0.0557, -0.204, 1.057,
];

/** Linear sRGB to XYZ (D65). Source: IEC 61966-2-1:1999. */
export const SRGB_TO_XYZ_D65: Matrix3 = [
  0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505,
];

/** XYZ under D50 to D65 by the Bradford transform. Source: the inverse of the matrix of ICC.1:2010 annex E.3. */
export const BRADFORD_D50_TO_D65: Matrix3 = [
  0.9555766, -0.0230393, 0.0631636, -0.0282895, 1.0099416, 0.0210077, 0.0122982, -0.020483, 1.3299098,
];

/** Linear light (0 to 1) as an sRGB value 0 to 1. Source: IEC 61966-2-1:1999. */
export function linearToSrgb(light: number): number {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
}

/** An sRGB value (0 to 1) as linear light 0 to 1. Source: IEC 61966-2-1:1999, amendment 1 for the threshold. */
export function srgbToLinear(value: number): number {
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}

/** The product `a` · `b`: first `b`, then `a`. */
export function multiply(a: Matrix3, b: Matrix3): Matrix3 {
  const at = (row: number, column: number): number =>
    (a[row * 3] ?? 0) * (b[column] ?? 0) +
    (a[row * 3 + 1] ?? 0) * (b[3 + column] ?? 0) +
    (a[row * 3 + 2] ?? 0) * (b[6 + column] ?? 0);
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
}

/** The inverse, or null for a matrix that has none. */
export function invert(m: Matrix3): Matrix3 | null {
  const [a, b, c, d, e, f, g, h, i] = m;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  if (!(Math.abs(determinant) > 1e-12)) return null;
  const s = 1 / determinant;
  return [
    (e * i - f * h) * s,
    (c * h - b * i) * s,
    (b * f - c * e) * s,
    (f * g - d * i) * s,
    (a * i - c * g) * s,
    (c * d - a * f) * s,
    (d * h - e * g) * s,
    (b * g - a * h) * s,
    (a * e - b * d) * s,
  ];
}

/** Sixteen bits of linear light to eight bits of sRGB, for every value there is. */
export function makeLinearTable(): Uint8Array {
  const table = new Uint8Array(65_536);
  for (let i = 0; i < table.length; i++) table[i] = Math.round(linearToSrgb(i / 65_535) * 255);
  return table;
}
