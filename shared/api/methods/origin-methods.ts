import { z } from 'zod';
import { method } from '../method.ts';
import { calendarDate, id } from '../values.ts';
import { development } from './development-methods.ts';
import { page } from './filing-methods.ts';
import { frame, outing, roll } from './film-methods.ts';

/** The development of a roll with the state its developer was in then. */
const originDevelopment = development.extend({
  /** Film through the developer before this development, cm²; null when it was not reckoned. */
  usedBeforeCm2: z.number().nullable(),
  /** Of the developer: when it was mixed, and what it can do, cm². */
  bathMixed: calendarDate.nullable(),
  bathCapacityCm2: z.number().nullable(),
});

/** Everything that tells where a frame came from and where it lies. */
export const frameOrigin = z.strictObject({
  frame,
  roll,
  /** The frame among its neighbours, up to two on either side, along the film. */
  along: z.array(frame),
  batch: z
    .strictObject({
      emulsion: z.string().nullable(),
      /** Where it lay, earliest first; `since` null when nobody knows since when. */
      stored: z.array(
        z.strictObject({ place: z.enum(['room', 'fridge', 'freezer']), since: calendarDate.nullable() }),
      ),
    })
    .nullable(),
  page: page.nullable(),
  outing: outing.nullable(),
  /** The last finished one. */
  development: originDevelopment.nullable(),
});
export type FrameOrigin = z.output<typeof frameOrigin>;

/** Where a frame came from. */
export const ORIGIN_METHODS = {
  'frames.origin': method(z.strictObject({ frameId: id }), frameOrigin),
} as const;
