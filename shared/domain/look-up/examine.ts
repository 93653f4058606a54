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

const COARSE: Scale = { longSide: 128, iterations: 18, leastCorrelation: 0.3 };
const FINE: Scale = { longSide: 256, iterations: 12, leastCorrelation: -1 };

/** A picture at one scale. */
interface Scaled extends Scale {
  readonly luma: Luma;
  readonly template: Template;
}

/** A picture that is looked for, ready to be laid over frames. */
export interface Prepared {
  readonly coarse: Scaled;
  readonly fine: Scaled;
}

/** What laying a picture over a frame showed. */
export interface Examined {
  /** Fractions of the picture to fractions of the frame. */
  readonly matrix: Matrix;
  readonly likeness: Likeness;
}

/** Prepares a stretched picture. */
export function preparePicture(luma: Luma): Prepared {
  const at = (scale: Scale): Scaled => {
    const fitted = fitLuma(luma, scale.longSide);
    const normalised = normaliseLocally(fitted, neighbourhoodOf(scale.longSide));
    return { ...scale, luma: fitted, template: makeTemplate(normalised) };
  };
  return { coarse: at(COARSE), fine: at(FINE) };
}

/**
 * Lays the picture over `frame` (a stretched preview; a small one will do) roughly, from `start` on (fractions of the
 * picture to fractions of the frame). Null where they do not come together: most wrong frames end here.
 */
export function layRoughly(
  picture: Prepared,
  frame: Luma,
  start: Matrix,
  negative: boolean,
): Examined | null {
  return lay(picture.coarse, frame, start, negative);
}

/** Lays the picture over `frame` (a stretched preview) finely, from where `layRoughly` left it. */
export function layFinely(picture: Prepared, frame: Luma, start: Matrix, negative: boolean): Examined | null {
  return lay(picture.fine, frame, start, negative);
}

function lay(
  { longSide, iterations, leastCorrelation, luma, template }: Scaled,
  frame: Luma,
  start: Matrix,
  negative: boolean,
): Examined | null {
  const sign = negative ? -1 : 1;
  // The frame is brought to the picture's own scale, so that both show the same detail.
  const [a, b, c, d] = slopeAt(start, 0.5, 0.5);
  const area = Math.abs(a * d - b * c);
  if (!(area > 1e-4 && area < 100)) return null;
  const ratio = Math.sqrt((luma.width * luma.height) / area / (frame.width * frame.height));
  const side = Math.max(frame.width, frame.height) * ratio;
  const fitted = fitLuma(frame, Math.round(Math.min(DESCRIBED_LONG_SIDE, Math.max(24, side))));
  const normalised = normaliseLocally(fitted, neighbourhoodOf(longSide));
  const toFractions = compose(scaling(1 / luma.width, 1 / luma.height), HALF_ON);
  const toPixels = compose(HALF_BACK, scaling(fitted.width, fitted.height));
  const before = compose(toPixels, compose(start, toFractions));
  const after = align(template, normalised, before, sign, iterations);
  if (after === null) return null;
  const likeness = compareBlocks(luma, fitted, after, sign);
  if (likeness.correlation < leastCorrelation) return null;
  const fromFractions = compose(HALF_BACK, scaling(luma.width, luma.height));
  const fromPixels = compose(scaling(1 / fitted.width, 1 / fitted.height), HALF_ON);
  return { matrix: compose(fromPixels, compose(after, fromFractions)), likeness };
}

/** Pixel (0, 0) has its middle at (½, ½) of the picture. */
const HALF_ON: Matrix = [1, 0, 0.5, 0, 1, 0.5, 0, 0, 1];
const HALF_BACK: Matrix = [1, 0, -0.5, 0, 1, -0.5, 0, 0, 1];
