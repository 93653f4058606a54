import { z } from 'zod';

/**
 * What a sheet looks like, as things to draw: millimetres, origin top left, y down, painted in order.
 * A painter only draws; it never measures text, never decides a place.
 */

const mm = z.number();
const colour = z.string().regex(/^#[0-9a-f]{6}$/);

/** Clockwise quarter turns in degrees. */
export const quarterTurn = z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]);
export type QuarterTurn = z.output<typeof quarterTurn>;

/** A part of a picture, in fractions of its width and height before any turn. */
export const pictureRegion = z.strictObject({
  x: z.number().min(0).max(1),
  y: z.number().min(0).max(1),
  width: z.number().positive().max(1),
  height: z.number().positive().max(1),
});
export type PictureRegion = z.output<typeof pictureRegion>;

/** A filled rectangle; `radiusMm` rounds its corners. */
const rectItem = z.strictObject({
  kind: z.literal('rect'),
  xMm: mm,
  yMm: mm,
  widthMm: mm,
  heightMm: mm,
  radiusMm: z.number().nonnegative(),
  fill: colour,
});

/** A stroked line through points, with round joins; `closed` joins the last point to the first. */
const lineItem = z.strictObject({
  kind: z.literal('line'),
  points: z.array(z.tuple([mm, mm])).min(2),
  closed: z.boolean(),
  cap: z.enum(['butt', 'round']),
  widthMm: mm,
  colour,
});

/**
 * A picture. The region is cut out, mirrored left to right, turned clockwise, then fitted whole into the rectangle and centred;
 * what it leaves free is `ground`.
 */
const imageItem = z.strictObject({
  kind: z.literal('image'),
  xMm: mm,
  yMm: mm,
  widthMm: mm,
  heightMm: mm,
  frameKey: z.string(),
  pictureId: z.string(),
  region: pictureRegion,
  turned: quarterTurn,
  mirrored: z.boolean(),
  ground: colour,
});

/** The bundled faces (assets/fonts). `sans` and `sans-bold` are the faces of the look; the others fill in for them. */
export const FACES = ['sans', 'sans-bold', 'japanese', 'chinese', 'korean'] as const;
export type Face = (typeof FACES)[number];

/**
 * A finished line of text. `xMm`, `yMm` is where its baseline starts; it runs on to the right, turned clockwise about
 * that point. Runs follow one another without gap, each in one face, each as wide as it says: plain advances of the
 * face, no kerning, no ligatures.
 */
const textItem = z.strictObject({
  kind: z.literal('text'),
  xMm: mm,
  yMm: mm,
  widthMm: mm,
  sizeMm: z.number().positive(),
  turned: quarterTurn,
  colour,
  runs: z.array(z.strictObject({ face: z.enum(FACES), text: z.string().min(1), widthMm: mm })).min(1),
});

const displayItem = z.discriminatedUnion('kind', [rectItem, lineItem, imageItem, textItem]);
export type DisplayItem = z.output<typeof displayItem>;
export type RectItem = z.output<typeof rectItem>;
export type LineItem = z.output<typeof lineItem>;
export type ImageItem = z.output<typeof imageItem>;
export type TextItem = z.output<typeof textItem>;

/** One sheet of paper with everything on it. */
export const displayPage = z.strictObject({ widthMm: mm, heightMm: mm, items: z.array(displayItem) });
export type DisplayPage = z.output<typeof displayPage>;
