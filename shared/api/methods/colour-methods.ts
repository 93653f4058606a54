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

/** Casts, and negatives as positives. */
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
} as const;
