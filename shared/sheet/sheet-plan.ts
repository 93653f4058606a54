import { z } from 'zod';
import { pictureRegion, quarterTurn } from './display-list.ts';

/** What is to be printed, apart from the choices of the sheet: pages as filed. Nothing of the database in it. */

const fraction = z.number().min(0).max(1);

/** A mark of the grease pencil. Crop lines are fractions of the picture as it lies on the film. */
const plannedMark = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.enum(['box', 'dot', 'stroke']) }),
  z.strictObject({
    kind: z.literal('crop'),
    x: fraction,
    y: fraction,
    width: fraction,
    height: fraction,
  }),
]);
export type PlannedMark = z.output<typeof plannedMark>;

const plannedFrame = z.strictObject({
  /** Id of the frame, unique in the plan. */
  key: z.string().min(1),
  /** What the film's edge says: `00`, `12A`, `36`. */
  label: z.string(),
  /** The gate: along the film and across it, in millimetres. */
  picture: z.strictObject({ widthMm: z.number().positive(), heightMm: z.number().positive() }),
  /** From the start of this frame to the start of the next, along the film. At least the picture's width. */
  pitchMm: z.number().positive(),
  /**
   * The scan that shows it, turned and mirrored so that it lies as on the film (`turnToLie` finds the turn where
   * nobody recorded one); null when there is none.
   */
  scan: z
    .strictObject({
      pictureId: z.string().min(1),
      region: pictureRegion,
      turned: quarterTurn,
      mirrored: z.boolean(),
    })
    .nullable(),
  /** Printed in words on the frame, `scan damaged`; null when all is well. */
  remark: z.string().max(60).nullable(),
  marks: z.array(plannedMark),
  caption: z.string().max(500).nullable(),
});
export type PlannedFrame = z.output<typeof plannedFrame>;

/** A strip in its pocket. `startMm` is how far from the pocket's left end it starts. */
const plannedStrip = z.strictObject({
  startMm: z.number().nonnegative(),
  /** What the edge of this strip says (stock, emulsion), in turn along it. */
  edgeTexts: z.array(z.string()),
  frames: z.array(plannedFrame).min(1),
});
export type PlannedStrip = z.output<typeof plannedStrip>;

const plannedRow = z.strictObject({
  row: z.number().int().positive(),
  strips: z.array(plannedStrip).min(1),
});
export type PlannedRow = z.output<typeof plannedRow>;

/** A page as it lies in its binder (or the strips of a roll that is filed nowhere yet). */
const plannedPage = z.strictObject({
  title: z.string(),
  /** Date, stock, development, binder address: whatever is known, one line each. */
  captionLines: z.array(z.string()),
  film: z.strictObject({ widthMm: z.number().positive(), perforated: z.boolean() }),
  rows: z.array(plannedRow).min(1),
});
export type PlannedPage = z.output<typeof plannedPage>;

export const sheetPlan = z.strictObject({ pages: z.array(plannedPage).min(1) });
export type SheetPlan = z.output<typeof sheetPlan>;

/**
 * The clockwise turn that lays an upright scan on the film: none when both stand or both lie, a quarter turn when one
 * stands and the other lies. Sizes in any unit; square pictures are left alone.
 * Which of the two quarter turns is right only the film knows; 90 is our choice where nothing was recorded.
 */
export function turnToLie(
  scan: { readonly width: number; readonly height: number },
  picture: { readonly widthMm: number; readonly heightMm: number },
): 0 | 90 {
  const scanStands = Math.sign(scan.height - scan.width);
  const pictureStands = Math.sign(picture.heightMm - picture.widthMm);
  return scanStands * pictureStands === -1 ? 90 : 0;
}
