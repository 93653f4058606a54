import { z } from 'zod';
import { displayPage } from './display-list.ts';
import { sheetSpec } from './sheet-spec.ts';

const mm = z.number();

/** A way out of a misfit. Laying the plan out again with `spec` fits: each one was tried before it was offered. */
const offer = z.strictObject({
  kind: z.enum([
    'trim-perforations',
    'without-captions',
    'without-margin-notes',
    'paper',
    'second-sheet',
    'scale',
  ]),
  /** What is done, in words: `Print on 8.5 × 11 in`. */
  sentence: z.string(),
  spec: sheetSpec,
  scale: z.number(),
  /** Sheets of paper it takes. */
  sheets: z.number().int(),
});
export type Offer = z.output<typeof offer>;

/** What does not fit, and by how much. */
export const misfit = z.strictObject({
  /** Which page of the plan is worst, counted from 0. */
  page: z.number().int(),
  /** Millimetres that are missing. */
  byMm: mm,
  /** `6 strips of 35 mm make 210 mm; the paper has 203.2 mm.` */
  sentence: z.string(),
  offers: z.array(offer),
});
export type Misfit = z.output<typeof misfit>;

/** Where a picture lies, `page` counted from 0. */
const placedFrame = z.strictObject({
  key: z.string(),
  page: z.number().int(),
  xMm: mm,
  yMm: mm,
  widthMm: mm,
  heightMm: mm,
});
export type PlacedFrame = z.output<typeof placedFrame>;

/** A sheet laid out. With a misfit there are no pages: nothing is ever scaled or dropped without being asked for. */
export const sheetLayout = z.strictObject({
  pages: z.array(displayPage),
  frames: z.array(placedFrame),
  misfit: misfit.nullable(),
  /** Size of the film on paper over its true size; printed on the sheet when it is not 1. */
  scale: z.number(),
  /** Characters that no bundled face has, each once; `□` stands for them on the sheet. */
  missingGlyphs: z.array(z.string()),
  /** Texts that had to be cut short with `…`, in full. */
  shortened: z.array(z.string()),
});
export type SheetLayout = z.output<typeof sheetLayout>;
