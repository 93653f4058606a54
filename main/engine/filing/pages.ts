import { z } from 'zod';
import type { Pocket } from '../../../shared/domain/filing/cut.ts';
import { query, type ReadableDb } from '../db/query.ts';

/** A page that film is to go into; `id` null for one that will be added. */
export interface PageToFill {
  readonly id: number | null;
  readonly number: number;
}

const pageRow = z.object({ id: z.number(), number: z.number(), layoutId: z.string() });

/** A page by binder and number, or (binder null) by id. */
export function findPage(db: ReadableDb, binderId: number | null, numberOrId: number) {
  const select = 'SELECT id, number, layout_id AS layoutId FROM page';
  return binderId === null
    ? query(db, pageRow, `${select} WHERE id = :numberOrId`).find({ numberOrId })
    : query(db, pageRow, `${select} WHERE binder_id = :binderId AND number = :numberOrId`).find({
        binderId,
        numberOrId,
      });
}

const pocketRow = z.object({ row: z.number(), position: z.number() });

/** The pockets of a page that hold film, leaving out the film of one roll or one strip that is to be laid anew. */
export function occupiedPockets(
  db: ReadableDb,
  page: PageToFill,
  exceptRollId: number | null,
  exceptStripId: number | null = null,
): Pocket[] {
  if (page.id === null) return [];
  return query(
    db,
    pocketRow,
    `SELECT row, position FROM strip
     WHERE page_id = :pageId AND roll_id IS NOT :exceptRollId AND id IS NOT :exceptStripId ORDER BY row, position`,
  ).all({ pageId: page.id, exceptRollId, exceptStripId });
}

const freeRow = z.object({ id: z.number(), number: z.number() });
const lastRow = z.object({ last: z.number().nullable() });

/**
 * The next `count` free pages after page `after`: empty pages of the layout that hang in the binder already, then new
 * ones behind the last. A page is empty for roll `rollId` when nothing but its own film lies there.
 */
export function nextFreePages(
  db: ReadableDb,
  binderId: number | null,
  layoutId: string,
  count: number,
  after: number,
  rollId: number | null = null,
): PageToFill[] {
  const free: PageToFill[] = query(
    db,
    freeRow,
    `SELECT id, number FROM page WHERE binder_id = :binderId AND layout_id = :layoutId AND number > :after
       AND NOT EXISTS (SELECT 1 FROM strip WHERE strip.page_id = page.id AND strip.roll_id IS NOT :rollId)
     ORDER BY number LIMIT :count`,
  ).all({ binderId, layoutId, after, rollId, count: Math.max(0, count) });
  const last = query(db, lastRow, 'SELECT max(number) AS last FROM page WHERE binder_id = :binderId').find({
    binderId,
  });
  const behind = Math.max(after, last?.last ?? 0, ...free.map((page) => page.number));
  const fresh = Math.max(0, count - free.length);
  return [
    ...free,
    ...Array.from({ length: fresh }, (_page, extra) => ({ id: null, number: behind + 1 + extra })),
  ];
}
