import { z } from 'zod';
import { method } from '../method.ts';
import { diskPath, id } from '../values.ts';

const measured = z.number().nullable();

const channelFactor = z
  .number()
  .min(1 / 8)
  .max(8);

/** What the user set for a roll or a frame: stops lighter, slope about middle grey, factors of the channels. */
export const adjust = z.strictObject({
  brightnessStops: z.number().min(-4).max(4),
  contrast: z.number().min(0.5).max(2),
  grey: z.tuple([channelFactor, channelFactor, channelFactor]).readonly(),
});

/** What one frame says about a cast: a* and b* of a middle grey under it, and how sure that is. */
const frameCast = z.strictObject({
  frameId: id,
  label: z.string(),
  a: measured,
  b: measured,
  confidence: z.number(),
  note: z.string(),
  /** Whether it lies apart from the other frames of its roll. */
  outlier: z.boolean(),
  /** How its scan looks by itself: what speaks for a negative (above 0) or against it, natural logarithms of odds. */
  reads: z.strictObject({
    blank: z.boolean(),
    colour: z.enum(['colour', 'monochrome', 'toned']),
    maskOdds: z.number(),
    exchangedOdds: z.number(),
  }),
});

const against = z.strictObject({
  rolls: z.number().int(),
  deltaA: z.number(),
  deltaB: z.number(),
  deltaE00: z.number(),
  direction: z.string(),
  stands: z.boolean(),
  chance: z.number(),
});

const rollCast = z.strictObject({
  a: measured,
  b: measured,
  spread: measured,
  frames: z.number().int(),
  against: against.nullable(),
  crossover: z.strictObject({ shadows: z.string(), highlights: z.string(), deltaE00: z.number() }).nullable(),
  say: z.string(),
});

/** How the scans of a roll are meant. */
const rollKind = z.strictObject({
  polarity: z.enum(['positive', 'negative', 'unknown']),
  colour: z.enum(['colour', 'monochrome', 'toned', 'unknown']),
  confidence: z.number(),
});

/** Film base with its fog: densities as scanned, and over the other rolls of the stock. */
const filmBase = z.strictObject({
  red: z.number(),
  green: z.number(),
  blue: z.number(),
  from: z.enum(['rebate', 'frames']),
  frames: z.number().int(),
  confidence: z.number(),
  against: z
    .strictObject({
      rolls: z.number().int(),
      red: z.number(),
      green: z.number(),
      blue: z.number(),
      visual: z.number(),
    })
    .nullable(),
  say: z.string(),
});

const castOfRoll = z.strictObject({
  kind: rollKind,
  frames: z.array(frameCast),
  roll: rollCast,
  /** Null for positives. */
  base: filmBase.nullable(),
});
export type CastOfRoll = z.output<typeof castOfRoll>;

/** One roll in a plot: its cast and what the log knows of it. */
const plotted = z.strictObject({
  rollId: id,
  roll: z.string(),
  stock: z.string().nullable(),
  a: measured,
  b: measured,
  /** Green (−) to magenta (+), and blue (−) to yellow (+): a* and b*. */
  temperatureErrorC: measured,
  monthsPastExpiry: measured,
  bathUsedCm2: measured,
  developerSeconds: measured,
  camera: z.string().nullable(),
  bath: z.string().nullable(),
});
export type PlottedRoll = z.output<typeof plotted>;

const trend = z.strictObject({
  of: z.enum(['a', 'b']),
  against: z.enum(['temperatureErrorC', 'monthsPastExpiry', 'bathUsedCm2', 'developerSeconds']),
  rolls: z.number().int(),
  slope: measured,
  slopeLow: measured,
  slopeHigh: measured,
  correlation: measured,
  correlationLow: measured,
  correlationHigh: measured,
  chance: measured,
  say: z.string(),
});
export type Trend = z.output<typeof trend>;

const faultFinding = z.strictObject({
  fault: z.string(),
  factor: z.string(),
  value: z.string(),
  faultsThere: z.number().int(),
  rollsThere: z.number().int(),
  faults: z.number().int(),
  rolls: z.number().int(),
  chance: z.number(),
  comparisons: z.number().int(),
  stands: z.boolean(),
  say: z.string(),
});

/** Casts, what goes with them, and negatives as positives. */
export const COLOUR_METHODS = {
  'colour.ofRoll': method(z.strictObject({ rollId: id }), castOfRoll),
  'colour.ofImage': method(
    z.strictObject({ file: diskPath }),
    z.strictObject({
      a: measured,
      b: measured,
      direction: z.string().nullable(),
      confidence: z.number(),
      note: z.string(),
    }),
  ),
  'colour.ofStock': method(
    z.strictObject({ stockId: id }),
    z.strictObject({ rolls: z.array(z.strictObject({ rollId: id, roll: z.string(), cast: rollCast })) }),
  ),
  'colour.causes': method(
    z.strictObject({
      fault: z.string().max(200).nullable().default(null),
      stockId: id.nullable().default(null),
    }),
    z.strictObject({ rolls: z.array(plotted), trends: z.array(trend), faults: z.array(faultFinding) }),
  ),
} as const;
