import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Hit, PageHit, RollHit } from '../../../shared/api/methods/search-methods.ts';
import { rollState } from '../../../shared/api/values.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { idRow } from '../db/rows.ts';
import { versionsOfFrames } from '../film/frame-rows.ts';
import type { Searched } from './evaluate.ts';
import { findHits } from './hits.ts';
import type { Tally } from './tally.ts';

/** A stretch of a result in its order; `next` asks for what follows, null at the end. */
interface Stretch<Item> {
  readonly total: number;
  readonly items: Item[];
  readonly next: string | null;
}

/** Reads where a stretch went on, as opaque text. @throws {AppError} value_not_valid */
function readCursor<Cursor>(shape: z.ZodType<Cursor>, text: string): Cursor {
  try {
    return shape.parse(JSON.parse(text));
  } catch (error) {
    throw appError(
      'value_not_valid',
      { field: 'after', value: text.slice(0, 200), reason: 'it is not an answer of a search' },
      error,
    );
  }
}

const frameCursor = z.tuple([z.string(), z.number(), z.number()]);

/** The place in the order of the first roll at or behind a number and id; the end when there is none. */
function placeOfRoll({ db, columns }: Searched, sort: string, rollId: number): number {
  const found = query(
    db,
    idRow,
    `SELECT id FROM roll WHERE (number_sort, id) >= (:sort, :rollId) ORDER BY number_sort, id LIMIT 1`,
  ).find({ sort, rollId });
  return found ? (columns.rolls.rankOf[found.id] ?? 0) : columns.rolls.ordered.length + 1;
}

const sortRow = z.object({ sort: z.string() });

function sortOfRoll(db: ReadableDb, id: number): string {
  return query(db, sortRow, 'SELECT number_sort AS sort FROM roll WHERE id = :id').find({ id })?.sort ?? '';
}

/** Frames in natural order of their rolls and along the film. */
export function stretchOfFrames(
  on: Searched,
  { ids, byRank }: Tally,
  limit: number,
  after: string | undefined,
): Stretch<Hit> {
  const { db, columns } = on;
  const { rolls, rollOf, ordinal } = columns;
  const [sort, rollId, lastOrdinal] = after === undefined ? ['', 0, 0] : readCursor(frameCursor, after);
  const from = after === undefined ? 1 : placeOfRoll(on, sort, rollId);
  const isSplit = rolls.ordered[from - 1]?.id === rollId;
  // Whole rolls are taken until they fill the stretch and show whether more follows.
  let to = from;
  for (let frames = 0; to < byRank.length && frames <= limit; to += 1) {
    if (!(isSplit && to === from)) frames += byRank[to] ?? 0;
  }
  const chosen: number[] = [];
  if (from < byRank.length) {
    for (const id of ids) {
      const rank = rolls.rankOf[rollOf[id] ?? 0] ?? 0;
      if (rank < from || rank >= to) continue;
      if (!(isSplit && rank === from && (ordinal[id] ?? 0) <= lastOrdinal)) chosen.push(id);
    }
  }
  const rankOf = (id: number) => rolls.rankOf[rollOf[id] ?? 0] ?? 0;
  chosen.sort((a, b) => rankOf(a) - rankOf(b) || (ordinal[a] ?? 0) - (ordinal[b] ?? 0));
  const shown = chosen.slice(0, limit);
  const last = chosen.length > limit ? shown.at(-1) : undefined;
  const lastRoll = rollOf[last ?? 0] ?? 0;
  return {
    total: ids.length,
    items: findHits(db, 'frame.id IN (SELECT value FROM json_each(:ids))', { ids: JSON.stringify(shown) }),
    next: last === undefined ? null : JSON.stringify([sortOfRoll(db, lastRoll), lastRoll, ordinal[last]]),
  };
}

const rollRow = z.object({
  id: z.number(),
  number: z.string(),
  title: z.string().nullable(),
  stock_id: z.number().nullable(),
  stock: z.string().nullable(),
  camera_id: z.number().nullable(),
  camera: z.string().nullable(),
  state: rollState,
});

const ROLLS = `SELECT roll.id, roll.number, roll.title, roll.stock_id, stock.name AS stock, roll.camera_id,
  camera.name AS camera, roll.state
FROM roll LEFT JOIN stock ON stock.id = roll.stock_id LEFT JOIN camera ON camera.id = roll.camera_id
WHERE roll.id IN (SELECT value FROM json_each(:ids)) ORDER BY roll.number_sort, roll.id`;

const rollCursor = z.tuple([z.string(), z.number()]);

/** The rolls that frames were found on, in natural order, each with its first picture. */
export function stretchOfRolls(
  on: Searched,
  { ids: found, byRank }: Tally,
  limit: number,
  after: string | undefined,
): Stretch<RollHit> {
  const { db, columns } = on;
  const { ordered, rankOf } = columns.rolls;
  const [sort, rollId] = after === undefined ? ['', 0] : readCursor(rollCursor, after);
  let rank = after === undefined ? 1 : placeOfRoll(on, sort, rollId);
  if (ordered[rank - 1]?.id === rollId) rank += 1;
  const ids: number[] = [];
  for (; rank < byRank.length && ids.length <= limit; rank += 1) {
    const roll = ordered[rank - 1];
    if (roll !== undefined && (byRank[rank] ?? 0) > 0) ids.push(roll.id);
  }
  const shown = ids.slice(0, limit);
  const pictures = firstPictures(on, found, new Set(shown));
  const last = ids.length > limit ? shown.at(-1) : undefined;
  return {
    total: byRank.reduce((rolls, frames) => rolls + Number(frames > 0), 0),
    items: query(db, rollRow, ROLLS)
      .all({ ids: JSON.stringify(shown) })
      .map((row) => ({
        rollId: row.id,
        roll: row.number,
        title: row.title,
        stock: named(row.stock_id, row.stock),
        camera: named(row.camera_id, row.camera),
        state: row.state,
        frames: byRank[rankOf[row.id] ?? 0] ?? 0,
        pictureId: pictures.get(row.id) ?? null,
      })),
    next: last === undefined ? null : JSON.stringify([sortOfRoll(db, last), last]),
  };
}

function named(id: number | null, name: string | null) {
  return id === null || name === null ? null : { id, name };
}

/** The picture of the first frame found on each of `rolls` that has one. */
function firstPictures({ db, columns }: Searched, found: Int32Array, rolls: ReadonlySet<number>) {
  const frames: number[] = [];
  for (const id of found) if (rolls.has(columns.rollOf[id] ?? 0)) frames.push(id);
  frames.sort((a, b) => (columns.ordinal[a] ?? 0) - (columns.ordinal[b] ?? 0));
  const versions = versionsOfFrames(db, frames);
  const pictures = new Map<number, string>();
  for (const frame of frames) {
    const roll = columns.rollOf[frame] ?? 0;
    const picture = versions.get(frame)?.[0]?.pictureId;
    if (picture !== undefined && !pictures.has(roll)) pictures.set(roll, picture);
  }
  return pictures;
}

const pageRow = z.object({
  pageId: z.number(),
  binderId: z.number(),
  binder: z.string(),
  page: z.number(),
  sort: z.string(),
  frames: z.number(),
  rolls: z.string(),
});

const PAGES = `SELECT page.id AS pageId, binder.id AS binderId, binder.name AS binder, page.number AS page,
  binder.name_sort AS sort, count(*) AS frames, json_group_array(DISTINCT roll.number) AS rolls
FROM json_each(:ids) AS found JOIN frame ON frame.id = found.value JOIN strip ON strip.id = frame.strip_id
JOIN page ON page.id = strip.page_id JOIN binder ON binder.id = page.binder_id JOIN roll ON roll.id = frame.roll_id
GROUP BY page.id ORDER BY binder.name_sort, binder.id, page.number`;

const rollsJson = z.array(z.string());
const pageCursor = z.tuple([z.string(), z.number(), z.number()]);

/** The pages that frames found lie on, as they stand on the shelf. Frames not filed yet lie on none. */
export function stretchOfPages(
  { db }: Searched,
  { ids }: Tally,
  limit: number,
  after: string | undefined,
): Stretch<PageHit> {
  const all = query(db, pageRow, PAGES).all({ ids: `[${ids.join(',')}]` });
  let start = 0;
  if (after !== undefined) {
    const [sort, binderId, page] = readCursor(pageCursor, after);
    const at = all.findIndex(
      (row) => row.sort > sort || (row.sort === sort && (row.binderId - binderId || row.page - page) > 0),
    );
    start = at < 0 ? all.length : at;
  }
  const shown = all.slice(start, start + limit);
  const last = all.length > start + limit ? shown.at(-1) : undefined;
  return {
    total: all.length,
    items: shown.map(({ sort: _sort, rolls, ...row }) => ({
      ...row,
      rolls: rollsJson.parse(JSON.parse(rolls)),
    })),
    next: last === undefined ? null : JSON.stringify([last.sort, last.binderId, last.page]),
  };
}
