import { changeOf, directionOf, greyShifted, shiftOf } from './cast-axes.ts';
import type { Direction, GreyChange, Shift } from './cast-axes.ts';
import { labOfGrey } from './cast-frame.ts';
import type { FrameCast, GreyRatio } from './cast-frame.ts';
import { studentTwoSided } from '../statistics/distributions.ts';
import { median, pairwiseMedian, robustDeviation } from '../statistics/order.ts';

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
  /** Places (in the list given) of frames that lie apart from the rest: their own light, not the roll's. */
  readonly outliers: readonly number[];
};

/** Frames with less confidence than this do not count at all. Our choice. */
const LEAST_CONFIDENCE = 0.2;

/** With fewer frames a roll is not spoken for. Our choice. */
const LEAST_FRAMES = 4;

/** Scatter is never believed smaller than this: four frames can agree by chance. Our choice, from free pictures. */
const LEAST_SPREAD: Shift = { across: 0.06, along: 0.12 };

/**
 * The standard error of a median against that of a mean, √(π/2), for normally spread values.
 * Source: Kendall & Stuart, The Advanced Theory of Statistics 1, 14.5 (large samples).
 */
const MEDIAN_ERROR = Math.sqrt(Math.PI / 2);

/** The same for the median of pairs, √(π/3). Source: Hodges & Lehmann (1963), efficiency 3/π. */
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

/** A roll of the stock with what decides whether it serves as a measure for the others. */
export type StockRoll = {
  readonly roll: string;
  readonly cast: RollCast;
  /** Developed before its expiry, and its developer within tolerance; null where the log does not say. */
  readonly inDate: boolean | null;
  readonly onTemperature: boolean | null;
};

/** A roll against the others of its stock. */
export type Comparison = GreyChange & {
  /** Other rolls it was held against, and whether these were only the ones in date and on temperature. */
  readonly rolls: number;
  readonly measure: 'good-rolls' | 'all-rolls';
  /** The chance of a shift at least this large between rolls with nothing wrong. */
  readonly p: number;
  /** True where the shift is both unlikely to be chance and large enough to see. */
  readonly stands: boolean;
  readonly crossover: Crossover | null;
  /** L* by which blacks are lifted against the stock's usual. */
  readonly liftedBlackL: number;
};

/** Shadows and highlights that lean apart, beyond what the stock usually shows. */
export type Crossover = {
  readonly shadows: Direction;
  readonly highlights: Direction;
  /** ΔE00 between the two leanings at middle grey. */
  readonly deltaE00: number;
  readonly stands: boolean;
};

/** Rolls needed beside the one in question. Our choice: a median of two is no measure. */
const LEAST_ROLLS = 3;

/** Rolls of one stock differ by this much though nothing is wrong (scanning, subjects). Our choice, from free pictures. */
const ROLL_DRIFT: Shift = { across: 0.012, along: 0.06 };

/** Findings by chance among rolls with nothing wrong: 1 in 100, measured as 2 in 100 at most on free pictures. Our choice. */
const CHANCE = 0.01;

/** Smaller shifts are not worth a word. Our choice: about twice a difference just seen side by side. */
const LEAST_DELTA_E = 2;

/** Leanings apart by less are usual: shade is bluer than sun. Our choice. */
const LEAST_CROSSOVER_E = 5;

/** Logarithmic ratio by which shadows and highlights must part beyond the stock's usual. Our choice. */
const LEAST_CROSSOVER = 0.2;

/**
 * The roll against the other rolls of its stock (itself left out): against those in date and on temperature where at
 * least three are known to be, else against all. Null with fewer than three others: not enough rolls to say.
 */
export function compareWithStock(roll: string, rolls: readonly StockRoll[]): Comparison | null {
  const own = rolls.find((one) => one.roll === roll);
  const others = rolls.filter((one) => one.roll !== roll);
  const good = others.filter((one) => one.inDate === true && one.onTemperature === true);
  const isGood = good.length >= LEAST_ROLLS;
  const measure = isGood ? good : others;
  if (own === undefined || measure.length < LEAST_ROLLS) return null;
  const usual: GreyRatio = {
    u: median(measure.map((one) => one.cast.grey.u)),
    v: median(measure.map((one) => one.cast.grey.v)),
  };
  const change = changeOf(own.cast.grey, usual);
  const shift = shiftOf(own.cast.grey, usual);
  const looks = (['across', 'along'] as const).map((axis) => {
    const scatter = scatterOf(
      measure.map((one) => shiftOf(one.cast.grey, usual)[axis]),
      own.cast.error[axis],
    );
    const deviation = Math.hypot(
      scatter.deviation * Math.sqrt(1 + MEDIAN_ERROR ** 2 / measure.length),
      ROLL_DRIFT[axis],
    );
    return { axis, deviation, chance: studentTwoSided(shift[axis] / deviation, scatter.freedom) };
  });
  // Two looks, so twice the lesser chance (Bonferroni); across is tight where along is loose.
  const p = Math.min(1, 2 * Math.min(...looks.map((look) => look.chance)));
  const [across, along] = looks;
  return {
    ...change,
    direction: credibleDirection(usual, shift, {
      across: across?.deviation ?? 0,
      along: along?.deviation ?? 0,
    }),
    rolls: measure.length,
    measure: isGood ? 'good-rolls' : 'all-rolls',
    p,
    stands: p <= CHANCE && change.deltaE00 >= LEAST_DELTA_E,
    crossover: crossoverAgainst(own.cast, measure),
    liftedBlackL: own.cast.blackL - median(measure.map((one) => one.cast.blackL)),
  };
}

/** A part of a shift that is not this many deviations large is left out when the shift is named. Our choice. */
const CREDIBLE = 2;

/** The name of a shift by its credible parts; by all of it where neither is. */
function credibleDirection(usual: GreyRatio, shift: Shift, deviation: Shift): Direction {
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

/** What a roll's own frames say of its error weighs as much as this many rolls. Our choice. */
const OWN_ROLLS = 3;

/** A robust deviation is worth this share of its count. Source: efficiency of the MAD, 37 % (Rousseeuw & Croux 1993). */
const ROBUST_WORTH = 0.37;

/** How rolls of the stock scatter with nothing wrong: what the others show, joined with what the frames foretell. */
function scatterOf(others: readonly number[], foretold: number): { deviation: number; freedom: number } {
  const seen = ROBUST_WORTH * (others.length - 1);
  const freedom = seen + OWN_ROLLS;
  const variance = (seen * robustDeviation(others) ** 2 + OWN_ROLLS * foretold ** 2) / freedom;
  // The foretold error comes from a dozen frames and more, so the whole is steadier than three rolls alone.
  return { deviation: Math.sqrt(variance), freedom: freedom + FRAMES_FREEDOM };
}

/** Degrees of freedom that the frames behind the foretold error add. Our choice: a roll of a dozen at least. */
const FRAMES_FREEDOM = 8;

function crossoverAgainst(own: RollCast, measure: readonly StockRoll[]): Crossover | null {
  const usual = measure.flatMap((one) => (one.cast.tonal === null ? [] : [one.cast.tonal]));
  if (own.tonal === null || usual.length < LEAST_ROLLS) return null;
  const middle = (of: 'shadows' | 'highlights'): GreyRatio => ({
    u: median(usual.map((tonal) => tonal[of].u)),
    v: median(usual.map((tonal) => tonal[of].v)),
  });
  return crossoverBetween(own.tonal, { shadows: middle('shadows'), highlights: middle('highlights') });
}

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
