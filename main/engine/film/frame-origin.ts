import { z } from 'zod';
import type { FrameOrigin } from '../../../shared/api/methods/origin-methods.ts';
import { meantTemperature } from '../../../shared/domain/development/meant-temperature.ts';
import { dateColumns, dateFromRow } from '../db/calendar-date.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { idRow } from '../db/rows.ts';
import { requireDevelopment } from '../development/development-rows.ts';
import { requirePage } from '../filing/binders.ts';
import type { HandlersOf } from '../handler.ts';
import { findFrames } from './frame-rows.ts';
import { requireFrame } from './frames.ts';
import { requireOuting } from './outings.ts';
import { requireRoll } from './rolls.ts';

/** Frames shown on either side of one. Our choice: enough to know the place on the film again. */
const BESIDE = 2;

const batchRow = z.object({ emulsion: z.string().nullable() });
const storedRow = z.object({ place: z.enum(['room', 'fridge', 'freezer']), ...dateColumns('since') });

function findBatch(db: ReadableDb, id: number | null): FrameOrigin['batch'] {
  if (id === null) return null;
  const batch = query(db, batchRow, 'SELECT emulsion_number AS emulsion FROM batch WHERE id = :id').find({
    id,
  });
  if (!batch) return null;
  const stored = query(
    db,
    storedRow,
    `SELECT place, since_edtf, since_typed, since_earliest, since_latest FROM batch_storage
     WHERE batch_id = :id ORDER BY since_earliest, id`,
  )
    .all({ id })
    .map((row) => ({ place: row.place, since: dateFromRow(row, 'since') }));
  return { ...batch, stored };
}

const developerRow = z.object({
  usedBeforeCm2: z.number().nullable(),
  bathCapacityCm2: z.number().nullable(),
  ...dateColumns('mixed'),
});

/** The last finished development of a roll, as a search answers it, too. */
function findDevelopment(db: ReadableDb, rollId: number): FrameOrigin['development'] {
  const last = query(
    db,
    idRow,
    `SELECT development.id FROM development_roll JOIN development ON development.id = development_id
     WHERE roll_id = :rollId AND state = 'done' ORDER BY development.id DESC LIMIT 1`,
  ).find({ rollId });
  if (!last) return null;
  const developer = query(
    db,
    developerRow,
    `SELECT developer_used_before_cm2 AS usedBeforeCm2, bath.capacity_cm2 AS bathCapacityCm2, bath.mixed_edtf,
       bath.mixed_typed, bath.mixed_earliest, bath.mixed_latest
     FROM development LEFT JOIN bath ON bath.id = developer_bath_id WHERE development.id = :id`,
  ).find({ id: last.id });
  const development = requireDevelopment(db, last.id);
  return {
    ...development,
    // A development that was noted afterwards had no plan to say what was meant.
    developerNominalTempC: meantTemperature(development.developerNominalTempC, development.process),
    usedBeforeCm2: developer?.usedBeforeCm2 ?? null,
    bathCapacityCm2: developer?.bathCapacityCm2 ?? null,
    bathMixed: developer ? dateFromRow(developer, 'mixed') : null,
  };
}

export const ORIGIN_HANDLERS: HandlersOf<'frames.origin'> = {
  'frames.origin': ({ db }, { frameId }) => {
    const frame = requireFrame(db, frameId);
    const { rollId, ordinal } = frame;
    const roll = requireRoll(db, rollId);
    return {
      frame,
      roll,
      along: findFrames(
        db,
        'frame.roll_id = :rollId AND frame.ordinal BETWEEN :ordinal - :beside AND :ordinal + :beside',
        { rollId, ordinal, beside: BESIDE },
      ),
      batch: findBatch(db, roll.batchId),
      page: frame.lies === null ? null : requirePage(db, frame.lies.pageId),
      outing: frame.outing === null ? null : requireOuting(db, frame.outing.id),
      development: findDevelopment(db, rollId),
    };
  },
};
