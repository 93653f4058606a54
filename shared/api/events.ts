import { z } from 'zod';
import { TOPICS } from './method.ts';
import { job } from './methods/archive-methods.ts';

/** What the engine tells by itself: what has changed (the window fetches it anew), or how far a job is. */
export const engineEvent = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('changed'), topics: z.array(z.enum(TOPICS)) }),
  z.strictObject({ type: z.literal('job'), job }),
]);
export type EngineEvent = z.output<typeof engineEvent>;
