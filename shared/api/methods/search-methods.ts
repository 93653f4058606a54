import { z } from 'zod';
import { method } from '../method.ts';
import { id, place } from '../values.ts';

/** One frame found, with where it lies and what made it. */
export const hit = z.strictObject({
  frameId: id,
  rollId: id,
  roll: z.string(),
  frame: z.string(),
  caption: z.string().nullable(),
  pictureId: z.string().nullable(),
  lies: place.nullable(),
  outing: z.strictObject({ id, title: z.string(), date: z.string().nullable() }).nullable(),
  development: z.strictObject({ id, process: z.string(), date: z.string().nullable() }).nullable(),
});
export type Hit = z.output<typeof hit>;

/** Finding frames. */
export const SEARCH_METHODS = {
  'search.frames': method(
    z.strictObject({
      words: z.string().max(1000),
      cameraId: id.optional(),
      stockId: id.optional(),
      from: z.string().max(100).optional(),
      to: z.string().max(100).optional(),
      limit: z.number().int().min(1).max(1000).default(200),
      after: z.string().max(200).optional(),
    }),
    z.strictObject({ total: z.number().int(), hits: z.array(hit), next: z.string().nullable() }),
  ),
} as const;
