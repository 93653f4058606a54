import { z } from 'zod';
import type { Hit } from '../../../shared/api/methods/search-methods.ts';
import { query, type ReadableDb, type Value } from '../db/query.ts';
import { placeColumns, placeFromRow } from '../filing/place-row.ts';
import { OUTING_OF_FRAME, versionsOfFrames } from '../film/frame-rows.ts';

const hitRow = z.object({
  frameId: z.number(),
  rollId: z.number(),
  roll: z.string(),
  sort: z.string(),
  ordinal: z.number(),
  frame: z.string(),
  caption: z.string().nullable(),
  ...placeColumns,
  outing_id: z.number().nullable(),
  outing_title: z.string().nullable(),
  outing_date: z.string().nullable(),
  development_id: z.number().nullable(),
  development_process: z.string().nullable(),
  development_date: z.string().nullable(),
});

/** A frame with all that a person asks of it: roll, place, outing, development. */
const HIT = `
SELECT frame.id AS frameId, roll.id AS rollId, roll.number AS roll, roll.number_sort AS sort, frame.ordinal,
  frame.label AS frame, frame.caption, binder.id AS binderId, binder.name AS binder, page.id AS pageId,
  page.number AS page, strip.row, strip.position + frame.strip_position - 1 AS position,
  outing.id AS outing_id, outing.title AS outing_title, outing.date_edtf AS outing_date,
  development.id AS development_id, development.process AS development_process,
  development.date_edtf AS development_date
FROM frame JOIN roll ON roll.id = frame.roll_id
LEFT JOIN strip ON strip.id = frame.strip_id
LEFT JOIN page ON page.id = strip.page_id
LEFT JOIN binder ON binder.id = page.binder_id
LEFT JOIN outing ON outing.id = ${OUTING_OF_FRAME}
LEFT JOIN development ON development.id = (SELECT max(done.id) FROM development_roll
  JOIN development AS done ON done.id = development_roll.development_id AND done.state = 'done'
  WHERE development_roll.roll_id = roll.id)`;

/** The hits for which `condition` holds, in natural order of roll and along the film. */
export function findHits(db: ReadableDb, condition: string, values: Record<string, Value>): Hit[] {
  const rows = query(
    db,
    hitRow,
    `${HIT} WHERE ${condition} ORDER BY roll.number_sort, roll.id, frame.ordinal`,
  ).all(values);
  const versions = versionsOfFrames(
    db,
    rows.map((row) => row.frameId),
  );
  return rows.map((row) => hitFromRow(row, versions.get(row.frameId)?.[0]?.pictureId ?? null));
}

function hitFromRow(row: z.output<typeof hitRow>, picture: string | null): Hit {
  return {
    frameId: row.frameId,
    rollId: row.rollId,
    roll: row.roll,
    frame: row.frame,
    caption: row.caption,
    pictureId: picture,
    lies: placeFromRow(row),
    outing:
      row.outing_id === null || row.outing_title === null
        ? null
        : { id: row.outing_id, title: row.outing_title, date: row.outing_date },
    development:
      row.development_id === null || row.development_process === null
        ? null
        : { id: row.development_id, process: row.development_process, date: row.development_date },
  };
}
