import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { LayoutRow } from '../../../shared/api/methods/filing-methods.ts';
import { findPageLayout, PAGE_LAYOUTS, type PageLayout } from '../../../shared/domain/filing/page-layout.ts';
import { query, type ReadableDb } from '../db/query.ts';

const ownRow = z.object({ layout: z.string() });

const ownLayout = z.object({
  id: z.string(),
  name: z.string(),
  rows: z.number(),
  positions: z.number(),
  pocket: z.enum(['strip', 'single']),
  pocketLengthMm: z.number(),
  pocketHeightMm: z.number(),
  filmFormats: z.array(z.string()),
  pageWidthMm: z.number(),
  pageHeightMm: z.number(),
});

function ownLayouts(db: ReadableDb): PageLayout[] {
  return query(db, ownRow, 'SELECT layout_json AS layout FROM page_layout ORDER BY id')
    .all()
    .map((row) => ({
      ...ownLayout.parse(JSON.parse(row.layout)),
      source: { kind: 'yours', text: 'your own layout' },
    }));
}

/** The usual layouts and the user's own. */
export function allLayouts(db: ReadableDb): readonly PageLayout[] {
  return [...ownLayouts(db), ...PAGE_LAYOUTS];
}

/** The layout of that id. @throws {AppError} layout_not_found */
export function requireLayout(db: ReadableDb, id: string): PageLayout {
  const found = findPageLayout(id, ownLayouts(db));
  if (!found) throw appError('layout_not_found', { name: id });
  return found;
}

/** A layout as the window and the command line show it. */
export function layoutToRow(layout: PageLayout): LayoutRow {
  const { source: _source, filmFormats, ...shown } = layout;
  return { ...shown, filmFormats: [...filmFormats] };
}
