import { z } from 'zod';
import { method } from '../method.ts';
import { diskPath, id, nothing } from '../values.ts';
import { job } from './archive-methods.ts';
import { hit } from './search-methods.ts';

const region = z.strictObject({ x: z.number(), y: z.number(), width: z.number(), height: z.number() });
const point = z.strictObject({ x: z.number(), y: z.number() });

/** A frame that the picture shows, with how it lies in it. Region, corners and homography are in fractions of the frame. */
export const pictureHit = hit.extend({
  confidence: z.number().min(0).max(1),
  region,
  turned: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
  mirrored: z.boolean(),
  negative: z.boolean(),
  /** Fractions of the picture to fractions of the frame, row by row: for laying one over the other. */
  homography: z.array(z.number()).length(9),
  /**
   * Where the picture's corners (upper left, upper right, lower right, lower left) come to lie; beyond 0 to 1 where it
   * shows more than the frame. Null where one lies beyond the horizon of a steep perspective.
   */
  corners: z.tuple([point, point, point, point]).nullable(),
  /** The picture of the archive that was compared, and the part of it that is the frame, in fractions of it. */
  comparedWith: z.strictObject({ pictureId: z.string(), frame: region }),
});
export type PictureHit = z.output<typeof pictureHit>;

const likeness = z.strictObject({
  kind: z.enum(['same file', 'same picture']),
  reason: z.string(),
  confidence: z.number(),
  scans: z.array(z.strictObject({ scanId: id, path: z.string(), frames: z.array(z.string()) })),
});
export type Likeness = z.output<typeof likeness>;

/** Finding frames by what they show. */
export const LOOK_UP_METHODS = {
  /** Describes pictures that are not in the index yet, as a job at low priority; null when none is left. */
  'pictures.describe': method(nothing, job.nullable(), ['jobs']),
  'pictures.indexed': method(
    nothing,
    z.strictObject({ described: z.number().int(), waiting: z.number().int() }),
  ),
  /** Which frame a picture file shows. An empty list of hits is an answer: it is not in the archive. */
  'pictures.which': method(
    z.strictObject({ file: diskPath, limit: z.number().int().min(1).max(50).default(5) }),
    z.strictObject({ answer: z.enum(['frame', 'scene', 'none', 'cannot-tell']), hits: z.array(pictureHit) }),
  ),
  /** Files of one content, and different files that look like scans of one frame; nothing is merged. */
  'pictures.duplicates': method(nothing, z.array(likeness)),
} as const;
