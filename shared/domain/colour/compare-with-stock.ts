import { changeOf, greyShifted } from './cast-axes.ts';
import type { GreyChange, Shift } from './cast-axes.ts';
import { credibleDirection } from './cast-roll.ts';
import type { Leaning, RollCast } from './cast-roll.ts';
import type { GreyRatio } from './grey.ts';
import { crossoverBetween } from './crossover.ts';
import type { Crossover } from './crossover.ts';
import { median, robustDeviation } from '../statistics/order.ts';
import { biweightInfluence, biweightLocation } from '../statistics/robust-location.ts';
import { serialInflation } from '../statistics/serial-inflation.ts';

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

/** Rolls needed beside the one in question. Our choice: a median of two is no measure. */
const LEAST_ROLLS = 3;

/** Rolls of one stock differ by this much though nothing is wrong (scanning, subjects). Our choice, from free pictures. */
const ROLL_DRIFT: Shift = { across: 0.012, along: 0.03 };

/** Findings by chance among rolls with nothing wrong. Our choice; measured below 2 in 100 on free pictures. */
const CHANCE = 0.015;

/** Smaller shifts are not worth a word. Our choice: about twice a difference just seen side by side. */
const LEAST_DELTA_E = 2;

/** Scatter of frames is never believed smaller: a handful can agree by chance. Our choice, from free pictures. */
const LEAST_SCATTER: Shift = { across: 0.03, along: 0.08 };

/** A frame this many robust deviations from the middle has no say: its own light, not the roll's. Our choice. */
const REACH = 3;

/** What the frames foretell of a roll's scatter weighs as much as this many rolls. Our choice. */
const FORETOLD_ROLLS = 10;

/**
 * The roll against the other rolls of its stock (itself left out): against those in date and on temperature where at
 * least three are known to be, else against all. Null with fewer than three others: not enough rolls to say.
 *
 * The usual is the biweight middle of all frames of the others, the roll's own that of its frames. How far two such
 * middles part by chance is foretold from the scatter of frames, with frames in a row under one light counted as
 * fewer (`serialInflation`), and raised where the other rolls scatter more than that. One test covers both
 * axes: q = Σ shift² / variance, with a chance of (1 + q/ν)^(−ν/2), the F distribution of 2 and ν degrees.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.6.4 (F for 2 and ν degrees of freedom).
 */
export function compareWithStock(roll: string, rolls: readonly StockRoll[]): Comparison | null {
  const own = rolls.find((one) => one.roll === roll);
  const others = rolls.filter((one) => one.roll !== roll);
  const good = others.filter((one) => one.inDate === true && one.onTemperature === true);
  const isGood = good.length >= LEAST_ROLLS;
  const measure = isGood ? good : others;
  if (own === undefined || measure.length < LEAST_ROLLS) return null;
  const rows = measure.map((one) => one.cast.leanings);
  const across = lookAlong('across', own.cast.leanings, rows);
  const along = lookAlong('along', own.cast.leanings, rows);
  const usual = greyShifted({ u: 0, v: 0 }, { across: across.usual, along: along.usual });
  const shift = { across: across.shift, along: along.shift };
  const change = changeOf(greyShifted(usual, shift), usual);
  const freedom = Math.min(across.freedom, along.freedom);
  const q = (across.shift / across.deviation) ** 2 + (along.shift / along.deviation) ** 2;
  const p = (1 + q / freedom) ** (-freedom / 2);
  return {
    ...change,
    direction: credibleDirection(usual, shift, { across: across.deviation, along: along.deviation }),
    rolls: measure.length,
    measure: isGood ? 'good-rolls' : 'all-rolls',
    p,
    stands: p <= CHANCE && change.deltaE00 >= LEAST_DELTA_E,
    crossover: crossoverAgainst(own.cast, measure),
    liftedBlackL: own.cast.blackL - median(measure.map((one) => one.cast.blackL)),
  };
}

type Look = {
  readonly usual: number;
  readonly shift: number;
  readonly deviation: number;
  readonly freedom: number;
};

/** One axis: where the others lie, how far the roll is from there, and how far it might be by chance. */
function lookAlong(axis: keyof Shift, own: readonly Leaning[], rows: readonly (readonly Leaning[])[]): Look {
  const all = rows.flat();
  const values = (frames: readonly Leaning[]) => frames.map((frame) => frame[axis]);
  const weights = (frames: readonly Leaning[]) => frames.map((frame) => frame.weight);
  const reach = REACH * Math.max(LEAST_SCATTER[axis], robustDeviation(values(all)));
  const middle = (frames: readonly Leaning[]) => biweightLocation(values(frames), weights(frames), reach);
  const usual = middle(all);
  const { pulls, stiffness } = biweightInfluence(values(all), weights(all), usual, reach);
  const meanWeight = weights(all).reduce((sum, weight) => sum + weight, 0) / all.length;
  // Two heaps of frames can make the middle seem slack: it is never believed slacker than a fifth of a mean's.
  const held = Math.max(stiffness, LEAST_STIFFNESS * meanWeight);
  const ofFrame = pulls.reduce((sum, pull) => sum + pull * pull, 0) / pulls.length / held ** 2;
  const inflation = serialInflation(cutLike(pulls, rows), own.length);
  const foretold = (ofFrame * inflation) / own.length;
  const seen = rows.reduce((sum, row) => sum + (middle(row) - usual) ** 2, 0) / (rows.length - 1);
  const joined = (FORETOLD_ROLLS * foretold + (rows.length - 1) * seen) / (FORETOLD_ROLLS + rows.length - 1);
  const variance = Math.max(foretold, joined) * (1 + 1 / rows.length) + ROLL_DRIFT[axis] ** 2;
  return {
    usual,
    shift: middle(own) - usual,
    deviation: Math.sqrt(variance),
    freedom: freedomOf(own.length / inflation),
  };
}

const LEAST_STIFFNESS = 0.2;

/** Bounds of the degrees of freedom of a comparison. Our choice, measured on free pictures. */
const FREEDOM = { least: 2, most: 20 };

/** A roll of few lights is as uncertain as a few values: degrees of freedom from the lights it has seen. */
function freedomOf(lights: number): number {
  return Math.min(FREEDOM.most, Math.max(FREEDOM.least, 2 * lights - 1));
}

/** The list cut into rows as long as the given ones. */
function cutLike(list: readonly number[], rows: readonly (readonly unknown[])[]): number[][] {
  let start = 0;
  return rows.map((row) => {
    const cut = list.slice(start, start + row.length);
    start += row.length;
    return cut;
  });
}

function crossoverAgainst(own: RollCast, measure: readonly StockRoll[]): Crossover | null {
  const usual = measure.flatMap((one) => (one.cast.tonal === null ? [] : [one.cast.tonal]));
  if (own.tonal === null || usual.length < LEAST_ROLLS) return null;
  const middle = (of: 'shadows' | 'highlights'): GreyRatio => ({
    u: median(usual.map((tonal) => tonal[of].u)),
    v: median(usual.map((tonal) => tonal[of].v)),
  });
  return crossoverBetween(own.tonal, { shadows: middle('shadows'), highlights: middle('highlights') });
}
