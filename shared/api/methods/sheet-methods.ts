import { z } from 'zod';
import { misfit, sheetLayout } from '../../sheet/sheet-layout.ts';
import { sheetSpec } from '../../sheet/sheet-spec.ts';
import { method } from '../method.ts';
import { diskPath, id, nothing } from '../values.ts';

const rolls = z.array(id).min(1).max(500);
const size = z.strictObject({ widthMm: z.number(), heightMm: z.number() });

/** A frame on the sheet: `page` counts from 1, millimetres from the top left. */
const sheetFrame = z.strictObject({
  frameId: id,
  roll: z.string(),
  frame: z.string(),
  page: z.number().int(),
  xMm: z.number(),
  yMm: z.number(),
  widthMm: z.number(),
  heightMm: z.number(),
});

const summary = z.strictObject({
  pages: z.number().int(),
  scale: z.number(),
  paper: size,
  frames: z.array(sheetFrame),
  misfit: misfit.nullable(),
  missingGlyphs: z.array(z.string()),
  shortened: z.array(z.string()),
});

/** Contact sheets: what is chosen and what is drawn are shaped by shared/sheet. */
export const SHEET_METHODS = {
  'sheets.papers': method(
    nothing,
    z.array(z.strictObject({ id: z.string(), name: z.string(), ...size.shape })),
  ),
  /** The sheet as it would be, for the screen. */
  'sheets.layOut': method(
    z.strictObject({ rollIds: rolls, spec: sheetSpec }),
    summary.extend({ layout: sheetLayout }),
  ),
  /** Writes the sheet; with a misfit nothing is written. The file's ending says what is made: .pdf, .png, .tif. */
  'sheets.write': method(
    z.strictObject({
      rollIds: rolls,
      spec: sheetSpec,
      file: diskPath,
      overwrite: z.boolean().default(false),
      ppi: z.union([z.literal(300), z.literal(600)]).default(300),
    }),
    summary.extend({
      files: z.array(z.string()),
      /** Frames whose picture could not be read: words stand in its place on the sheet. */
      unreadable: z.array(z.strictObject({ frameId: id, reason: z.string() })),
    }),
    ['sheets'],
  ),
} as const;
