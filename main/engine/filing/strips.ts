import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { FrameToFile } from '../../../shared/domain/filing/cut.ts';
import { query, type ReadableDb } from '../db/query.ts';

const stripRow = z.object({ filmFormat: z.string() });
const frameRow = z.object({ label: z.string(), frameFormat: z.string() });

/** A strip with its frames from the left. @throws {AppError} page_not_found */
export function requireStripRow(
  db: ReadableDb,
  stripId: number,
): { filmFormat: string; frames: FrameToFile[] } {
  const strip = query(
    db,
    stripRow,
    'SELECT roll.film_format AS filmFormat FROM strip JOIN roll ON roll.id = strip.roll_id WHERE strip.id = :stripId',
  ).find({ stripId });
  if (!strip) throw appError('page_not_found', { name: `strip ${stripId}` });
  const frames = query(
    db,
    frameRow,
    `SELECT frame.label, coalesce(frame.frame_format, roll.frame_format) AS frameFormat
     FROM frame JOIN roll ON roll.id = frame.roll_id WHERE frame.strip_id = :stripId ORDER BY frame.strip_position`,
  ).all({ stripId });
  return { ...strip, frames };
}

const takenRow = z.object({ row: z.number(), roll: z.string() });

/** Whose film lies in a row of a page (in any row when `row` is not given), leaving out one roll; or null. */
export function rollOfPocket(
  db: ReadableDb,
  pageId: number,
  exceptRollId: number | null,
  row: number | null = null,
) {
  return query(
    db,
    takenRow,
    `SELECT strip.row, roll.number AS roll FROM strip JOIN roll ON roll.id = strip.roll_id
     WHERE strip.page_id = :pageId AND strip.roll_id IS NOT :exceptRollId AND (:row IS NULL OR strip.row = :row)
     ORDER BY strip.row LIMIT 1`,
  ).find({ pageId, exceptRollId, row });
}
