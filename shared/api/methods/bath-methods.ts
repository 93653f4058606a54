import { z } from 'zod';
import { method } from '../method.ts';
import { bathKind, extensionRule, processValue, source, workingLines } from '../process-values.ts';
import {
  calendarDate,
  id,
  instant,
  line,
  made,
  named,
  note,
  nothing,
  processKind,
  typedDate,
} from '../values.ts';

/** A process, shipped with the program or the user's own. `id` is null for a shipped one. */
export const processEntry = z.strictObject({
  id: id.nullable(),
  key: z.string(),
  name: z.string(),
  kind: processKind,
  copiedFrom: z.string().nullable(),
  process: processValue,
});
export type ProcessEntry = z.output<typeof processEntry>;

const millilitres = z.number().positive().max(1_000_000);

const tankFacts = {
  name: line,
  kind: z.enum(['inversion', 'rotary', 'tray', 'other']).default('inversion'),
  reels: z.number().int().positive().max(100).nullable().default(null),
  mlPer135: millilitres.nullable().default(null),
  mlPer120: millilitres.nullable().default(null),
  volumeMl: millilitres.nullable().default(null),
  /** Newton's constant of the tank, per minute. */
  coolingPerMinute: z.number().positive().max(10).nullable().default(null),
  note: note.default(null),
};

/** A tank with what it takes. */
export const tank = z.strictObject({
  id,
  name: z.string(),
  kind: z.enum(['inversion', 'rotary', 'tray', 'other']),
  reels: z.number().nullable(),
  mlPer135: z.number().nullable(),
  mlPer120: z.number().nullable(),
  volumeMl: z.number().nullable(),
  coolingPerMinute: z.number().nullable(),
  note: z.string().nullable(),
});
export type TankEntry = z.output<typeof tank>;

const area = z.number().min(0).max(10_000_000);

/** A mixed solution with what it has done, in cm² and in rolls of 80 sq in, and its state in words. */
export const bath = z.strictObject({
  id,
  name: z.string(),
  kind: bathKind,
  /** The process it belongs to: a key, or a kind such as `c41`. */
  process: z.string().nullable(),
  mixed: calendarDate.nullable(),
  volumeMl: z.number().nullable(),
  dilution: z.string().nullable(),
  capacityCm2: z.number().nullable(),
  shelfDays: z.number().nullable(),
  oneShot: z.boolean(),
  extension: extensionRule.nullable(),
  usedBeforeCm2: z.number(),
  condition: z.enum(['in use', 'discarded', 'spoilt']),
  endedAt: z.string().nullable(),
  endedReason: z.string().nullable(),
  note: z.string().nullable(),
  areaDoneCm2: z.number(),
  areaLeftCm2: z.number().nullable(),
  rollsDone: z.number(),
  rollsLeft: z.number().nullable(),
  /** Age at the most, days. */
  days: z.number().nullable(),
  daysPastShelf: z.number().nullable(),
  /** Whether the latest clearing test of some film took twice as long as the fresh one. */
  spent: z.boolean(),
  /** What the next roll needs in this bath, where its process says. */
  nextSeconds: z.number().nullable(),
  words: z.string(),
});
export type BathEntry = z.output<typeof bath>;

/** Film that went through a bath. `weightedAreaCm2` counts how fast the film uses it up. */
export const bathUse = z.strictObject({
  id,
  developmentId: id.nullable(),
  areaCm2: z.number(),
  weightedAreaCm2: z.number(),
  usedAt: z.string(),
  note: z.string().nullable(),
  /** After the bath was spoilt or discarded: what it developed is to be doubted. */
  afterEnd: z.boolean(),
});

export const clearingTest = z.strictObject({
  id,
  stock: named.nullable(),
  testedAt: z.string(),
  seconds: z.number(),
  fresh: z.boolean(),
});

const clearingVerdict = z.strictObject({
  stock: named.nullable(),
  freshSeconds: z.number(),
  seconds: z.number(),
  ratio: z.number(),
  spent: z.boolean(),
  fixSeconds: z.number(),
  lines: workingLines,
});

const bathFacts = {
  name: line,
  kind: bathKind,
  process: z.string().trim().min(1).max(100).nullable(),
  mixed: typedDate.nullable(),
  volumeMl: millilitres.nullable(),
  dilution: z.string().trim().min(1).max(40).nullable(),
  capacityCm2: z.number().positive().max(10_000_000).nullable(),
  shelfDays: z.number().int().positive().max(10_000).nullable(),
  oneShot: z.boolean(),
  extension: extensionRule.nullable(),
  usedBeforeCm2: area,
  note,
};

const bathChange = z.strictObject(bathFacts).partial();

const ending = z.strictObject({
  id,
  /** Since when; null is now. */
  at: instant.nullable().default(null),
  reason: z.string().trim().max(500).nullable().default(null),
});

const changed = ['baths', 'developments'] as const;

/** Processes, tanks and baths. */
export const BATH_METHODS = {
  'processes.list': method(nothing, z.array(processEntry)),
  'processes.add': method(
    z.strictObject({
      process: processValue,
      kind: processKind,
      copiedFrom: z.string().nullable().default(null),
    }),
    made,
    ['developments'],
  ),
  'processes.change': method(z.strictObject({ id, process: processValue, kind: processKind }), nothing, [
    'developments',
  ]),
  'processes.remove': method(z.strictObject({ id }), nothing, ['developments']),

  'tanks.list': method(nothing, z.array(tank)),
  'tanks.add': method(z.strictObject(tankFacts), made, ['developments']),
  'tanks.change': method(z.strictObject({ id, tank: z.strictObject(tankFacts) }), nothing, ['developments']),
  'tanks.remove': method(z.strictObject({ id }), nothing, ['developments']),

  'baths.list': method(nothing, z.array(bath)),
  'baths.get': method(
    z.strictObject({ id }),
    z.strictObject({
      bath,
      lines: workingLines,
      uses: z.array(bathUse),
      tests: z.array(clearingTest),
      /** The latest test of each stock against the fresh one, the newest first. */
      clearing: z.array(clearingVerdict),
      /** Rolls that went through since the last test that found it good. */
      rollsSinceGood: z.array(z.strictObject({ id, number: z.string() })),
    }),
  ),
  /**
   * What is offered for a bath: what its process says (a key, a name or a kind), else common numbers; each with its
   * source, to be replaced by the maker's.
   */
  'baths.offer': method(
    z.strictObject({ kind: bathKind, process: line, volumeMl: millilitres.nullable() }),
    z.strictObject({
      capacityCm2: z.strictObject({ value: z.number(), source }).nullable(),
      shelfDays: z.strictObject({ value: z.number(), source }).nullable(),
      extension: extensionRule.nullable(),
    }),
  ),
  'baths.add': method(
    z.strictObject({
      ...bathFacts,
      process: bathFacts.process.default(null),
      mixed: bathFacts.mixed.default(null),
      volumeMl: bathFacts.volumeMl.default(null),
      dilution: bathFacts.dilution.default(null),
      capacityCm2: bathFacts.capacityCm2.default(null),
      shelfDays: bathFacts.shelfDays.default(null),
      oneShot: bathFacts.oneShot.default(false),
      extension: bathFacts.extension.default(null),
      usedBeforeCm2: bathFacts.usedBeforeCm2.default(0),
      note: bathFacts.note.default(null),
    }),
    made,
    changed,
  ),
  'baths.change': method(z.strictObject({ id, change: bathChange }), nothing, changed),
  'baths.use': method(
    z.strictObject({
      id,
      rollIds: z.array(id).max(100).default([]),
      /** Film beside those rolls, cm². */
      areaCm2: area.default(0),
      at: instant.nullable().default(null),
      note: note.default(null),
    }),
    made,
    changed,
  ),
  'baths.changeUse': method(
    z.strictObject({ useId: id, areaCm2: area, weightedAreaCm2: area, note: note.default(null) }),
    nothing,
    changed,
  ),
  'baths.removeUse': method(z.strictObject({ useId: id }), nothing, changed),
  'baths.discard': method(ending, nothing, changed),
  'baths.spoil': method(ending, nothing, changed),
  'baths.test': method(
    z.strictObject({
      id,
      stockId: id.nullable().default(null),
      seconds: z.number().positive().max(86_400),
      fresh: z.boolean(),
      at: instant.nullable().default(null),
    }),
    made,
    changed,
  ),
} as const;
