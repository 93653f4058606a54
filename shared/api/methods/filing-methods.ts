import { z } from 'zod';
import { method } from '../method.ts';
import { id, line, made, note, nothing, place } from '../values.ts';

const layout = z.strictObject({
  id: z.string(),
  name: z.string(),
  rows: z.number().int(),
  positions: z.number().int(),
  pocket: z.enum(['strip', 'single']),
  pageWidthMm: z.number(),
  pageHeightMm: z.number(),
  pocketLengthMm: z.number(),
  pocketHeightMm: z.number(),
  filmFormats: z.array(z.string()),
});
export type LayoutRow = z.output<typeof layout>;

const binder = z.strictObject({
  id,
  name: z.string(),
  place: z.string().nullable(),
  note: z.string().nullable(),
  pages: z.number().int(),
  rolls: z.number().int(),
  pockets: z.number().int(),
  pocketsTaken: z.number().int(),
  filmFormats: z.array(z.string()),
  shot: z.strictObject({ earliest: z.string().nullable(), latest: z.string().nullable() }).nullable(),
});
export type Binder = z.output<typeof binder>;

const stripOnPage = z.strictObject({
  stripId: id,
  rollId: id,
  roll: z.string(),
  title: z.string().nullable(),
  filmFormat: z.string(),
  row: z.number().int(),
  position: z.number().int(),
  frames: z.array(
    z.strictObject({
      id,
      label: z.string(),
      frameFormat: z.string(),
      pictureId: z.string().nullable(),
      caption: z.string().nullable(),
    }),
  ),
});
export type StripOnPage = z.output<typeof stripOnPage>;

export const page = z.strictObject({
  id,
  binderId: id,
  binder: z.string(),
  number: z.number().int(),
  title: z.string().nullable(),
  material: z.string().nullable(),
  note: z.string().nullable(),
  layout,
  strips: z.array(stripOnPage),
});
export type Page = z.output<typeof page>;

const placement = z.strictObject({
  /** Null for a frame that is only made when the roll is filed. */
  frameId: id.nullable(),
  frame: z.string(),
  binder: z.string(),
  page: z.number().int(),
  row: z.number().int(),
  position: z.number().int(),
});

const filed = z.strictObject({
  placements: z.array(placement),
  leftover: z.array(z.string()),
  explanation: z.array(z.string()),
});
export type Filed = z.output<typeof filed>;

const filingChoice = z.strictObject({
  rollId: id,
  binder: line,
  page: z.number().int().positive().nullable(),
  layoutId: z.string().min(1),
  cut: z.array(z.number().int().positive()).max(200).nullable(),
  morePages: z.boolean().default(false),
});

/** Binders, pages, strips, and where a frame lies. */
export const FILING_METHODS = {
  'layouts.list': method(nothing, z.array(layout)),
  'binders.list': method(nothing, z.array(binder)),
  'binders.add': method(
    z.strictObject({ name: line, place: line.nullable().default(null), note: note.default(null) }),
    made,
    ['binders'],
  ),
  'binders.change': method(
    z.strictObject({ id, change: z.strictObject({ name: line, place: line.nullable(), note }).partial() }),
    nothing,
    ['binders', 'rolls', 'frames'],
  ),
  'binders.remove': method(z.strictObject({ id }), nothing, ['binders']),
  'pages.ofBinder': method(z.strictObject({ binderId: id }), z.array(page)),
  'pages.get': method(z.strictObject({ id }), page),
  'pages.change': method(
    z.strictObject({
      id,
      change: z.strictObject({ title: line.nullable(), material: line.nullable(), note }).partial(),
    }),
    nothing,
    ['binders'],
  ),
  'pages.remove': method(z.strictObject({ id }), nothing, ['binders']),
  'filing.propose': method(filingChoice, filed),
  'filing.file': method(filingChoice, filed, ['binders', 'rolls', 'frames']),
  'filing.takeOut': method(z.strictObject({ rollId: id }), nothing, ['binders', 'rolls', 'frames']),
  'strips.move': method(
    z.strictObject({
      stripId: id,
      pageId: id,
      row: z.number().int().positive(),
      position: z.number().int().positive(),
    }),
    nothing,
    ['binders', 'rolls', 'frames'],
  ),
  'frames.where': method(
    z.strictObject({ frameId: id }),
    z.strictObject({
      rollId: id,
      roll: z.string(),
      frame: z.string(),
      lies: place.nullable(),
      outing: z
        .strictObject({ id, title: z.string(), date: z.string().nullable(), place: z.string().nullable() })
        .nullable(),
      development: z.strictObject({ id, process: z.string(), date: z.string().nullable() }).nullable(),
    }),
  ),
} as const;
