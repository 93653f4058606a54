import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Binder, Page, StripOnPage } from '../../../shared/api/methods/filing-methods.ts';
import { naturalKey } from '../../../shared/domain/numbering/natural-key.ts';
import type { Archive } from '../archive/archive.ts';
import { changeRow } from '../db/change-row.ts';
import { command, orTaken, query, type ReadableDb } from '../db/query.ts';
import { countRow, idRow } from '../db/rows.ts';
import { versionsOfFrames } from '../film/frame-rows.ts';
import type { HandlersOf } from '../handler.ts';
import { allLayouts, layoutToRow, requireLayout } from './layouts.ts';

const binderRow = z.object({
  id: z.number(),
  name: z.string(),
  place: z.string().nullable(),
  note: z.string().nullable(),
  pages: z.number(),
  rolls: z.number(),
  layouts: z.string(),
  pocketsTaken: z.number(),
  filmFormats: z.string(),
  earliest: z.string().nullable(),
  latest: z.string().nullable(),
});

/** The outings of the rolls in a binder. */
const SHOT = `FROM page JOIN strip ON strip.page_id = page.id JOIN outing_roll ON outing_roll.roll_id = strip.roll_id
  JOIN outing ON outing.id = outing_roll.outing_id WHERE page.binder_id = binder.id`;

const BINDERS = `SELECT id, name, place, note,
  (SELECT count(*) FROM page WHERE page.binder_id = binder.id) AS pages,
  (SELECT count(DISTINCT strip.roll_id) FROM page JOIN strip ON strip.page_id = page.id
    WHERE page.binder_id = binder.id) AS rolls,
  (SELECT json_group_array(layout_id) FROM page WHERE page.binder_id = binder.id) AS layouts,
  (SELECT count(*) FROM page JOIN strip ON strip.page_id = page.id WHERE page.binder_id = binder.id) AS pocketsTaken,
  (SELECT json_group_array(DISTINCT roll.film_format) FROM page JOIN strip ON strip.page_id = page.id
    JOIN roll ON roll.id = strip.roll_id WHERE page.binder_id = binder.id) AS filmFormats,
  (SELECT min(outing.date_earliest) ${SHOT}) AS earliest, (SELECT max(outing.date_latest) ${SHOT}) AS latest
  FROM binder`;

const texts = z.array(z.string());

/** A binder as shown; its pockets are counted by the layouts of its pages. */
function binderFromRow(db: ReadableDb, row: z.output<typeof binderRow>): Binder {
  const { layouts, filmFormats, earliest, latest, ...rest } = row;
  const pages = texts.parse(JSON.parse(layouts)).map((id) => requireLayout(db, id));
  return {
    ...rest,
    pockets: pages.reduce(
      (sum, page) => sum + page.rows * (page.pocket === 'single' ? page.positions : 1),
      0,
    ),
    filmFormats: texts.parse(JSON.parse(filmFormats)).sort(),
    shot: earliest === null && latest === null ? null : { earliest, latest },
  };
}

/** One binder. @throws {AppError} binder_not_found */
function requireBinder(db: ReadableDb, id: number): Binder {
  const found = query(db, binderRow, `${BINDERS} WHERE id = :id`).find({ id });
  if (!found) throw appError('binder_not_found', { name: String(id) });
  return binderFromRow(db, found);
}

/** The id of the binder of that name, or null. */
export function findBinderByName(db: ReadableDb, name: string): number | null {
  return query(db, idRow, 'SELECT id FROM binder WHERE name = :name').find({ name })?.id ?? null;
}

/** Puts a new binder on the shelf. @throws {AppError} binder_name_taken */
export function addBinder(
  archive: Archive,
  binder: { name: string; place: string | null; note: string | null },
): number {
  return orTaken(
    'binder_name_taken',
    binder.name,
    () =>
      command(
        archive.db,
        `INSERT INTO binder (name, name_sort, place, note, created_at) VALUES (:name, :sort, :place, :note, :at)`,
      )({ ...binder, sort: naturalKey(binder.name), at: archive.now().toISOString() }).id,
  );
}

const pageRow = z.object({
  id: z.number(),
  binderId: z.number(),
  binder: z.string(),
  number: z.number(),
  title: z.string().nullable(),
  material: z.string().nullable(),
  note: z.string().nullable(),
  layoutId: z.string(),
});

const PAGES = `SELECT page.id, page.binder_id AS binderId, binder.name AS binder, page.number, page.title, page.material, page.note,
  page.layout_id AS layoutId FROM page JOIN binder ON binder.id = page.binder_id`;

const stripFrameRow = z.object({
  pageId: z.number(),
  stripId: z.number(),
  rollId: z.number(),
  roll: z.string(),
  title: z.string().nullable(),
  filmFormat: z.string(),
  row: z.number(),
  position: z.number(),
  frameId: z.number(),
  label: z.string(),
  frameFormat: z.string(),
  caption: z.string().nullable(),
});

const STRIPS = `SELECT strip.page_id AS pageId, strip.id AS stripId, roll.id AS rollId, roll.number AS roll, roll.title,
  roll.film_format AS filmFormat, strip.row, strip.position, frame.id AS frameId, frame.label,
  coalesce(frame.frame_format, roll.frame_format) AS frameFormat, frame.caption
  FROM strip JOIN roll ON roll.id = strip.roll_id JOIN frame ON frame.strip_id = strip.id
  WHERE strip.page_id IN (SELECT value FROM json_each(:pages))
  ORDER BY strip.page_id, strip.row, strip.position, frame.strip_position`;

function stripsOnPages(db: ReadableDb, pages: readonly number[]): Map<number, StripOnPage[]> {
  const rows = query(db, stripFrameRow, STRIPS).all({ pages: JSON.stringify(pages) });
  const pictures = versionsOfFrames(
    db,
    rows.map((row) => row.frameId),
  );
  const found = new Map<number, StripOnPage[]>();
  for (const { pageId, frameId, label, frameFormat, caption, ...strip } of rows) {
    const strips = found.get(pageId) ?? [];
    found.set(pageId, strips);
    const pictureId = pictures.get(frameId)?.[0]?.pictureId ?? null;
    const frame = { id: frameId, label, frameFormat, pictureId, caption };
    const last = strips.at(-1);
    if (last?.stripId === strip.stripId) last.frames.push(frame);
    else strips.push({ ...strip, frames: [frame] });
  }
  return found;
}

/** Pages with what lies in them, in the order of the binder. */
function findPages(db: ReadableDb, condition: string, id: number): Page[] {
  const rows = query(db, pageRow, `${PAGES} WHERE ${condition} ORDER BY page.number`).all({ id });
  const strips = stripsOnPages(
    db,
    rows.map((row) => row.id),
  );
  return rows.map(({ layoutId, ...page }) => ({
    ...page,
    layout: layoutToRow(requireLayout(db, layoutId)),
    strips: strips.get(page.id) ?? [],
  }));
}

/** One page with what lies in it. @throws {AppError} page_not_found */
export function requirePage(db: ReadableDb, id: number): Page {
  const page = findPages(db, 'page.id = :id', id)[0];
  if (!page) throw appError('page_not_found', { name: String(id) });
  return page;
}

export const BINDER_HANDLERS: HandlersOf<
  | 'layouts.list'
  | 'binders.list'
  | 'binders.add'
  | 'binders.change'
  | 'binders.remove'
  | 'pages.ofBinder'
  | 'pages.get'
  | 'pages.change'
  | 'pages.remove'
> = {
  'layouts.list': ({ db }) => allLayouts(db).map(layoutToRow),
  'binders.list': ({ db }) =>
    query(db, binderRow, `${BINDERS} ORDER BY name_sort, id`)
      .all()
      .map((row) => binderFromRow(db, row)),
  'binders.add': (archive, binder) =>
    archive.undo.record(`Add binder ${binder.name}`, () => ({ id: addBinder(archive, binder) })),
  'binders.change': (archive, { id, change }) => {
    const before = requireBinder(archive.db, id);
    archive.undo.record(`Change binder ${before.name}`, () =>
      orTaken('binder_name_taken', change.name ?? before.name, () =>
        changeRow(archive.db, 'binder', id, {
          ...change,
          name_sort: change.name === undefined ? undefined : naturalKey(change.name),
        }),
      ),
    );
    return {};
  },
  'binders.remove': (archive, { id }) => {
    const binder = requireBinder(archive.db, id);
    if (binder.pages > 0)
      throw appError('conflict', { reason: `${binder.name} has pages; remove them first.` });
    archive.undo.record(`Remove binder ${binder.name}`, () => {
      command(archive.db, 'DELETE FROM binder WHERE id = :id')({ id });
    });
    return {};
  },
  'pages.ofBinder': ({ db }, { binderId }) => {
    requireBinder(db, binderId);
    return findPages(db, 'page.binder_id = :id', binderId);
  },
  'pages.get': ({ db }, { id }) => requirePage(db, id),
  'pages.change': (archive, { id, change }) => {
    const page = requirePage(archive.db, id);
    archive.undo.record(`Change page ${page.number} of ${page.binder}`, () =>
      changeRow(archive.db, 'page', id, change),
    );
    return {};
  },
  'pages.remove': (archive, { id }) => {
    const page = requirePage(archive.db, id);
    const count = query(archive.db, countRow, 'SELECT count(*) AS count FROM strip WHERE page_id = :id').find(
      { id },
    )?.count;
    if (count)
      throw appError('conflict', {
        reason: `Page ${page.number} of ${page.binder} holds film; take it out first.`,
      });
    archive.undo.record(`Remove page ${page.number} of ${page.binder}`, () => {
      command(archive.db, 'DELETE FROM page WHERE id = :id')({ id });
    });
    return {};
  },
};
