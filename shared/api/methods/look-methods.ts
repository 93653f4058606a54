import { z } from 'zod';
import { method } from '../method.ts';
import { diskPath, id, nothing } from '../values.ts';
import { job } from './archive-methods.ts';
import { adjust } from './colour-methods.ts';

const triple = z.tuple([z.number(), z.number(), z.number()]).readonly();

const filmBase = z.strictObject({
  light: triple,
  from: z.enum(['rebate', 'frames']),
  frames: z.number(),
  confidence: z.number(),
});

/** How the scans of a roll are turned into positives, before anything is adjusted. */
const rendering = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('as-scanned') }),
  z.strictObject({
    kind: z.literal('colour-negative'),
    base: filmBase,
    balance: z.strictObject({ slope: triple, gain: triple }),
    white: z.number(),
  }),
  z.strictObject({ kind: z.literal('monochrome-negative'), base: filmBase, white: z.number() }),
]);

const scanPolarity = z.enum(['auto', 'negative', 'positive']);
const scanTone = z.enum(['auto', 'colour', 'monochrome']);

const lookOfFrame = z.strictObject({
  rollId: id,
  /** The picture as scanned: what a look is put on. Null for a frame without a scan that can be shown. */
  scanned: z.string().nullable(),
  rendering,
  /** What the user set, null for nothing; a frame's own goes before its roll's. */
  roll: adjust.nullable(),
  frame: adjust.nullable(),
  /** Frames of the roll with a look of their own. */
  ownLooks: z.number().int(),
  /** How the roll's scans are read, what the user said of that, and how many frames speak for what. */
  reading: z.strictObject({
    polarity: z.enum(['positive', 'negative', 'unknown']),
    colour: z.enum(['colour', 'monochrome', 'toned', 'unknown']),
    confidence: z.number(),
    meant: z.strictObject({ polarity: scanPolarity, tone: scanTone }),
    frames: z.strictObject({
      negative: z.number().int(),
      positive: z.number().int(),
      undecided: z.number().int(),
      blank: z.number().int(),
    }),
    /** What this frame says by itself. */
    own: z.enum(['negative', 'positive', 'undecided', 'blank']).nullable(),
  }),
});
export type LookOfFrame = z.output<typeof lookOfFrame>;

const positiveFormat = z.enum(['png', 'tiff', 'jpeg']);
const positiveSize = {
  format: positiveFormat,
  bits: z.union([z.literal(8), z.literal(16)]).default(8),
  /** The longer side in px; null for every pixel of the scan. */
  longSide: z.number().int().min(16).max(200_000).nullable().default(null),
};

/** How scans are shown: as positives, adjusted by the user; and writing them so. */
export const LOOK_METHODS = {
  'looks.ofFrame': method(z.strictObject({ frameId: id }), lookOfFrame),
  /** Sets the look of frames; null lets them follow their roll again. */
  'looks.ofFrames': method(
    z.strictObject({ frameIds: z.array(id).min(1).max(10_000), adjust: adjust.nullable() }),
    nothing,
    ['frames'],
  ),
  /** Sets the look of a whole roll, null for none; `follow` are frames that give up their own for it. */
  'looks.ofRoll': method(
    z.strictObject({ rollId: id, adjust: adjust.nullable(), follow: z.array(id).max(10_000).default([]) }),
    nothing,
    ['frames', 'rolls'],
  ),
  /** The factors that make a place of a frame grey; `x` and `y` in fractions of the upright scan. */
  'looks.greyAt': method(
    z.strictObject({ frameId: id, x: z.number().min(0).max(1), y: z.number().min(0).max(1) }),
    z.strictObject({ grey: triple }),
  ),
  /** Says how the scans of a roll are to be read, and starts to measure it so. */
  'looks.read': method(z.strictObject({ rollId: id, polarity: scanPolarity, tone: scanTone }), job, [
    'rolls',
    'frames',
    'jobs',
  ]),
  /** Writes one scan as it is shown: a frame of the archive, or any file. The scan itself is only read. */
  'positives.write': method(
    z.strictObject({
      file: diskPath.nullable().default(null),
      frameId: id.nullable().default(null),
      out: diskPath,
      bits: positiveSize.bits,
      longSide: positiveSize.longSide,
      overwrite: z.boolean().default(false),
    }),
    z.strictObject({
      out: z.string(),
      width: z.number().int(),
      height: z.number().int(),
      bits: z.number().int(),
      polarity: z.string(),
      colour: z.string(),
      confidence: z.number(),
    }),
  ),
  /** The files that writing frames into a folder would make, and which of them are there already. */
  'positives.plan': method(
    z.strictObject({
      frameIds: z.array(id).min(1).max(10_000),
      folder: diskPath,
      format: positiveFormat,
    }),
    z.strictObject({
      folder: z.string(),
      files: z.array(z.strictObject({ frameId: id, name: z.string(), exists: z.boolean() })),
      withoutScan: z.number().int(),
    }),
  ),
  /** Writes frames as they are shown into a folder, as a job. */
  'positives.export': method(
    z.strictObject({
      frameIds: z.array(id).min(1).max(10_000),
      folder: diskPath,
      ...positiveSize,
      overwrite: z.boolean().default(false),
    }),
    job,
    ['jobs'],
  ),
} as const;
