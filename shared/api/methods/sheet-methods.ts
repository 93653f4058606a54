import { z } from 'zod';
import { method } from '../method.ts';
import { id } from '../values.ts';

const millimetres = z.number();

/** Contact sheets. The choices and the display list are shaped by shared/sheet. */
export const SHEET_METHODS = {
  'sheets.write': method(
    z.strictObject({
      rollIds: z.array(id).min(1).max(500),
      spec: z.unknown(),
      file: z.string().min(1),
      overwrite: z.boolean().default(false),
    }),
    z.strictObject({
      files: z.array(z.string()),
      pages: z.number().int(),
      scale: z.number(),
      paper: z.strictObject({ widthMm: millimetres, heightMm: millimetres }),
      frames: z.array(
        z.strictObject({
          frame: z.string(),
          page: z.number().int(),
          xMm: millimetres,
          yMm: millimetres,
          widthMm: millimetres,
          heightMm: millimetres,
        }),
      ),
      misfit: z.unknown(),
      missingGlyphs: z.array(z.string()),
    }),
    ['sheets'],
  ),
} as const;
