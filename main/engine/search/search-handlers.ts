import { z } from 'zod';
import type { Input } from '../../../shared/api/contract.ts';
import { appError } from '../../../shared/api/errors.ts';
import type { Hit } from '../../../shared/api/methods/search-methods.ts';
import { matchQuery } from '../../../shared/domain/text/search-text.ts';
import { readDate } from '../db/calendar-date.ts';
import { query, type ReadableDb, type Value } from '../db/query.ts';
import { countRow } from '../db/rows.ts';
import { OUTING_OF_FRAME, versionsOfFrames } from '../film/frame-rows.ts';
import type { HandlersOf } from '../handler.ts';
import { readStaleWords } from './words.ts';

const hitRow = z.object({
  frameId: z.number(),
  rollId: z.number(),
  roll: z.string(),
  sort: z.string(),
  ordinal: z.number(),
  frame: z.string(),
  caption: z.string().nullable(),
  binderId: z.number().nullable(),
  binder: z.string().nullable(),
  pageId: z.number().nullable(),
  page: z.number().nullable(),
  row: z.number().nullable(),
  position: z.number().nullable(),
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
  const { binderId, binder, pageId, page, row: pocketRow, position } = row;
  const lies =
    binderId === null ||
    binder === null ||
    pageId === null ||
    page === null ||
    pocketRow === null ||
    position === null
      ? null
      : { binderId, binder, pageId, page, row: pocketRow, position };
  return {
    frameId: row.frameId,
    rollId: row.rollId,
    roll: row.roll,
    frame: row.frame,
    caption: row.caption,
    pictureId: picture,
    lies,
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

type Search = Input<'search.frames'>;

function conditionsOf(search: Search): { readonly sql: string; readonly values: Record<string, Value> } {
  const parts = ['1'];
  const values: Record<string, Value> = {};
  const match = matchQuery(search.words);
  if (match !== null) {
    parts.push('frame.id IN (SELECT rowid FROM frame_words WHERE frame_words MATCH :match)');
    values['match'] = match;
  }
  if (search.cameraId !== undefined) {
    parts.push('roll.camera_id = :cameraId');
    values['cameraId'] = search.cameraId;
  }
  if (search.stockId !== undefined) {
    parts.push('roll.stock_id = :stockId');
    values['stockId'] = search.stockId;
  }
  // A vague date is found when its span touches the span asked for.
  if (search.from !== undefined) {
    parts.push('coalesce(frame.taken_latest, outing.date_latest) >= :from');
    values['from'] = readDate(search.from, 'from').earliest;
  }
  if (search.to !== undefined) {
    parts.push('coalesce(frame.taken_earliest, outing.date_earliest) <= :to');
    values['to'] = readDate(search.to, 'to').latest;
  }
  return { sql: parts.join(' AND '), values };
}

const cursor = z.tuple([z.string(), z.number(), z.number()]);

/** Where a page of hits went on, as opaque text. */
function readCursor(text: string): z.output<typeof cursor> {
  try {
    return cursor.parse(JSON.parse(text));
  } catch (error) {
    throw appError(
      'value_not_valid',
      { field: 'after', value: text, reason: 'it is not an answer of a search' },
      error,
    );
  }
}

const orderRow = z.object({ id: z.number(), sort: z.string(), rollId: z.number(), ordinal: z.number() });

function searchFrames(db: ReadableDb, search: Search): { total: number; hits: Hit[]; next: string | null } {
  const { sql, values } = conditionsOf(search);
  const from = `FROM frame JOIN roll ON roll.id = frame.roll_id LEFT JOIN outing ON outing.id = ${OUTING_OF_FRAME}`;
  const total = query(db, countRow, `SELECT count(*) AS count ${from} WHERE ${sql}`).find(values)?.count ?? 0;
  let after = '1';
  if (search.after !== undefined) {
    const [sort, rollId, ordinal] = readCursor(search.after);
    after = '(roll.number_sort, roll.id, frame.ordinal) > (:afterSort, :afterRoll, :afterOrdinal)';
    Object.assign(values, { afterSort: sort, afterRoll: rollId, afterOrdinal: ordinal });
  }
  const page = query(
    db,
    orderRow,
    `SELECT frame.id, roll.number_sort AS sort, roll.id AS rollId, frame.ordinal ${from} WHERE ${sql} AND ${after}
     ORDER BY roll.number_sort, roll.id, frame.ordinal LIMIT :limit`,
  ).all({ ...values, limit: search.limit + 1 });
  const shown = page.slice(0, search.limit);
  const last = page.length > search.limit ? shown.at(-1) : undefined;
  const ids = JSON.stringify(shown.map((row) => row.id));
  return {
    total,
    hits: findHits(db, 'frame.id IN (SELECT value FROM json_each(:ids))', { ids }),
    next: last ? JSON.stringify([last.sort, last.rollId, last.ordinal]) : null,
  };
}

export const SEARCH_HANDLERS: HandlersOf<'search.frames'> = {
  'search.frames': ({ db }, search) => {
    readStaleWords(db);
    return searchFrames(db, search);
  },
};
