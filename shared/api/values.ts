import { z } from 'zod';

/** An id of a row. */
export const id = z.number().int().positive();

/** Text a person typed into one line: trimmed, not empty, of a bounded length. */
export const line = z.string().trim().min(1).max(500);

/** Text of several lines, or null for none. */
export const note = z.string().trim().max(20_000).nullable();

/** A date as typed, vague or not; the engine reads it (`1998-07`, `summer 1998`, `ca. 1985`). */
export const typedDate = z.string().trim().min(1).max(200);

/** A calendar date as kept: EDTF, the words typed, and the span for searching (YYYY-MM-DD, null where open). */
export const calendarDate = z.strictObject({
  edtf: z.string(),
  typed: z.string(),
  earliest: z.string().nullable(),
  latest: z.string().nullable(),
});
export type CalendarDate = z.output<typeof calendarDate>;

/** An instant: UTC, ISO 8601. */
export const instant = z.iso.datetime();

/** How a film is processed. */
export const processKind = z.enum(['c41', 'bw', 'e6', 'ecn2', 'other']);
export type ProcessKind = z.output<typeof processKind>;

/** Where a roll is in its life. */
export const rollState = z.enum(['on hand', 'in camera', 'to develop', 'developed', 'filed']);
export type RollState = z.output<typeof rollState>;

/** A thing with its name, for showing and for going to it. */
export const named = z.strictObject({ id, name: z.string() });

/** A path on the disk, of a file or a folder. No system has a NUL in one. */
export const diskPath = z
  .string()
  .min(1)
  .max(4096)
  .refine((path) => !path.includes('\0'), 'a path has no NUL in it');

/** Empty input or output. */
export const nothing = z.strictObject({});

/** Where film lies: binder, page, row and position in the row, all counted from 1. */
export const place = z.strictObject({
  binderId: id,
  binder: z.string(),
  pageId: id,
  page: z.number().int(),
  row: z.number().int(),
  position: z.number().int(),
});
export type Place = z.output<typeof place>;

/** The answer of a method that takes a change back or makes one. */
export const made = z.strictObject({ id });
