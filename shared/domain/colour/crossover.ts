import { changeOf, directionOf } from './cast-axes.ts';
import type { Direction } from './cast-axes.ts';
import { labOfGrey } from './grey.ts';
import type { GreyRatio } from './grey.ts';

/** Shadows and highlights that lean apart, beyond what the stock usually shows. */
export type Crossover = {
  readonly shadows: Direction;
  readonly highlights: Direction;
  /** ΔE00 between the two leanings at middle grey. */
  readonly deltaE00: number;
  readonly stands: boolean;
};

/** Leanings apart by less are usual: shade is bluer than sun. Our choice. */
const LEAST_CROSSOVER_E = 5;

/** Logarithmic ratio by which shadows and highlights must part beyond the stock's usual. Our choice. */
const LEAST_CROSSOVER = 0.2;

type Tonal = { readonly shadows: GreyRatio; readonly highlights: GreyRatio };

/** How shadows and highlights part, beyond how they part in `usual`. */
export function crossoverBetween(own: Tonal, usual: Tonal): Crossover {
  const shadows = { u: own.shadows.u - usual.shadows.u, v: own.shadows.v - usual.shadows.v };
  const highlights = { u: own.highlights.u - usual.highlights.u, v: own.highlights.v - usual.highlights.v };
  const half = { u: (shadows.u + highlights.u) / 2, v: (shadows.v + highlights.v) / 2 };
  const lean = (grey: GreyRatio) => {
    const { a, b } = labOfGrey({ u: grey.u - half.u, v: grey.v - half.v });
    return directionOf(a, b);
  };
  const { deltaE00 } = changeOf(highlights, shadows);
  const apart = Math.hypot(highlights.u - shadows.u, highlights.v - shadows.v);
  return {
    shadows: lean(shadows),
    highlights: lean(highlights),
    deltaE00,
    stands: apart >= LEAST_CROSSOVER && deltaE00 >= LEAST_CROSSOVER_E,
  };
}
