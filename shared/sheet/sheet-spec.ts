import { z } from 'zod';

/**
 * Unprintable margin of a common desktop printer, millimetres on each side.
 * Our choice, between the 3 mm of many ink-jets and the 1/6 in (4.23 mm) of many lasers (both from memory).
 */
const DEFAULT_MARGIN_MM = 4;

/** The smallest and largest scale that may be asked for; 1 is true size. Our choice. */
export const SCALE_LIMITS = { least: 0.1, most: 8 } as const;

/** What the user chose for a contact sheet. Every field has a default, so `{}` is a sheet at true size. */
export const sheetSpec = z.strictObject({
  /** Id of a paper of `paper.ts`, or `custom` with its size in `customMm`. */
  paperId: z.string().min(1).default('a4'),
  customMm: z
    .strictObject({ widthMm: z.number().min(20).max(2000), heightMm: z.number().min(20).max(2000) })
    .nullable()
    .default(null),
  /** `auto` takes the way round that fits, upright where both do. */
  orientation: z.enum(['auto', 'upright', 'wide']).default('auto'),
  marginMm: z.number().min(0).max(100).default(DEFAULT_MARGIN_MM),
  look: z.enum(['film', 'ink-saving']).default('film'),
  /** 1 is true size; `fit` is the largest that fits; nothing else ever changes the size. */
  scale: z.union([z.literal('fit'), z.number().min(SCALE_LIMITS.least).max(SCALE_LIMITS.most)]).default(1),
  /** `outer` lets the edges above the first and below the last strip run off; `all` those of every strip. */
  trim: z.enum(['none', 'outer', 'all']).default('none'),
  /** `as-needed` lets the strips of one page go over several sheets of paper. */
  sheets: z.enum(['one', 'as-needed']).default('one'),
  /** Captions of the frames, each under its frame. */
  captions: z.boolean().default(false),
  pencilMarks: z.boolean().default(true),
  /** The 100 mm ruler and, where there is room for it, the 36 × 24 mm box. */
  ruler: z.boolean().default(true),
  /** Title and lines of the roll. */
  heading: z.boolean().default(true),
  /** Printed instead of the title of the roll. */
  title: z.string().max(300).nullable().default(null),
});
export type SheetSpec = z.output<typeof sheetSpec>;
