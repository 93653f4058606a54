import { z } from 'zod';
import { processKind } from '../../../shared/api/values.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { query, type ReadableDb } from '../db/query.ts';

const factsRow = z.object({
  process: processKind,
  date: z.string().nullable(),
  seconds: z.number().nullable(),
  tempC: z.number().nullable(),
});

/** How a roll was developed last, as a sheet says it; null when nothing is noted. */
export function developerFactsOfRoll(db: ReadableDb, rollId: number) {
  const found = query(
    db,
    factsRow,
    `SELECT process, date_edtf AS date, developer_seconds AS seconds, developer_temp_c AS tempC FROM development
     JOIN development_roll ON development_roll.development_id = development.id
     WHERE roll_id = :rollId AND state = 'done' ORDER BY development.id DESC LIMIT 1`,
  ).find({ rollId });
  if (!found) return null;
  return { ...found, time: found.seconds === null ? null : formatDuration(found.seconds) };
}
