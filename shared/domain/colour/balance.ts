import type { Triple } from './cie-lab.ts';
import { netDensity } from './film-base.ts';
import type { FilmBase } from './film-base.ts';
import { evenTones, findNeutral } from './neutral.ts';
import type { Neutral } from './neutral.ts';
import { blockMeans } from './picture.ts';
import type { Light } from './picture.ts';
import { median, quantile, weightedMedian } from '../statistics/order.ts';
import { robustSlope } from '../statistics/robust-slope.ts';

/** How the three layers of a negative turn into balanced light: density per tenfold exposure, and a gain after. */
export type Balance = { readonly slope: Triple; readonly gain: Triple };

/**
 * Slope of colour negative film. Source: ARRI DI Companion, "negative curve": about 0.6, one stop adds 0.18 D
 * (http://dicomp.arri.de/digital/digital_systems/DIcompanion/negcurve.html).
 */
export const USUAL_SLOPE = 0.6;

/**
 * Contrast HD − LD of the layers in a worked control strip: red 1.30 − 0.44, green 1.77 − 0.76, blue 2.03 − 0.98
 * (printed there rounded to 1.05). Source: http://chemistry.hitechemall.com/support/qualitycontrol/cntrlstrpflm.htm
 */
const STRIP_CONTRAST: Triple = [1.3 - 0.44, 1.77 - 0.76, 2.03 - 0.98];
const MEAN_CONTRAST = (STRIP_CONTRAST[0] + STRIP_CONTRAST[1] + STRIP_CONTRAST[2]) / 3;

/** The balance taken while a roll says nothing: the usual slope, shared out as in the control strip, no gain. */
export const USUAL_BALANCE: Balance = {
  slope: [
    (USUAL_SLOPE * STRIP_CONTRAST[0]) / MEAN_CONTRAST,
    (USUAL_SLOPE * STRIP_CONTRAST[1]) / MEAN_CONTRAST,
    (USUAL_SLOPE * STRIP_CONTRAST[2]) / MEAN_CONTRAST,
  ],
  gain: [1, 1, 1],
};

/** A layer's slope is believed this far off the usual one. Our choice: twice the published tolerance of spread. */
const SLOPE_REACH = 0.25;

/** Near neutral: channels of a sample within this of each other (natural logarithm). Our choice. */
const NEAR_NEUTRAL = 0.3;

/** Light of up to 24 × 24 blocks of a frame: what is kept of it to balance its roll. */
export function samplesOfFrame(light: Light): Triple[] {
  const blocks = blockMeans(light, 24);
  return Array.from(blocks.red, (red, at): Triple => [red, blocks.green[at] ?? 0, blocks.blue[at] ?? 0]);
}

/**
 * How round the toe is taken to be, in log10 exposure. Our choice: the toe of a characteristic curve passes into its
 * straight part over about half a unit.
 */
const TOE = 0.25;

/**
 * Relative scene light behind a net density: the inverse of D = slope · TOE · ln(1 + e^(x / TOE)), x = log10 light, a
 * straight line with a soft toe. The clear base gives black; straight-line film gives back light up to a gain.
 */
export function sceneLight(density: number, slope: number): number {
  return 10 ** (TOE * Math.log(Math.max(Math.expm1(density / (slope * TOE)), 1e-12)));
}

/** Balanced scene light of scanned light through a negative. */
export function balancedLight(light: Triple, base: FilmBase, balance: Balance): Triple {
  const one = (channel: 0 | 1 | 2) =>
    balance.gain[channel] *
    sceneLight(netDensity(light[channel], base.light[channel]), balance.slope[channel]);
  return [one(0), one(1), one(2)];
}

/** Densities this close to the base say nothing about colour. Our choice. */
const LEAST_DENSITY = 0.06;

/** Fewer samples than this above the base give no balance of their own. Our choice. */
const LEAST_SAMPLES = 60;

/**
 * The balance of a roll from the samples of its frames: red and blue density against green along what is near
 * neutral give the slopes, the middle grey of the frames gives the gains. With fewer than 60 usable samples the
 * usual balance is given back. This hides an error of the whole roll from the eye; to measure one, render with the
 * stock's balance instead.
 */
export function balanceOfRoll(frames: readonly (readonly Triple[])[], base: FilmBase): Balance {
  const densities = densitiesOf(frames, base);
  if (densities.flat().length < LEAST_SAMPLES) return USUAL_BALANCE;
  let balance = withGains(densities, USUAL_BALANCE.slope);
  for (let round = 0; round < 2; round += 1) balance = refine(densities, balance);
  return balance;
}

/**
 * The gains of a roll under the usual slopes: what to measure casts under, since rolls measured under slopes of their
 * own could not be held against each other. With fewer than 60 usable samples the usual balance is given back.
 */
export function plainBalanceOfRoll(frames: readonly (readonly Triple[])[], base: FilmBase): Balance {
  const densities = densitiesOf(frames, base);
  return densities.flat().length < LEAST_SAMPLES ? USUAL_BALANCE : withGains(densities, USUAL_BALANCE.slope);
}

/** The net densities of what lies above the base, frame by frame. */
function densitiesOf(frames: readonly (readonly Triple[])[], base: FilmBase): Triple[][] {
  return frames
    .map((samples) =>
      samples
        .map((light): Triple => [
          netDensity(light[0], base.light[0]),
          netDensity(light[1], base.light[1]),
          netDensity(light[2], base.light[2]),
        ])
        .filter((density) => Math.min(...density) > LEAST_DENSITY),
    )
    .filter((list) => list.length > 0);
}

/** The middle balance of several rolls: a stock's own; null for none. */
export function balanceOfStock(rolls: readonly Balance[]): Balance | null {
  if (rolls.length === 0) return null;
  const slope = (channel: 0 | 1 | 2) => median(rolls.map((roll) => roll.slope[channel]));
  const gain = (channel: 0 | 1 | 2) => Math.exp(median(rolls.map((roll) => Math.log(roll.gain[channel]))));
  return { slope: [slope(0), slope(1), slope(2)], gain: [gain(0), gain(1), gain(2)] };
}

/** The search for greys across a roll. Our choice: wide, as the gain of a stock is not known beforehand. */
const ROLL_SEARCH = { wide: 0.6, narrow: 0.2, reach: 0.45 };

/** A slope measured on pictures is taken half way from the usual: scenes mimic as much as layers differ. Our choice. */
const SLOPE_TRUST = 0.5;

function logLight(density: Triple, balance: Balance, channel: 0 | 1 | 2): number {
  return Math.log(balance.gain[channel] * sceneLight(density[channel], balance.slope[channel]));
}

/** Gains that bring the greys of the roll to equal light under the given slopes: the middle of its frames. */
function withGains(frames: readonly (readonly Triple[])[], slope: Triple): Balance {
  const plain: Balance = { slope, gain: [1, 1, 1] };
  const greys = frames.flatMap((densities) => {
    const greens = densities.map((density) => logLight(density, plain, 1));
    const weights = evenTones(greens, quantile(greens, 0.02), quantile(greens, 0.98));
    const points = densities.map((density, at) => ({
      u: logLight(density, plain, 0) - (greens[at] ?? 0),
      v: logLight(density, plain, 2) - (greens[at] ?? 0),
      weight: weights[at] ?? 0,
    }));
    return findNeutral(points, ROLL_SEARCH) ?? [];
  });
  if (greys.length === 0) return plain;
  const middle = (of: (grey: Neutral) => number) =>
    weightedMedian(
      greys.map(of),
      greys.map((grey) => grey.share),
    );
  return { slope, gain: [Math.exp(-middle((grey) => grey.u)), 1, Math.exp(-middle((grey) => grey.v))] };
}

function refine(densities: readonly (readonly Triple[])[], balance: Balance): Balance {
  const neutral = densities.flat().filter((density) => {
    const green = logLight(density, balance, 1);
    return (
      Math.abs(logLight(density, balance, 0) - green) < NEAR_NEUTRAL &&
      Math.abs(logLight(density, balance, 2) - green) < NEAR_NEUTRAL
    );
  });
  if (neutral.length < LEAST_SAMPLES) return balance;
  return withGains(densities, [
    slopeOfChannel(neutral, balance, 0),
    balance.slope[1],
    slopeOfChannel(neutral, balance, 2),
  ]);
}

/** The slope of one channel, from its density against green over equal steps of green density. */
function slopeOfChannel(neutral: readonly Triple[], balance: Balance, channel: 0 | 2): number {
  const greens = neutral.map((density) => density[1]);
  const low = quantile(greens, 0.02);
  const high = quantile(greens, 0.98);
  const steps = 10;
  const x: number[] = [];
  const y: number[] = [];
  for (let step = 0; step < steps; step += 1) {
    const from = low + ((high - low) * step) / steps;
    const here = neutral.filter((density) => density[1] >= from && density[1] < from + (high - low) / steps);
    if (here.length < 5) continue;
    x.push(median(here.map((density) => density[1])));
    y.push(median(here.map((density) => density[channel])));
  }
  const line = x.length < 4 ? null : robustSlope(x, y);
  const usual = USUAL_BALANCE.slope[channel];
  if (line === null || line.slope <= 0) return usual;
  const measured = usual * ((balance.slope[1] * line.slope) / usual) ** SLOPE_TRUST;
  return Math.min(usual * (1 + SLOPE_REACH), Math.max(usual * (1 - SLOPE_REACH), measured));
}
