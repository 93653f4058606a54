import { z } from 'zod';
import { method } from '../method.ts';
import { calendarDate, id, made, note, nothing, processKind, typedDate } from '../values.ts';

const celsius = z.number().min(-10).max(110);
const seconds = z.number().positive().max(86_400);

export const development = z.strictObject({
  id,
  process: processKind,
  processName: z.string().nullable(),
  state: z.enum(['planned', 'running', 'done', 'aborted']),
  date: calendarDate.nullable(),
  pushStops: z.number(),
  developerSeconds: z.number().nullable(),
  developerTempC: z.number().nullable(),
  developerNominalTempC: z.number().nullable(),
  bath: z.strictObject({ id, name: z.string() }).nullable(),
  note: z.string().nullable(),
  rolls: z.array(z.strictObject({ id, number: z.string() })),
});
export type Development = z.output<typeof development>;

/** Developments as recorded afterwards; planning and running come on top. */
export const DEVELOPMENT_METHODS = {
  'developments.list': method(nothing, z.array(development)),
  'developments.get': method(z.strictObject({ id }), development),
  'developments.record': method(
    z.strictObject({
      rollIds: z.array(id).min(1).max(100),
      process: processKind,
      date: typedDate,
      pushStops: z.number().min(-5).max(5).default(0),
      developerTempC: celsius.nullable().default(null),
      developerSeconds: seconds.nullable().default(null),
      note: note.default(null),
    }),
    made,
    ['developments', 'rolls'],
  ),
} as const;
