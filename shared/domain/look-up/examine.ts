import { align, makeTemplate, type Template } from './align.ts';
import { compareBlocks, type Likeness } from './compare.ts';
import { DESCRIBED_LONG_SIDE, fitLuma, type Luma } from './luma.ts';
import { compose, scaling, slopeAt, type Matrix } from './matrix.ts';
import { neighbourhoodOf, normaliseLocally } from './normalise.ts';

interface Scale {
  readonly longSide: number;
  readonly iterations: number;
  /** A comparison below this at this scale ends the examination. Our choice (measured). */
  readonly leastCorrelation: number;
}

const SCALES: readonly Scale[] = [
  { longSide: 128, iterations: 18, leastCorrelation: 0.3 },
  { longSide: 256, iterations: 12, leastCorrelation: -1 },
];

/** A picture that is looked for, ready to be laid over frames. */
export interface Prepared {
  readonly scales: readonly (Scale & { readonly luma: Luma; readonly template: Template })[];
}

/** What laying a picture over a frame showed. */
export interface Examined {
  /** Fractions of the picture to fractions of the frame. */
  readonly matrix: Matrix;
  readonly likeness: Likeness;
}

/** Prepares a stretched picture. */
export function preparePicture(luma: Luma): Prepared {
  return {
    scales: SCALES.map((scale) => {
      const fitted = fitLuma(luma, scale.longSide);
      const normalised = normaliseLocally(fitted, neighbourhoodOf(scale.longSide));
      return { ...scale, luma: fitted, template: makeTemplate(normalised) };
    }),
  };
}

/**
 * Lays the picture over `frame` (a stretched preview), first roughly, then finely, from `start` on (fractions of
 * the picture to fractions of the frame). Null where they do not come together.
 */
export function examine(picture: Prepared, frame: Luma, start: Matrix, negative: boolean): Examined | null {
  const sign = negative ? -1 : 1;
  let matrix = start;
  let likeness: Likeness | null = null;
  for (const { longSide, iterations, leastCorrelation, luma, template } of picture.scales) {
    // The frame is brought to the picture's own scale, so that both show the same detail.
    const [a, b, c, d] = slopeAt(matrix, 0.5, 0.5);
    const area = Math.abs(a * d - b * c);
    if (!(area > 1e-4 && area < 100)) return null;
    const ratio = Math.sqrt((luma.width * luma.height) / area / (frame.width * frame.height));
    const side = Math.max(frame.width, frame.height) * ratio;
    const fitted = fitLuma(frame, Math.round(Math.min(DESCRIBED_LONG_SIDE, Math.max(24, side))));
    const normalised = normaliseLocally(fitted, neighbourhoodOf(longSide));
    const toFractions = compose(scaling(1 / luma.width, 1 / luma.height), HALF_ON);
    const toPixels = compose(HALF_BACK, scaling(fitted.width, fitted.height));
    const before = compose(toPixels, compose(matrix, toFractions));
    const after = align(template, normalised, before, sign, iterations);
    if (after === null) return null;
    likeness = compareBlocks(luma, fitted, after, sign);
    if (likeness.correlation < leastCorrelation) return null;
    const fromFractions = compose(HALF_BACK, scaling(luma.width, luma.height));
    const fromPixels = compose(scaling(1 / fitted.width, 1 / fitted.height), HALF_ON);
    matrix = compose(fromPixels, compose(after, fromFractions));
  }
  return likeness === null ? null : { matrix, likeness };
}

/** Pixel (0, 0) has its middle at (½, ½) of the picture. */
const HALF_ON: Matrix = [1, 0, 0.5, 0, 1, 0.5, 0, 0, 1];
const HALF_BACK: Matrix = [1, 0, -0.5, 0, 1, -0.5, 0, 0, 1];
