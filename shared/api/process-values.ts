import { z } from 'zod';
import type { Process } from '../domain/development/process.ts';

const line = z.string().trim().min(1).max(500);
const words = z.string().max(2000).nullable();

/** Where a number comes from. */
export const source = z.strictObject({
  kind: z.enum(['published', 'reported', 'rule of thumb', 'from memory', 'yours', 'arithmetic']),
  text: z.string().max(2000),
});

/** One line of a sum. */
export const workingLine = z.strictObject({
  label: z.string(),
  formula: z.string(),
  value: z.number(),
  unit: z.enum(['s', '°C', '1/min', 'ml', 'cm²', 'rolls', 'mg', 'g/l', 'days', '%', '']),
  source,
});
export const workingLines = z.array(workingLine).readonly();

/** What a step's bath is. */
export const bathKind = z.enum([
  'water',
  'prebath',
  'developer',
  'first_developer',
  'colour_developer',
  'stop',
  'reversal',
  'pre_bleach',
  'bleach',
  'fixer',
  'bleach_fix',
  'wetting_agent',
  'stabiliser',
  'final_rinse',
]);
export type BathKindValue = z.output<typeof bathKind>;

export const cautionKey = z.enum([
  'gloves',
  'eyes',
  'ventilation',
  'powders',
  'sensitising_developer',
  'bleach_fix_fumes',
  'stop_bath_fumes',
  'acid_into_water',
  'unknown_stabiliser',
  'hot_water',
  'children_and_food',
  'silver_waste',
]);

export const agitation = z.discriminatedUnion('scheme', [
  z.strictObject({ scheme: z.literal('none'), source }),
  z.strictObject({ scheme: z.literal('continuous'), source }),
  z.strictObject({
    scheme: z.literal('intermittent'),
    firstSeconds: z.number(),
    everySeconds: z.number(),
    forSeconds: z.number(),
    turns: z.number().int().positive().nullable(),
    source,
  }),
]);

/** Temperature of a step in °C; what is not known is null. */
export const stepTemperature = z.strictObject({
  aimC: z.number().nullable(),
  lowC: z.number().nullable(),
  highC: z.number().nullable(),
  source,
});

const timePoint = z.strictObject({ celsius: z.number(), seconds: z.number(), source });

const pushTable = z.strictObject({
  kind: z.enum(['seconds', 'factor']),
  rows: z
    .array(z.strictObject({ stops: z.number().min(-5).max(5), value: z.number() }))
    .max(40)
    .readonly(),
  source,
});

/** How a bath's time grows with the film that has been through it. */
export const extensionRule = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('percent'), percentPerRoll: z.number().min(0).max(100), source }),
  z.strictObject({
    kind: z.literal('steps'),
    rows: z
      .array(
        z.strictObject({
          fromRoll: z.number().int().positive().max(1000),
          seconds: z.number().positive().max(86_400),
        }),
      )
      .min(1)
      .max(100)
      .readonly(),
    source,
  }),
]);

const offered = z.strictObject({ value: z.number().positive().max(10_000_000), source });

/** What a maker says of a bath beyond one run. */
export const bathDefaults = z.strictObject({
  /** Film per litre of working solution, cm². */
  capacityCm2PerLitre: offered.nullable(),
  shelfDays: offered.nullable(),
  extension: extensionRule.nullable(),
});

const step = z.strictObject({
  key: z.string().trim().min(1).max(60),
  name: z.string().trim().max(100),
  bath: bathKind,
  time: z.strictObject({ seconds: z.number().nullable(), source }),
  timing: z.enum(['exact', 'minimum']),
  temperature: stepTemperature.nullable(),
  agitation: agitation.nullable(),
  timePoints: z.array(timePoint).max(100).readonly(),
  push: pushTable.nullable(),
  cautions: z.array(cautionKey).readonly(),
  note: words,
  bathFacts: bathDefaults.optional(),
});

/** A process as it is sent and kept; whether its numbers make sense is asked of the domain afterwards. */
export const processValue: z.ZodType<Process, Process> = z.strictObject({
  key: z.string().trim().min(1).max(60),
  name: line,
  family: z.enum(['colour_negative', 'black_and_white', 'colour_reversal', 'motion_picture_negative']),
  steps: z.array(step).max(60).readonly(),
  note: words,
});
