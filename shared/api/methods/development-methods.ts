import { z } from 'zod';
import { method } from '../method.ts';
import {
  agitation,
  bathKind,
  cautionKey,
  extensionRule,
  processValue,
  source,
  stepTemperature,
  workingLines,
} from '../process-values.ts';
import { calendarDate, id, made, named, note, nothing, processKind, typedDate } from '../values.ts';
import { BATH_METHODS } from './bath-methods.ts';

const celsius = z.number().min(-10).max(110);
/** As typed: 378 is asked about by the engine, it is not a mistake of the program. */
const typedCelsius = z.number().min(-100).max(1000);
const seconds = z.number().positive().max(86_400);
const rollName = z.strictObject({ id, number: z.string() });

const developmentState = z.enum(['planned', 'running', 'done', 'aborted']);

/** A bath that was spoilt before this development used it. */
const doubt = z.strictObject({ bath: named, since: z.string(), reason: z.string().nullable() });

export const development = z.strictObject({
  id,
  process: processKind,
  processName: z.string().nullable(),
  state: developmentState,
  date: calendarDate.nullable(),
  pushStops: z.number(),
  developerSeconds: z.number().nullable(),
  developerTempC: z.number().nullable(),
  developerNominalTempC: z.number().nullable(),
  bath: z.strictObject({ id, name: z.string() }).nullable(),
  note: z.string().nullable(),
  rolls: z.array(rollName),
  doubts: z.array(doubt),
});
export type Development = z.output<typeof development>;

/** A step of a plan: its time is known, the sum behind it is kept, the bath it will use is named. */
export const plannedStep = z.strictObject({
  key: z.string(),
  name: z.string(),
  bath: bathKind,
  timing: z.enum(['exact', 'minimum']),
  temperature: stepTemperature.nullable(),
  agitation: agitation.nullable(),
  cautions: z.array(cautionKey).readonly(),
  note: z.string().nullable(),
  seconds: z.number(),
  lines: workingLines,
  /** `rollsDone`: what had gone through the bath when the plan was made, in rolls of 80 sq in. */
  uses: z.strictObject({ bathId: id, name: z.string(), rollsDone: z.number() }).nullable(),
});
export type PlanStep = z.output<typeof plannedStep>;

const planWarning = z.strictObject({ code: z.string(), text: z.string(), source: source.nullable() });

/** Why there is no plan, in words, with loads that could be done one after the other. */
const planRefusal = z.strictObject({
  code: z.string(),
  detail: z.string(),
  groups: z.array(z.array(rollName)),
  /** The developer's temperature that was probably meant, °C, where that is the question. */
  meantC: z.number().nullable(),
});
export type PlanRefusal = z.output<typeof planRefusal>;

/** The whole sheet as it was made; kept with the development and never changed. */
export const developmentPlan = z.strictObject({
  process: processValue,
  kind: processKind,
  /** Why this process was taken, where the user named only a kind. */
  chosen: z.string(),
  stops: z.number(),
  rolls: z.array(rollName),
  tank: named.nullable(),
  /** Film of the load, cm², plain and as it counts for a fixer. */
  areaCm2: z.number(),
  weightedAreaCm2: z.number(),
  developerKey: z.string(),
  developerSeconds: z.number(),
  totalSeconds: z.number(),
  steps: z.array(plannedStep),
  volumeMl: z.number().nullable(),
  volumeLines: workingLines,
  warnings: z.array(planWarning),
});
export type DevelopmentPlan = z.output<typeof developmentPlan>;

/** What is to be developed, how, in what. */
const planRequest = z.strictObject({
  rollIds: z.array(id).min(1).max(100),
  /** A kind such as `c41`, or the key or name of a process. */
  process: z.string().trim().min(1).max(500),
  /** Temperature of the developer, °C; null for the process's own. */
  developerC: typedCelsius.nullable().default(null),
  /** Push or pull for rolls that carry none of their own; null is none. */
  stops: z.number().min(-5).max(5).nullable().default(null),
  bathIds: z.array(id).max(20).default([]),
  tankId: id.nullable().default(null),
  /** The film's own developer time, where the process leaves it to the user. */
  developerTime: z.strictObject({ seconds, celsius }).nullable().default(null),
  /** Overrides what the developer's ledger says. */
  rollsDone: z.number().min(0).max(1000).nullable().default(null),
  extension: extensionRule.nullable().default(null),
  /** Undiluted developer at least, ml for every 80 sq in of film, as its maker says. */
  minimumMlPerRoll: z.number().positive().max(10_000).nullable().default(null),
  /** Says that an unlikely temperature is meant. */
  sure: z.boolean().default(false),
});
export type PlanRequestInput = z.output<typeof planRequest>;

const planAnswer = z.strictObject({
  plan: developmentPlan.nullable(),
  refused: planRefusal.nullable(),
});

/** What happened in a run. `atMs`: wall clock, milliseconds since 1970 UTC; `corrects`: the event it stands for. */
const happening = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('step_started'), step: z.number().int().min(0).max(100) }),
  z.strictObject({ kind: z.literal('step_ended') }),
  z.strictObject({ kind: z.literal('time_added'), seconds: z.number().min(-86_400).max(86_400) }),
  z.strictObject({ kind: z.literal('temperature_read'), celsius: typedCelsius }),
  z.strictObject({ kind: z.literal('clock_shifted'), seconds: z.number() }),
  z.strictObject({ kind: z.literal('taken_back') }),
  z.strictObject({ kind: z.literal('run_finished') }),
  z.strictObject({ kind: z.literal('run_aborted') }),
]);

const recorded = { id, atMs: z.number().int(), corrects: id.nullable() };

/** An event as it is kept. */
export const runEvent = z.discriminatedUnion('kind', [
  z.strictObject({ ...recorded, kind: z.literal('step_started'), step: z.number().int() }),
  z.strictObject({ ...recorded, kind: z.literal('step_ended') }),
  z.strictObject({ ...recorded, kind: z.literal('time_added'), seconds: z.number() }),
  z.strictObject({ ...recorded, kind: z.literal('temperature_read'), celsius: z.number() }),
  z.strictObject({ ...recorded, kind: z.literal('clock_shifted'), seconds: z.number() }),
  z.strictObject({ ...recorded, kind: z.literal('taken_back') }),
  z.strictObject({ ...recorded, kind: z.literal('run_finished') }),
  z.strictObject({ ...recorded, kind: z.literal('run_aborted') }),
]);
export type RunEventValue = z.output<typeof runEvent>;

const verdict = z.enum(['within', 'below', 'above', 'both_sides', 'not_measured', 'no_tolerance']);

/** A step, planned and actual beside each other. */
const doneStep = z.strictObject({
  ordinal: z.number().int(),
  name: z.string(),
  bathKind: bathKind.nullable(),
  bath: named.nullable(),
  plannedSeconds: z.number().nullable(),
  plannedC: z.number().nullable(),
  actualSeconds: z.number().nullable(),
  actualC: z.number().nullable(),
  startedAt: z.string().nullable(),
  /** Seconds from pouring in. */
  readings: z.array(z.strictObject({ atSeconds: z.number(), celsius: z.number() })),
  comparison: z
    .strictObject({
      timeErrorSeconds: z.number(),
      timeErrorPercent: z.number(),
      hadMinimum: z.boolean().nullable(),
      meanC: z.number().nullable(),
      lowestC: z.number().nullable(),
      highestC: z.number().nullable(),
      temperatureErrorC: z.number().nullable(),
      meanVerdict: verdict,
      readingsVerdict: verdict,
    })
    .nullable(),
});
export type DoneStep = z.output<typeof doneStep>;

const developmentDetails = z.strictObject({
  ...development.shape,
  who: z.string().nullable(),
  place: z.string().nullable(),
  startedAt: z.string().nullable(),
  finishedAt: z.string().nullable(),
  plan: developmentPlan.nullable(),
  events: z.array(runEvent),
  steps: z.array(doneStep),
  uses: z.array(z.strictObject({ bath: named, areaCm2: z.number(), weightedAreaCm2: z.number() })),
  corrections: z.array(
    z.strictObject({
      column: z.string(),
      before: z.string().nullable(),
      after: z.string().nullable(),
      madeAt: z.string(),
    }),
  ),
});
export type DevelopmentDetails = z.output<typeof developmentDetails>;

/** What the run sheet shows, by the engine's clock. */
const runState = z.strictObject({
  phase: z.enum(['ready', 'running', 'between', 'finished', 'aborted']),
  step: z.number().int().nullable(),
  stepName: z.string().nullable(),
  elapsedSeconds: z.number().nullable(),
  leftSeconds: z.number().nullable(),
  nextStep: z.number().int().nullable(),
  readings: z.array(z.strictObject({ atSeconds: z.number(), celsius: z.number() })),
  clockInDoubt: z.boolean(),
});

const line = z.string().trim().min(1).max(500).nullable();
const changes = ['developments', 'baths', 'rolls'] as const;

/** Processes, tanks, baths; developments planned, run, and recorded afterwards. */
export const DEVELOPMENT_METHODS = {
  ...BATH_METHODS,
  'developments.list': method(nothing, z.array(development)),
  'developments.get': method(z.strictObject({ id }), developmentDetails),
  'developments.record': method(
    z.strictObject({
      rollIds: z.array(id).min(1).max(100),
      process: processKind,
      date: typedDate,
      pushStops: z.number().min(-5).max(5).default(0),
      developerTempC: typedCelsius.nullable().default(null),
      developerSeconds: seconds.nullable().default(null),
      bathIds: z.array(id).max(20).default([]),
      note: note.default(null),
      /** Says that an unlikely temperature is meant. */
      sure: z.boolean().default(false),
    }),
    made,
    changes,
  ),
  /** Works a plan out; nothing is written. */
  'developments.plan': method(planRequest, planAnswer),
  /** Plans, and opens a run that waits for the first pour. */
  'developments.start': method(planRequest, made, changes),
  'developments.note': method(
    z.strictObject({
      id,
      /** When it happened; null is now. */
      atMs: z.number().int().positive().nullable().default(null),
      corrects: id.nullable().default(null),
      sure: z.boolean().default(false),
      event: happening,
    }),
    made,
    changes,
  ),
  'developments.runState': method(z.strictObject({ id }), runState),
  /** Files a run that has ended: what happened, the ledger of the baths, the rolls. */
  'developments.finish': method(
    z.strictObject({
      id,
      /** Whether the rolls are developed; null: yes when the run came to its end, no when it was aborted. */
      rollsDeveloped: z.boolean().nullable().default(null),
      who: line.default(null),
      place: line.default(null),
      note: note.default(null),
    }),
    nothing,
    changes,
  ),
  /** Corrects what is known of a development; what stood there before is kept. */
  'developments.change': method(
    z.strictObject({
      id,
      change: z
        .strictObject({
          date: typedDate,
          pushStops: z.number().min(-5).max(5),
          developerSeconds: seconds.nullable(),
          developerTempC: typedCelsius.nullable(),
          who: line,
          place: line,
          note,
        })
        .partial(),
      sure: z.boolean().default(false),
    }),
    nothing,
    changes,
  ),
} as const;
