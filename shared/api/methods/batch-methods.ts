import { z } from 'zod';
import { method } from '../method.ts';
import { calendarDate, id, line, made, named, note, nothing, typedDate } from '../values.ts';

/** Where film is kept. */
export const storagePlace = z.enum(['room', 'fridge', 'freezer']);

const facts = z.strictObject({
  stockId: id,
  filmFormat: z.string().min(1).max(20),
  emulsionNumber: line.nullable(),
  expires: typedDate.nullable(),
  note,
  /** Where it lay, from when on, in order; null for from the beginning. Given, it takes the place of what was there. */
  storage: z.array(z.strictObject({ place: storagePlace, since: typedDate.nullable() })).max(50),
});

/** Rolls bought together: one expiry, kept in the same places. */
const batch = z.strictObject({
  id,
  stock: named,
  filmFormat: z.string(),
  emulsionNumber: z.string().nullable(),
  expires: calendarDate.nullable(),
  note: z.string().nullable(),
  storage: z.array(z.strictObject({ place: storagePlace, since: calendarDate.nullable() })),
  rolls: z.number().int(),
});
export type Batch = z.output<typeof batch>;

/** Batches of stock, and where they were kept. */
export const BATCH_METHODS = {
  'batches.list': method(nothing, z.array(batch)),
  'batches.add': method(facts.partial().required({ stockId: true, filmFormat: true }), made, ['stocks']),
  'batches.change': method(z.strictObject({ id, change: facts.partial() }), nothing, ['stocks', 'rolls']),
} as const;
