import { linearToLab } from './cie-lab.ts';
import { luminance } from './picture.ts';

/** Ratios of light in greys, natural logarithms: u of red to green, v of blue to green; 0, 0 for no cast. */
export type GreyRatio = { readonly u: number; readonly v: number };

/** a* and b* of a middle grey (18 % luminance) under the given ratios. */
export function labOfGrey({ u, v }: GreyRatio): { a: number; b: number } {
  const scale = 0.18 / luminance(Math.exp(u), 1, Math.exp(v));
  const { a, b } = linearToLab([Math.exp(u) * scale, scale, Math.exp(v) * scale]);
  return { a, b };
}
