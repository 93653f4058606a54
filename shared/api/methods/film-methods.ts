import { z } from 'zod';
import { method } from '../method.ts';
import {
  calendarDate,
  id,
  line,
  made,
  named,
  note,
  nothing,
  place,
  processKind,
  rollState,
  typedDate,
} from '../values.ts';

const iso = z.number().int().min(1).max(100_000);

const stockFacts = z.strictObject({
  name: line,
  maker: line.nullable(),
  iso: iso.nullable(),
  process: processKind,
  base: z.enum(['acetate', 'polyester']).nullable(),
  formats: z.array(z.string().min(1).max(20)).max(30),
  fixerFactor: z.number().positive().max(10),
  note,
});
export const stock = stockFacts.extend({ id, rolls: z.number().int() });
export type Stock = z.output<typeof stock>;

/** Something done to a camera: seals replaced, shutter serviced; it splits faults into before and after. */
const repair = z.strictObject({ id, done: calendarDate, what: line });
export type Repair = z.output<typeof repair>;

const cameraFacts = z.strictObject({
  name: line,
  filmFormat: z.string().max(20).nullable(),
  frameFormat: z.string().max(20).nullable(),
  note,
});
export const camera = cameraFacts.extend({ id, rolls: z.number().int(), repairs: z.array(repair) });
export type Camera = z.output<typeof camera>;

const rollFacts = z.strictObject({
  number: line,
  title: line.nullable(),
  stockId: id.nullable(),
  batchId: id.nullable(),
  cameraId: id.nullable(),
  filmFormat: z.string().min(1).max(20),
  frameFormat: z.string().min(1).max(20),
  exposures: z.number().int().min(1).max(1000).nullable(),
  exposureIndex: iso.nullable(),
  pushStops: z.number().min(-5).max(5).nullable(),
  expires: typedDate.nullable(),
  state: rollState,
  scanPolarity: z.enum(['auto', 'negative', 'positive']),
  lab: line.nullable(),
  /** The cassette it was wound in, and the holder it was exposed or scanned in. */
  cassette: line.nullable(),
  holder: line.nullable(),
  note,
});

/** One roll as lists show it. */
export const rollRow = z.strictObject({
  id,
  number: z.string(),
  title: z.string().nullable(),
  stock: z
    .strictObject({ id, name: z.string(), iso: z.number().nullable(), process: processKind })
    .nullable(),
  camera: named.nullable(),
  filmFormat: z.string(),
  frameFormat: z.string(),
  exposures: z.number().int().nullable(),
  exposureIndex: z.number().int().nullable(),
  pushStops: z.number().nullable(),
  expires: calendarDate.nullable(),
  state: rollState,
  shot: z.strictObject({ earliest: z.string().nullable(), latest: z.string().nullable() }).nullable(),
  developed: calendarDate.nullable(),
  frames: z.number().int(),
  scans: z.number().int(),
  pages: z.array(z.strictObject({ pageId: id, binder: z.string(), page: z.number().int() })),
});
export type RollRow = z.output<typeof rollRow>;

const stateDate = z.strictObject({ state: rollState, since: calendarDate.nullable() });

/** Everything a roll's own view shows, without its frames. */
export const roll = rollRow.extend({
  batchId: id.nullable(),
  scanPolarity: z.enum(['auto', 'negative', 'positive']),
  lab: z.string().nullable(),
  cassette: z.string().nullable(),
  holder: z.string().nullable(),
  note: z.string().nullable(),
  stateDates: z.array(stateDate),
  outings: z.array(
    z.strictObject({ id, title: z.string(), date: calendarDate.nullable(), place: z.string().nullable() }),
  ),
  developments: z.array(z.strictObject({ id, process: processKind, date: calendarDate.nullable() })),
});
export type Roll = z.output<typeof roll>;

export const pencilMark = z.strictObject({
  kind: z.enum(['box', 'dot', 'stroke', 'crop']),
  x: z.number().nullable(),
  y: z.number().nullable(),
  width: z.number().nullable(),
  height: z.number().nullable(),
});
export type PencilMark = z.output<typeof pencilMark>;

const fault = z.strictObject({
  kind: line,
  edge: z.enum(['left', 'right', 'top', 'bottom']).nullable(),
  fromEdgeMm: z.number().nullable(),
  note,
});

/** One version of a frame: a picture (or part of one) that shows it. */
export const frameVersion = z.strictObject({
  frameScanId: id,
  scanId: id,
  pictureId: z.string(),
  page: z.number().int(),
  path: z.string(),
  version: z.string(),
  best: z.boolean(),
  state: z.string(),
  width: z.number().int().nullable(),
  height: z.number().int().nullable(),
  region: z.strictObject({ x: z.number(), y: z.number(), width: z.number(), height: z.number() }),
  turned: z.number().int(),
  mirrored: z.boolean(),
  reason: z.string(),
  confidence: z.number(),
});
export type FrameVersion = z.output<typeof frameVersion>;

export const frame = z.strictObject({
  id,
  rollId: id,
  ordinal: z.number().int(),
  label: z.string(),
  frameFormat: z.string(),
  caption: z.string().nullable(),
  place: z.string().nullable(),
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  taken: calendarDate.nullable(),
  shutter: z.string().nullable(),
  aperture: z.number().nullable(),
  lens: z.string().nullable(),
  filter: z.string().nullable(),
  note: z.string().nullable(),
  turned: z.number().int(),
  mirrored: z.boolean(),
  outing: named.nullable(),
  tags: z.array(z.string()),
  marks: z.array(pencilMark),
  faults: z.array(fault),
  versions: z.array(frameVersion),
  lies: place.nullable(),
});
export type Frame = z.output<typeof frame>;

const frameChange = z
  .strictObject({
    caption: line.nullable(),
    place: line.nullable(),
    taken: typedDate.nullable(),
    shutter: line.nullable(),
    aperture: z.number().positive().max(1000).nullable(),
    lens: line.nullable(),
    filter: line.nullable(),
    note,
    frameFormat: z.string().min(1).max(20).nullable(),
    outingId: id.nullable(),
    latitude: z.number().min(-90).max(90).nullable(),
    longitude: z.number().min(-180).max(180).nullable(),
    turned: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
    mirrored: z.boolean(),
    addTags: z.array(line).max(50),
    removeTags: z.array(line).max(50),
    faults: z.array(fault).max(50),
  })
  .partial();
export type FrameChange = z.output<typeof frameChange>;

const rollSort = z.enum([
  'number',
  'title',
  'stock',
  'camera',
  'shot',
  'developed',
  'state',
  'frames',
  'page',
]);

const outingFacts = z.strictObject({ title: line, date: typedDate.nullable(), place: line.nullable(), note });

export const outing = z.strictObject({
  id,
  title: z.string(),
  date: calendarDate.nullable(),
  place: z.string().nullable(),
  note: z.string().nullable(),
  rolls: z.array(z.strictObject({ id, number: z.string(), labels: z.array(z.string()) })),
});
export type Outing = z.output<typeof outing>;

/** Stocks, cameras, rolls, frames, outings. */
export const FILM_METHODS = {
  'stocks.list': method(nothing, z.array(stock)),
  'stocks.add': method(stockFacts.partial().required({ name: true, process: true }), made, ['stocks']),
  'stocks.change': method(z.strictObject({ id, change: stockFacts.partial() }), nothing, [
    'stocks',
    'rolls',
    'frames',
  ]),
  'cameras.list': method(nothing, z.array(camera)),
  'cameras.add': method(cameraFacts.partial().required({ name: true }), made, ['cameras']),
  'cameras.change': method(z.strictObject({ id, change: cameraFacts.partial() }), nothing, [
    'cameras',
    'rolls',
  ]),
  'cameras.noteRepair': method(z.strictObject({ cameraId: id, done: typedDate, what: line }), made, [
    'cameras',
  ]),
  'cameras.removeRepair': method(z.strictObject({ id }), nothing, ['cameras']),
  'rolls.nextNumber': method(nothing, z.strictObject({ number: z.string() })),
  'rolls.add': method(
    rollFacts.partial().required({ filmFormat: true, frameFormat: true }),
    z.strictObject({ id, number: z.string() }),
    ['rolls', 'frames'],
  ),
  'rolls.change': method(z.strictObject({ id, change: rollFacts.partial() }), nothing, ['rolls', 'frames']),
  'rolls.setState': method(z.strictObject({ id, state: rollState, since: typedDate.nullable() }), nothing, [
    'rolls',
  ]),
  'rolls.remove': method(z.strictObject({ id }), nothing, ['rolls', 'frames', 'binders', 'scans', 'outings']),
  'rolls.byNumber': method(z.strictObject({ number: line }), roll),
  'rolls.get': method(z.strictObject({ id }), roll),
  'rolls.order': method(
    z.strictObject({
      sort: rollSort,
      descending: z.boolean(),
      filter: z.strictObject({
        words: z.string().max(500).optional(),
        states: z.array(rollState).optional(),
        stockId: id.optional(),
        cameraId: id.optional(),
        filmFormat: z.string().optional(),
        outingId: id.optional(),
        developmentId: id.optional(),
      }),
    }),
    z.strictObject({ ids: z.array(id) }),
  ),
  'rolls.rows': method(z.strictObject({ ids: z.array(id).max(500) }), z.array(rollRow)),
  'frames.ofRoll': method(z.strictObject({ rollId: id }), z.array(frame)),
  'frames.get': method(z.strictObject({ id }), frame),
  'frames.byLabel': method(z.strictObject({ roll: line, label: line }), z.strictObject({ id })),
  'frames.add': method(z.strictObject({ rollId: id, labels: z.array(line).min(1).max(1000) }), nothing, [
    'frames',
    'rolls',
  ]),
  'frames.change': method(
    z.strictObject({ ids: z.array(id).min(1).max(2000), change: frameChange }),
    nothing,
    ['frames', 'rolls', 'outings'],
  ),
  /** Different changes for different frames, as one action. */
  'frames.changeEach': method(
    z.strictObject({
      changes: z
        .array(z.strictObject({ ids: z.array(id).min(1).max(2000), change: frameChange }))
        .min(1)
        .max(2000),
    }),
    nothing,
    ['frames', 'rolls', 'outings'],
  ),
  'frames.relabel': method(z.strictObject({ rollId: id, labels: z.array(line).max(1000) }), nothing, [
    'frames',
    'rolls',
  ]),
  'frames.remove': method(z.strictObject({ ids: z.array(id).min(1).max(2000) }), nothing, [
    'frames',
    'rolls',
    'binders',
  ]),
  'frames.mark': method(
    z.strictObject({ ids: z.array(id).min(1).max(2000), mark: pencilMark, on: z.boolean() }),
    nothing,
    ['frames'],
  ),
  'frames.chooseBest': method(z.strictObject({ frameScanId: id }), nothing, ['frames']),
  'tags.list': method(nothing, z.array(z.strictObject({ name: z.string(), frames: z.number().int() }))),
  'outings.list': method(nothing, z.array(outing)),
  'outings.get': method(z.strictObject({ id }), outing),
  'outings.add': method(
    outingFacts
      .partial()
      .required({ title: true })
      .extend({
        rolls: z.array(z.strictObject({ rollId: id, labels: z.array(line).nullable() })).max(100),
      }),
    made,
    ['outings', 'rolls', 'frames'],
  ),
  'outings.change': method(z.strictObject({ id, change: outingFacts.partial() }), nothing, [
    'outings',
    'rolls',
    'frames',
  ]),
} as const;
