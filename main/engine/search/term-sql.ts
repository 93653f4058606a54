import { C41_DEVELOPER_C } from '../../../shared/domain/development/meant-temperature.ts';
import type { Value } from '../db/query.ts';

/** A SELECT of ids of frames or of rolls; whatever a person typed is bound, never written into the text. */
export interface TermSql {
  readonly of: 'frames' | 'rolls';
  readonly sql: string;
  readonly values: Readonly<Record<string, Value>>;
}

/** Both ends of a range of numbers; an open end is bound as null. */
type Ends = { readonly from: Value; readonly to: Value };

const between = (expression: string) =>
  `(:from IS NULL OR ${expression} >= :from) AND (:to IS NULL OR ${expression} <= :to) AND ${expression} IS NOT NULL`;

const frames = (sql: string, values: TermSql['values'] = {}): TermSql => ({ of: 'frames', sql, values });
const rolls = (sql: string, values: TermSql['values'] = {}): TermSql => ({ of: 'rolls', sql, values });

/** Rolls that went through a finished development for which `condition` holds. */
const developedRolls = (condition: string) =>
  `SELECT development_roll.roll_id FROM development
   JOIN development_roll ON development_roll.development_id = development.id
   WHERE development.state = 'done' AND ${condition}`;

/** Frames with a scan for which `condition` holds. */
const scannedFrames = (condition: string) =>
  `SELECT frame_scan.frame_id FROM scan JOIN frame_scan ON frame_scan.scan_id = scan.id WHERE ${condition}`;

/** What was measured on the picture of a frame's scan. */
const MEASURED = `FROM picture JOIN scan ON scan.sha256 = picture.sha256
  JOIN frame_scan ON frame_scan.scan_id = scan.id AND frame_scan.page = picture.page
  WHERE picture.cast_json IS NOT NULL AND json_valid(picture.cast_json)`;

const STRENGTH = `(SELECT a * a + b * b FROM (SELECT json_extract(picture.cast_json, '$.a') AS a,
  json_extract(picture.cast_json, '$.b') AS b))`;

/** A span of days overlaps the bound one; open ends of either count as far away. */
const touches = (edtf: string, earliest: string, latest: string) =>
  `${edtf} IS NOT NULL AND coalesce(${earliest}, '0') <= :to AND coalesce(${latest}, '9') >= :from`;

const EXPIRY = touches(
  'coalesce(roll.expires_edtf, batch.expires_edtf)',
  'iif(roll.expires_edtf IS NOT NULL, roll.expires_earliest, batch.expires_earliest)',
  'iif(roll.expires_edtf IS NOT NULL, roll.expires_latest, batch.expires_latest)',
);

const PUSH = `SELECT id FROM roll WHERE id IN (${developedRolls(between('development.push_stops'))})
  OR (${between('push_stops')} AND id NOT IN (${developedRolls('1')}))`;

/** What a developer was meant to have, as `meantTemperature` has it. */
const MEANT_C = `coalesce(development.developer_nominal_temp_c, iif(development.process = 'c41', ${C41_DEVELOPER_C}, NULL))`;

/** Rolls or frames whose number of a kind lies in a range. */
export const NUMBER_TERMS = {
  iso: (ends: Ends) =>
    rolls(
      `SELECT roll.id FROM roll JOIN stock ON stock.id = roll.stock_id WHERE ${between('stock.iso')}`,
      ends,
    ),
  ei: (ends: Ends) => rolls(`SELECT id FROM roll WHERE ${between('exposure_index')}`, ends),
  push: (ends: Ends) => rolls(PUSH, ends),
  temperature: (ends: Ends) => rolls(developedRolls(between('development.developer_temp_c')), ends),
  // Rounded, since 38.3 − 38 is a little more than 0.3 in binary.
  off: (ends: Ends) =>
    rolls(developedRolls(between(`round(development.developer_temp_c - ${MEANT_C}, 6)`)), ends),
  used: (ends: Ends) => rolls(developedRolls(between('development.developer_used_before_cm2')), ends),
  page: (ends: Ends) =>
    frames(
      `SELECT frame.id FROM page JOIN strip ON strip.page_id = page.id JOIN frame ON frame.strip_id = strip.id
       WHERE ${between('page.number')}`,
      ends,
    ),
  pixels: (ends: Ends) => frames(scannedFrames(between('max(scan.width, scan.height)')), ends),
  megabytes: (ends: Ends) => frames(scannedFrames(between('scan.size_bytes / 1e6')), ends),
  cast: ({ from, to }: { readonly from: number | null; readonly to: number | null }) =>
    frames(`SELECT frame_scan.frame_id ${MEASURED} AND ${between(STRENGTH)}`, {
      from: from === null ? null : Math.max(0, from) ** 2,
      to: to === null ? null : Math.sign(to) * to ** 2,
    }),
} as const;

/** Rolls whose date of a kind touches a span of days. */
export const DATE_TERMS = {
  expires: (ends: Ends) =>
    rolls(`SELECT roll.id FROM roll LEFT JOIN batch ON batch.id = roll.batch_id WHERE ${EXPIRY}`, ends),
  developed: (ends: Ends) =>
    rolls(
      developedRolls(
        touches('development.date_edtf', 'development.date_earliest', 'development.date_latest'),
      ),
      ends,
    ),
} as const;

const AMONG = 'IN (SELECT value FROM json_each(:names))';

/** Text fields: where the texts stand, and whose frames or rolls have one of them (`:names`, a JSON list). */
export const TEXT_TERMS = {
  title: {
    texts: 'SELECT DISTINCT title FROM roll WHERE title IS NOT NULL',
    found: rolls(`SELECT id FROM roll WHERE title ${AMONG}`),
  },
  frame: {
    texts: 'SELECT DISTINCT label FROM frame',
    found: frames(`SELECT id FROM frame WHERE label ${AMONG}`),
  },
  tag: {
    texts: 'SELECT name FROM tag',
    found: frames(
      `SELECT frame_tag.frame_id FROM tag JOIN frame_tag ON frame_tag.tag_id = tag.id WHERE tag.name ${AMONG}`,
    ),
  },
  stock: {
    texts: 'SELECT name FROM stock',
    found: rolls(`SELECT roll.id FROM stock JOIN roll ON roll.stock_id = stock.id WHERE stock.name ${AMONG}`),
  },
  maker: {
    texts: 'SELECT DISTINCT maker FROM stock WHERE maker IS NOT NULL',
    found: rolls(
      `SELECT roll.id FROM stock JOIN roll ON roll.stock_id = stock.id WHERE stock.maker ${AMONG}`,
    ),
  },
  camera: {
    texts: 'SELECT name FROM camera',
    found: rolls(
      `SELECT roll.id FROM camera JOIN roll ON roll.camera_id = camera.id WHERE camera.name ${AMONG}`,
    ),
  },
  lens: {
    texts: 'SELECT name FROM lens',
    found: frames(`SELECT frame.id FROM lens JOIN frame ON frame.lens_id = lens.id WHERE lens.name ${AMONG}`),
  },
  format: {
    texts: 'SELECT DISTINCT film_format FROM roll',
    found: rolls(`SELECT id FROM roll WHERE film_format ${AMONG}`),
  },
  'frame-format': {
    texts:
      'SELECT frame_format FROM roll UNION SELECT frame_format FROM frame WHERE frame_format IS NOT NULL',
    found: frames(
      `SELECT frame.id FROM frame JOIN roll ON roll.id = frame.roll_id
       WHERE coalesce(frame.frame_format, roll.frame_format) ${AMONG}`,
    ),
  },
  bath: {
    texts: 'SELECT name FROM bath',
    found: rolls(
      developedRolls(`(development.developer_bath_id IN (SELECT id FROM bath WHERE name ${AMONG})
        OR development.id IN (SELECT development_id FROM development_step
          JOIN bath ON bath.id = development_step.bath_id WHERE bath.name ${AMONG}))`),
    ),
  },
  binder: {
    texts: 'SELECT name FROM binder',
    found: frames(
      `SELECT frame.id FROM binder JOIN page ON page.binder_id = binder.id
       JOIN strip ON strip.page_id = page.id JOIN frame ON frame.strip_id = strip.id WHERE binder.name ${AMONG}`,
    ),
  },
  fault: {
    texts: 'SELECT DISTINCT kind FROM fault',
    found: frames(`SELECT frame_id FROM fault WHERE kind ${AMONG}`),
  },
  kind: {
    texts: 'SELECT DISTINCT kind FROM scan',
    found: frames(scannedFrames(`scan.kind ${AMONG}`)),
  },
} as const;

const has = (column: string) => `${column} IS NOT NULL AND ${column} <> ''`;

/** What a frame or its roll can have, apart from what its own columns and its outing say (date, place, outing). */
export const THING_TERMS = {
  scan: frames('SELECT frame_id FROM frame_scan'),
  caption: frames(`SELECT id FROM frame WHERE ${has('caption')}`),
  tag: frames('SELECT frame_id FROM frame_tag'),
  mark: frames('SELECT frame_id FROM pencil_mark'),
  fault: frames('SELECT frame_id FROM fault'),
  note: frames(`SELECT id FROM frame WHERE ${has('note')}`),
  stock: rolls('SELECT id FROM roll WHERE stock_id IS NOT NULL'),
  camera: rolls('SELECT id FROM roll WHERE camera_id IS NOT NULL'),
  lens: frames('SELECT id FROM frame WHERE lens_id IS NOT NULL'),
  expiry: rolls(
    `SELECT roll.id FROM roll LEFT JOIN batch ON batch.id = roll.batch_id
     WHERE coalesce(roll.expires_edtf, batch.expires_edtf) IS NOT NULL`,
  ),
  development: rolls(developedRolls('1')),
  page: frames(
    `SELECT frame.id FROM strip JOIN frame ON frame.strip_id = strip.id WHERE strip.page_id IS NOT NULL`,
  ),
  cast: frames(`SELECT frame_scan.frame_id ${MEASURED}`),
} as const;

/** Choices kept in columns of their own. */
export const CHOICE_TERMS = {
  state: (choice: string) => rolls('SELECT id FROM roll WHERE state = :choice', { choice }),
  mark: (choice: string) => frames('SELECT frame_id FROM pencil_mark WHERE kind = :choice', { choice }),
} as const;

/** The frames whose words match a query of the full-text index. */
export function wordsSql(match: string): TermSql {
  return frames('SELECT rowid FROM frame_words WHERE frame_words MATCH :match', { match });
}
