import { changeOf, greyShifted, shiftOf } from './cast-axes.ts';
import type { Direction, GreyChange, Shift } from './cast-axes.ts';
import type { FrameCast } from './cast-frame.ts';
import { labOfGrey } from './grey.ts';
import type { GreyRatio } from './grey.ts';
import { median, pairwiseMedian, robustDeviation } from '../statistics/order.ts';

/** How one frame leans, with its say (its confidence). */
export type Leaning = Shift & { readonly weight: number };

/** The cast of a roll: the middle of its frames. */
export type RollCast = {
  /** Frames that had something to say. */
  readonly frames: number;
  readonly grey: GreyRatio;
  readonly a: number;
  readonly b: number;
  /** How far frames scatter about the middle, as a robust standard deviation. */
  readonly spread: Shift;
  /** How uncertain the middle is, as a standard error. */
  readonly error: Shift;
  /** 0..1: many frames that agree. */
  readonly confidence: number;
  /** Greys of highlights less those of shadows, middle of the frames that show both; null below 3 of them. */
  readonly tonal: {
    readonly shadows: GreyRatio;
    readonly highlights: GreyRatio;
    readonly frames: number;
  } | null;
  readonly blackL: number;
  readonly whiteL: number;
  /** The frames that had something to say, in their order on the roll. */
  readonly leanings: readonly Leaning[];
  /** Places (in the list given) of frames that lie apart from the rest: their own light, not the roll's. */
  readonly outliers: readonly number[];
};

/** Frames with less confidence than this do not count at all. Our choice. */
const LEAST_CONFIDENCE = 0.2;

/** With fewer frames a roll is not spoken for. Our choice. */
const LEAST_FRAMES = 4;

/** Scatter is never believed smaller than this: four frames can agree by chance. Our choice, from free pictures. */
const LEAST_SPREAD: Shift = { across: 0.06, along: 0.12 };

/** The standard error of the median of pairs against that of a mean, √(π/3). Source: Hodges & Lehmann (1963), efficiency 3/π. */
const PAIRWISE_ERROR = Math.sqrt(Math.PI / 3);

/** Robust deviations beyond which a frame is named. Source: Iglewicz & Hoaglin (1993), modified z score 3.5. */
const OUTLIER = 3.5;

/** The cast of a roll from its frames in order; null where fewer than four have something to say. */
export function castOfRoll(frames: readonly FrameCast[]): RollCast | null {
  const said = frames.flatMap((frame, place) =>
    frame.grey !== null && frame.confidence >= LEAST_CONFIDENCE
      ? [{ frame, place, grey: frame.grey, shift: shiftOf(frame.grey), weight: frame.confidence }]
      : [],
  );
  if (said.length < LEAST_FRAMES) return null;
  const weights = said.map((one) => one.weight);
  const middle = (of: (one: (typeof said)[number]) => number) => pairwiseMedian(said.map(of), weights);
  const across = middle((one) => one.shift.across);
  const along = middle((one) => one.shift.along);
  const grey: GreyRatio = { u: middle((one) => one.grey.u), v: middle((one) => one.grey.v) };
  const spread: Shift = {
    across: Math.max(LEAST_SPREAD.across, robustDeviation(said.map((one) => one.shift.across))),
    along: Math.max(LEAST_SPREAD.along, robustDeviation(said.map((one) => one.shift.along))),
  };
  const shrink = PAIRWISE_ERROR / Math.sqrt(effectiveCount(weights));
  const outliers = said
    .filter(
      (one) =>
        Math.abs(one.shift.across - across) > OUTLIER * spread.across ||
        Math.abs(one.shift.along - along) > OUTLIER * spread.along,
    )
    .map((one) => one.place);
  const meanWeight = weights.reduce((sum, weight) => sum + weight, 0) / weights.length;
  return {
    frames: said.length,
    grey,
    ...labOfGrey(grey),
    spread,
    error: { across: spread.across * shrink, along: spread.along * shrink },
    confidence: Math.min(0.98, (1 - Math.exp(-said.length / 8)) * Math.sqrt(meanWeight)),
    tonal: tonalOf(said.map((one) => one.frame)),
    blackL: median(said.map((one) => one.frame.blackL)),
    whiteL: median(said.map((one) => one.frame.whiteL)),
    leanings: said.map((one) => ({ ...one.shift, weight: one.weight })),
    outliers,
  };
}

/** Source: Kish, Survey Sampling (1965), 11.7: (Σw)² / Σw². */
function effectiveCount(weights: readonly number[]): number {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const squares = weights.reduce((total, weight) => total + weight * weight, 0);
  return (sum * sum) / squares;
}

function tonalOf(frames: readonly FrameCast[]): RollCast['tonal'] {
  const both = frames.flatMap(({ tones, grey }) =>
    tones === null || grey === null ? [] : [{ tones, grey }],
  );
  if (both.length < 3) return null;
  const middle = (of: (one: (typeof both)[number]) => GreyRatio): GreyRatio => ({
    u: median(both.map((one) => of(one).u)),
    v: median(both.map((one) => of(one).v)),
  });
  return {
    shadows: middle(({ tones }) => tones.shadows),
    highlights: middle(({ tones }) => tones.highlights),
    frames: both.length,
  };
}

/** A part of a shift that is not this many deviations large is left out when the shift is named. Our choice. */
const CREDIBLE = 2;

/** The name of a shift by its credible parts; by all of it where neither is. */
export function credibleDirection(usual: GreyRatio, shift: Shift, deviation: Shift): Direction {
  const isAcross = Math.abs(shift.across) >= CREDIBLE * deviation.across;
  const isAlong = Math.abs(shift.along) >= CREDIBLE * deviation.along;
  const shifted = greyShifted(usual, {
    across: isAcross || !isAlong ? shift.across : 0,
    along: isAlong || !isAcross ? shift.along : 0,
  });
  return changeOf(shifted, usual).direction;
}

/**
 * One roll against one other, for sessions side by side: how far apart they are, named by the parts that exceed what
 * the frames of both leave open.
 */
export function compareRolls(roll: RollCast, other: RollCast): GreyChange {
  const shift = shiftOf(roll.grey, other.grey);
  const direction = credibleDirection(other.grey, shift, {
    across: Math.hypot(roll.error.across, other.error.across),
    along: Math.hypot(roll.error.along, other.error.along),
  });
  return { ...changeOf(roll.grey, other.grey), direction };
}
