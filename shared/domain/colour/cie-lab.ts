/** Three numbers that belong together: red, green, blue, or X, Y, Z. */
export type Triple = readonly [number, number, number];

/** A colour in CIE 1976 L*a*b*: L* 0 (black) to 100 (white); a* green to magenta-red, b* blue to yellow. */
export type Lab = { readonly L: number; readonly a: number; readonly b: number };

type Matrix = readonly [Triple, Triple, Triple];

/** Chromaticities x, y. Source: Rec. ITU-R BT.709-6 (2015), table 1, items 1.3 and 1.4; sRGB takes the same. */
const RED: readonly [number, number] = [0.64, 0.33];
const GREEN: readonly [number, number] = [0.3, 0.6];
const BLUE: readonly [number, number] = [0.15, 0.06];
const WHITE_D65: readonly [number, number] = [0.3127, 0.329];

function fromChromaticity([x, y]: readonly [number, number]): Triple {
  return [x / y, 1, (1 - x - y) / y];
}

function multiply(matrix: Matrix, [x, y, z]: Triple): Triple {
  return [dot(matrix[0], x, y, z), dot(matrix[1], x, y, z), dot(matrix[2], x, y, z)];
}

function dot(row: Triple, x: number, y: number, z: number): number {
  return row[0] * x + row[1] * y + row[2] * z;
}

function invert([[a, b, c], [d, e, f], [g, h, i]]: Matrix): Matrix {
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    [(e * i - f * h) / determinant, (c * h - b * i) / determinant, (b * f - c * e) / determinant],
    [(f * g - d * i) / determinant, (a * i - c * g) / determinant, (c * d - a * f) / determinant],
    [(d * h - e * g) / determinant, (b * g - a * h) / determinant, (a * e - b * d) / determinant],
  ];
}

/** XYZ of the white of D65, Y = 1, from its chromaticity x 0.3127, y 0.3290. */
export const D65_WHITE: Triple = fromChromaticity(WHITE_D65);

function matrixOfPrimaries(): Matrix {
  const [r, g, b] = [fromChromaticity(RED), fromChromaticity(GREEN), fromChromaticity(BLUE)];
  const columns: Matrix = [
    [r[0], g[0], b[0]],
    [r[1], g[1], b[1]],
    [r[2], g[2], b[2]],
  ];
  // Each primary is scaled so that equal parts make the white.
  const [sr, sg, sb] = multiply(invert(columns), D65_WHITE);
  const scale = (row: Triple): Triple => [row[0] * sr, row[1] * sg, row[2] * sb];
  return [scale(columns[0]), scale(columns[1]), scale(columns[2])];
}

const LINEAR_TO_XYZ = matrixOfPrimaries();
const XYZ_TO_LINEAR = invert(LINEAR_TO_XYZ);

/** XYZ (Y of white = 1, white D65) of linear sRGB light 0..1. Source: IEC 61966-2-1:1999, 5.2. */
export function linearToXyz(linear: Triple): Triple {
  return multiply(LINEAR_TO_XYZ, linear);
}

/** Linear sRGB light of XYZ (white D65); parts below 0 or above 1 are outside what sRGB can show. */
export function xyzToLinear(xyz: Triple): Triple {
  return multiply(XYZ_TO_LINEAR, xyz);
}

/** Where the cube root of L*a*b* turns into a line: δ = 6/29. Source: CIE 015:2018 / ISO 11664-4, clause 4. */
const DELTA = 6 / 29;

function labCurve(ratio: number): number {
  return ratio > DELTA ** 3 ? Math.cbrt(ratio) : ratio / (3 * DELTA ** 2) + 4 / 29;
}

function labCurveBack(value: number): number {
  return value > DELTA ? value ** 3 : 3 * DELTA ** 2 * (value - 4 / 29);
}

/**
 * L*a*b* of XYZ against the white of D65.
 * Source: ISO/CIE 11664-4:2019, clause 4 (L* = 116 f(Y) − 16, a* = 500 (f(X) − f(Y)), b* = 200 (f(Y) − f(Z))).
 */
export function xyzToLab([x, y, z]: Triple): Lab {
  const fx = labCurve(x / D65_WHITE[0]);
  const fy = labCurve(y / D65_WHITE[1]);
  const fz = labCurve(z / D65_WHITE[2]);
  return { L: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}

/** XYZ (white D65) of L*a*b*: the way back of `xyzToLab`. */
export function labToXyz({ L, a, b }: Lab): Triple {
  const fy = (L + 16) / 116;
  return [
    D65_WHITE[0] * labCurveBack(fy + a / 500),
    D65_WHITE[1] * labCurveBack(fy),
    D65_WHITE[2] * labCurveBack(fy - b / 200),
  ];
}

/** L*a*b* (D65) of linear sRGB light 0..1. */
export function linearToLab(linear: Triple): Lab {
  return xyzToLab(linearToXyz(linear));
}

/** Linear sRGB light of L*a*b* (D65); may leave 0..1 where sRGB cannot show the colour. */
export function labToLinear(lab: Lab): Triple {
  return xyzToLinear(labToXyz(lab));
}

/** Chroma C* = √(a*² + b*²); 0 for a neutral. Source: ISO/CIE 11664-4:2019, clause 4.2. */
export function chroma(a: number, b: number): number {
  return Math.hypot(a, b);
}
