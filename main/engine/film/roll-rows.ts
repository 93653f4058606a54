import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Roll, RollRow } from '../../../shared/api/methods/film-methods.ts';
import { processKind, rollState } from '../../../shared/api/values.ts';
import { dateColumns, dateFromRow } from '../db/calendar-date.ts';
import { query, type ReadableDb } from '../db/query.ts';

const rollRow = z.object({
  id: z.number(),
  number: z.string(),
  title: z.string().nullable(),
  stock_id: z.number().nullable(),
  stock_name: z.string().nullable(),
  stock_iso: z.number().nullable(),
  stock_process: processKind.nullable(),
  camera_id: z.number().nullable(),
  camera_name: z.string().nullable(),
  film_format: z.string(),
  frame_format: z.string(),
  exposures: z.number().nullable(),
  exposure_index: z.number().nullable(),
  push_stops: z.number().nullable(),
  state: rollState,
  frames: z.number(),
  scans: z.number(),
  shot_earliest: z.string().nullable(),
  shot_latest: z.string().nullable(),
  pages: z.string(),
  ...dateColumns('expires'),
  ...dateColumns('developed'),
});

const pagesJson = z.array(z.strictObject({ pageId: z.number(), binder: z.string(), page: z.number() }));

const SELECT = `
SELECT roll.id, roll.number, roll.title, roll.stock_id, stock.name AS stock_name, stock.iso AS stock_iso,
  stock.process AS stock_process, roll.camera_id, camera.name AS camera_name, roll.film_format, roll.frame_format,
  roll.exposures, roll.exposure_index, roll.push_stops, roll.state,
  coalesce(roll.expires_edtf, batch.expires_edtf) AS expires_edtf,
  coalesce(roll.expires_typed, batch.expires_typed) AS expires_typed,
  coalesce(roll.expires_earliest, batch.expires_earliest) AS expires_earliest,
  coalesce(roll.expires_latest, batch.expires_latest) AS expires_latest,
  (SELECT count(*) FROM frame WHERE frame.roll_id = roll.id) AS frames,
  (SELECT count(DISTINCT frame_scan.scan_id) FROM frame JOIN frame_scan ON frame_scan.frame_id = frame.id
    WHERE frame.roll_id = roll.id) AS scans,
  nullif(min(
    coalesce((SELECT min(taken_earliest) FROM frame WHERE frame.roll_id = roll.id), '9999'),
    coalesce((SELECT min(date_earliest) FROM outing_roll JOIN outing ON outing.id = outing_roll.outing_id
      WHERE outing_roll.roll_id = roll.id), '9999')), '9999') AS shot_earliest,
  nullif(max(
    coalesce((SELECT max(taken_latest) FROM frame WHERE frame.roll_id = roll.id), ''),
    coalesce((SELECT max(date_latest) FROM outing_roll JOIN outing ON outing.id = outing_roll.outing_id
      WHERE outing_roll.roll_id = roll.id), '')), '') AS shot_latest,
  development.date_edtf AS developed_edtf, development.date_typed AS developed_typed,
  development.date_earliest AS developed_earliest, development.date_latest AS developed_latest,
  (SELECT json_group_array(json_object('pageId', place.id, 'binder', place.name, 'page', place.number)) FROM
    (SELECT DISTINCT page.id, binder.name, page.number FROM strip
      JOIN page ON page.id = strip.page_id JOIN binder ON binder.id = page.binder_id
      WHERE strip.roll_id = roll.id ORDER BY binder.name_sort, page.number) AS place) AS pages
FROM roll
LEFT JOIN stock ON stock.id = roll.stock_id
LEFT JOIN batch ON batch.id = roll.batch_id
LEFT JOIN camera ON camera.id = roll.camera_id
LEFT JOIN development ON development.id = (SELECT max(development_id) FROM development_roll
  JOIN development AS done ON done.id = development_id AND done.state = 'done' WHERE roll_id = roll.id)
WHERE roll.id IN (SELECT value FROM json_each(:ids))`;

/** The rolls with these ids, in the order asked for; those that are gone are left out. */
export function findRollRows(db: ReadableDb, ids: readonly number[]): RollRow[] {
  const found = new Map(
    query(db, rollRow, SELECT)
      .all({ ids: JSON.stringify(ids) })
      .map((row) => [row.id, rollFromRow(row)]),
  );
  return ids.flatMap((id) => found.get(id) ?? []);
}

function rollFromRow(row: z.output<typeof rollRow>): RollRow {
  const { stock_id: stockId, stock_name: stockName, stock_process: process, camera_id: cameraId } = row;
  return {
    id: row.id,
    number: row.number,
    title: row.title,
    stock:
      stockId === null || stockName === null || process === null
        ? null
        : { id: stockId, name: stockName, iso: row.stock_iso, process },
    camera: cameraId === null || row.camera_name === null ? null : { id: cameraId, name: row.camera_name },
    filmFormat: row.film_format,
    frameFormat: row.frame_format,
    exposures: row.exposures,
    exposureIndex: row.exposure_index,
    pushStops: row.push_stops,
    expires: dateFromRow(row, 'expires'),
    state: row.state,
    shot:
      row.shot_earliest === null && row.shot_latest === null
        ? null
        : { earliest: row.shot_earliest, latest: row.shot_latest },
    developed: dateFromRow(row, 'developed'),
    frames: row.frames,
    scans: row.scans,
    pages: pagesJson.parse(JSON.parse(row.pages)),
  };
}

const factsRow = z.object({
  batchId: z.number().nullable(),
  scanPolarity: z.enum(['auto', 'negative', 'positive']),
  lab: z.string().nullable(),
  cassette: z.string().nullable(),
  holder: z.string().nullable(),
  note: z.string().nullable(),
});

/** What a roll has beside its row in lists. @throws {AppError} roll_not_found */
export function requireRollFacts(db: ReadableDb, id: number): z.output<typeof factsRow> {
  const sql = `SELECT batch_id AS batchId, scan_polarity AS scanPolarity, lab, cassette, holder, note
    FROM roll WHERE id = :id`;
  const facts = query(db, factsRow, sql).find({ id });
  if (!facts) throw appError('roll_not_found', { name: String(id) });
  return facts;
}

const stateDateRow = z.object({ state: rollState, ...dateColumns('since') });

/** The states a roll has been in, with the day each began where it is known, in the order of a roll's life. */
export function stateDatesOfRoll(db: ReadableDb, rollId: number): Roll['stateDates'] {
  const rows = query(db, stateDateRow, 'SELECT * FROM roll_state_date WHERE roll_id = :rollId').all({
    rollId,
  });
  const order = rollState.options;
  return rows
    .map((row) => ({ state: row.state, since: dateFromRow(row, 'since') }))
    .sort((a, b) => order.indexOf(a.state) - order.indexOf(b.state));
}

const outingRow = z.object({
  id: z.number(),
  title: z.string(),
  place: z.string().nullable(),
  ...dateColumns('date'),
});

/** The outings a roll was on, earliest first. */
export function outingsOfRoll(db: ReadableDb, rollId: number): Roll['outings'] {
  return query(
    db,
    outingRow,
    `SELECT id, title, place, date_edtf, date_typed, date_earliest, date_latest FROM outing
     JOIN outing_roll ON outing_roll.outing_id = outing.id WHERE roll_id = :rollId ORDER BY date_earliest, id`,
  )
    .all({ rollId })
    .map((row) => ({ id: row.id, title: row.title, place: row.place, date: dateFromRow(row, 'date') }));
}

const developmentRow = z.object({ id: z.number(), process: processKind, ...dateColumns('date') });

/** The developments a roll went through, earliest first. */
export function developmentsOfRoll(db: ReadableDb, rollId: number): Roll['developments'] {
  return query(
    db,
    developmentRow,
    `SELECT id, process, date_edtf, date_typed, date_earliest, date_latest FROM development
     JOIN development_roll ON development_roll.development_id = development.id
     WHERE roll_id = :rollId ORDER BY date_earliest, id`,
  )
    .all({ rollId })
    .map((row) => ({ id: row.id, process: row.process, date: dateFromRow(row, 'date') }));
}
