import { describe, expect, it } from 'vitest';
import { findFilmFormat } from '../../../../shared/domain/film/film-format.ts';
import {
  checkPageLayout,
  findPageLayout,
  layoutsFor,
  PAGE_LAYOUTS,
} from '../../../../shared/domain/filing/page-layout.ts';
import type { PageLayout } from '../../../../shared/domain/filing/page-layout.ts';
import { framesPerPocket } from '../../../../shared/domain/filing/pocket-fit.ts';

function layout(id: string): PageLayout {
  const found = findPageLayout(id, []);
  if (!found) throw new Error(`no layout ${id}`);
  return found;
}

describe('page layouts', () => {
  // Pages as commonly sold (common practice, no source), each with the frame format it is sold for.
  it.each([
    ['35mm-7x5', '24x36', '135', 5],
    ['35mm-6x6', '24x36', '135', 6],
    ['35mm-7x6', '24x36', '135', 6],
    ['35mm-7x4', '24x36', '135', 4],
    ['120-4x3', '6x6', '120', 3],
    ['120-3x4', '6x6', '120', 4],
    ['120-4x4', '6x4.5', '120', 4],
    ['120-4x2', '6x9', '120', 2],
    ['120-3x3', '6x7', '120', 3],
    ['120-4x3-wide', '6x7', '120', 3],
    ['4x5in-2x2', '4x5in', '4x5in', 1],
    ['5x7in-2x1', '5x7in', '5x7in', 1],
    ['8x10in-1x1', '8x10in', '8x10in', 1],
  ])('holds in a pocket of %s as many %s on %s as it is sold for', (id, frame, film, count) => {
    expect(framesPerPocket(frame, film, layout(id))).toBe(count);
  });

  it('holds twice as many half frames as full ones', () => {
    // 19 mm against 38 mm.
    expect(framesPerPocket('18x24', '135', layout('35mm-6x6'))).toBe(12);
    expect(framesPerPocket('18x24', '135', layout('35mm-7x5'))).toBe(10);
  });

  it('holds one 6×17 in a pocket of three 6×6', () => {
    // 168 mm of picture; 2 × 168 = 336 mm would not go into 190 mm.
    expect(framesPerPocket('6x17', '120', layout('120-4x3'))).toBe(1);
  });

  it.each(PAGE_LAYOUTS)('$id passes the check that a layout of the user must pass', (usual) => {
    expect(checkPageLayout(usual)).toEqual({ ok: true, value: usual });
  });

  it.each(PAGE_LAYOUTS)('$id marks its numbers as without a source', (usual) => {
    expect(usual.source.kind).toBe('rule of thumb');
  });

  it.each(PAGE_LAYOUTS)('$id is as wide as every film it takes', (usual) => {
    for (const id of usual.filmFormats) {
      const film = findFilmFormat(id);
      expect(film?.widthMm).toBeLessThan(Math.max(usual.pocketHeightMm, usual.pocketLengthMm));
      expect(framesPerPocket(film?.standardFrame ?? '', id, usual)).toBeGreaterThan(0);
    }
  });

  it('uses every id once', () => {
    const ids = PAGE_LAYOUTS.map((usual) => usual.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('prefers the layout of the user over a usual one of the same id', () => {
    const own = { ...layout('35mm-7x5'), name: 'Mine' };
    expect(findPageLayout('35mm-7x5', [own])?.name).toBe('Mine');
  });

  it('finds none of an unknown id', () => {
    expect(findPageLayout('35mm-9x9', [])).toBeNull();
  });

  it('offers for 4×5 sheets only the page with their pockets', () => {
    expect(layoutsFor('4x5in', PAGE_LAYOUTS).map((usual) => usual.id)).toEqual(['4x5in-2x2']);
  });

  it.each<[string, Partial<PageLayout>]>([
    ['name_missing', { name: ' ' }],
    ['count_out_of_range', { rows: 0 }],
    ['count_out_of_range', { positions: 2.5 }],
    ['size_out_of_range', { pocketLengthMm: Number.NaN }],
    ['size_out_of_range', { pageHeightMm: 3000 }],
    ['film_format_missing', { filmFormats: [] }],
    // 8 rows of 37 mm = 296 mm on a page of 279.4 mm.
    ['pockets_exceed_page', { rows: 8 }],
    ['pockets_exceed_page', { pocketLengthMm: 216 }],
  ])('refuses as %s a layout with %o', (reason, change) => {
    expect(checkPageLayout({ ...layout('35mm-7x5'), ...change })).toEqual({ ok: false, reason });
  });
});
