import { z } from 'zod';
import { LOG_KINDS, LOG_NUMBERS, MEASURES } from '../../domain/colour/logged-roll.ts';
import { method } from '../method.ts';
import { id, named, processKind } from '../values.ts';

const measured = z.number().nullable();
const kind = z.string().nullable();

/** One roll: its cast and fog against its stock, and what the log knows of it. */
const plotted = z.strictObject({
  id,
  name: z.string(),
  stock: z.string().nullable(),
  process: processKind.nullable(),
  development: named.nullable(),
  /** CIE a* and b* of a middle grey, as measured. */
  a: measured,
  b: measured,
  /** Against the other rolls of the stock: green (−) to magenta (+), blue (−) to yellow (+), in all. */
  deltaA: measured,
  deltaB: measured,
  deltaE00: measured,
  /** Density of the base over that of the stock's other rolls. */
  fog: measured,
  /** Whether its cast stands out from its stock. */
  stands: z.boolean(),
  temperatureErrorC: measured,
  /** Developer time, as much as it was worth at the temperature meant. */
  effectiveSeconds: measured,
  /** Film through the developer before, in rolls of 80 sq in. */
  bathRolls: measured,
  monthsPastExpiry: measured,
  /** Months past expiry out of fridge and freezer. */
  warmMonths: measured,
  storage: kind,
  camera: kind,
  scanner: kind,
});
export type PlottedRoll = z.output<typeof plotted>;

const trend = z.strictObject({
  of: z.enum(MEASURES),
  against: z.enum(LOG_NUMBERS),
  /** Rolls (or developments) of which both are known, and of which only the measure is. */
  count: z.number().int(),
  unknown: z.number().int(),
  slope: measured,
  slopeLow: measured,
  slopeHigh: measured,
  intercept: measured,
  correlation: measured,
  correlationLow: measured,
  correlationHigh: measured,
  chance: measured,
  /** The chance corrected after Holm for all `questions` of the answer. */
  corrected: measured,
  questions: z.number().int(),
  /** Rolls (or developments) that lie far from the line. */
  outliers: z.array(named),
  say: z.string(),
});
export type Trend = z.output<typeof trend>;

const groups = z.strictObject({
  of: z.enum(MEASURES),
  by: z.enum(LOG_KINDS),
  count: z.number().int(),
  unknown: z.number().int(),
  groups: z.array(z.strictObject({ value: z.string(), count: z.number().int(), median: z.number() })),
  chance: measured,
  corrected: measured,
  method: z.enum(['exact', 'approximate', 'shuffled']).nullable(),
  questions: z.number().int(),
  outliers: z.array(named),
  say: z.string(),
});
export type Groups = z.output<typeof groups>;

const faultFinding = z.strictObject({
  fault: z.string(),
  factor: z.string(),
  value: z.string(),
  faultsThere: z.number().int(),
  rollsThere: z.number().int(),
  faults: z.number().int(),
  rolls: z.number().int(),
  unknown: z.number().int(),
  chance: z.number(),
  corrected: z.number(),
  comparisons: z.number().int(),
  stands: z.boolean(),
  enough: z.boolean(),
  /** The rolls with the fault there. */
  there: z.array(named),
  say: z.string(),
});

const causes = z.strictObject({
  rolls: z.array(plotted),
  trends: z.array(trend),
  groups: z.array(groups),
  faults: z.array(faultFinding),
});
export type Causes = z.output<typeof causes>;

/** What casts, fog and faults have in common with what the log knows. */
export const CAUSES_METHODS = {
  'colour.causes': method(
    z.strictObject({
      /** Only faults whose name holds these words. */
      fault: z.string().trim().min(1).max(200).nullable().default(null),
      stockId: id.nullable().default(null),
      /** What is counted once: each roll, or all rolls of a development together. */
      per: z.enum(['roll', 'development']).default('roll'),
    }),
    causes,
  ),
} as const;
