import { MM_PER_INCH } from '../../units/length.ts';
import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import type { Source } from '../development/source.ts';
import { ruleOfThumb } from '../development/source.ts';

/** A sleeve page: rows of pockets. A layout of the user's own has the same shape. Lengths in millimetres. */
export type PageLayout = {
  readonly id: string;
  readonly name: string;
  readonly rows: number;
  /** Places in a row as the page is sold: frames of its usual format, or sheets. */
  readonly positions: number;
  /** `strip`: a row is one pocket for one strip. `single`: every position is a pocket for one frame or sheet. */
  readonly pocket: 'strip' | 'single';
  /** Along the row. */
  readonly pocketLengthMm: number;
  /** Across the row. */
  readonly pocketHeightMm: number;
  readonly filmFormats: readonly string[];
  /** Outer size of the page as it hangs in the binder. */
  readonly pageWidthMm: number;
  readonly pageHeightMm: number;
  readonly source: Source;
};

/** What can be wrong with a layout that a user entered. */
export type LayoutReason =
  'name_missing' | 'count_out_of_range' | 'size_out_of_range' | 'film_format_missing' | 'pockets_exceed_page';

/** Free length beyond the strip, mm. Our choice: a pocket must exceed its strip; no maker's table was found. */
const SPARE_MM = 4;

const COUNT_SOURCE = ruleOfThumb(
  'Common practice, no source: rows and positions as pages are commonly sold; sizes follow from the film',
);

/** About 8.5 × 11 in, the usual American page. Common practice, no source. */
const LETTER_PAGE = { pageWidthMm: 8.5 * MM_PER_INCH, pageHeightMm: 11 * MM_PER_INCH };

/** The usual European page, wider than A4: 260–270 × 310 mm. Common practice, no source. */
const WIDE_PAGE = { pageWidthMm: 265, pageHeightMm: 310 };

type PageSize = { readonly pageWidthMm: number; readonly pageHeightMm: number };

function stripPage(
  id: string,
  name: string,
  rows: number,
  positions: number,
  stripMm: number,
  film: { readonly heightMm: number; readonly formats: readonly string[] },
  page: PageSize,
): PageLayout {
  return {
    id,
    name,
    rows,
    positions,
    pocket: 'strip',
    pocketLengthMm: stripMm + SPARE_MM,
    pocketHeightMm: film.heightMm,
    filmFormats: film.formats,
    ...page,
    source: COUNT_SOURCE,
  };
}

function sheetPage(
  filmFormat: string,
  name: string,
  rows: number,
  positions: number,
  sheet: { readonly alongRowMm: number; readonly acrossRowMm: number },
): PageLayout {
  return {
    id: `${filmFormat}-${String(rows)}x${String(positions)}`,
    name,
    rows,
    positions,
    pocket: 'single',
    pocketLengthMm: sheet.alongRowMm + SPARE_MM,
    pocketHeightMm: sheet.acrossRowMm + SPARE_MM,
    filmFormats: [filmFormat],
    ...LETTER_PAGE,
    source: COUNT_SOURCE,
  };
}

/** Pockets 2 mm higher than 35 mm film; 126 is of the same width. Our choice, as `SPARE_MM`. */
const SMALL = { heightMm: 37, formats: ['135', '126'] };

/** Pockets 2 mm higher than the widest figure for 120 film, 62 mm; 127 lies loose in them. Our choice, as above. */
const MEDIUM = { heightMm: 64, formats: ['120', '220', '620', '127'] };

/**
 * The usual page layouts. The number of rows and positions is common practice without a source; a pocket is as
 * long as its strip (frames × pitch) and 4 mm, so a page of 5 or 6 frames of 35 mm takes 5 or 6, not one more.
 */
export const PAGE_LAYOUTS: readonly PageLayout[] = [
  stripPage('35mm-7x5', '35 mm, 7 strips of 5', 7, 5, 5 * 38, SMALL, LETTER_PAGE),
  stripPage('35mm-6x6', '35 mm, 6 strips of 6', 6, 6, 6 * 38, SMALL, WIDE_PAGE),
  stripPage('35mm-7x6', '35 mm, 7 strips of 6', 7, 6, 6 * 38, SMALL, WIDE_PAGE),
  stripPage('35mm-7x4', '35 mm, 7 strips of 4', 7, 4, 4 * 38, SMALL, LETTER_PAGE),
  stripPage('120-4x3', '120, 4 strips of 3 (6×6)', 4, 3, 3 * 62, MEDIUM, LETTER_PAGE),
  stripPage('120-3x4', '120, 3 strips of 4 (6×6)', 3, 4, 4 * 62, MEDIUM, WIDE_PAGE),
  stripPage('120-4x4', '120, 4 strips of 4 (6×4.5)', 4, 4, 4 * 46.5, MEDIUM, LETTER_PAGE),
  stripPage('120-4x2', '120, 4 strips of 2 (6×9)', 4, 2, 2 * 90, MEDIUM, LETTER_PAGE),
  stripPage('120-3x3', '120, 3 strips of 3 (6×7)', 3, 3, 3 * 75, MEDIUM, WIDE_PAGE),
  stripPage('120-4x3-wide', '120, 4 strips of 3 (6×7)', 4, 3, 3 * 75, MEDIUM, WIDE_PAGE),
  sheetPage('4x5in', '4×5 in, 4 sheets', 2, 2, { alongRowMm: 100, acrossRowMm: 125.4 }),
  sheetPage('5x7in', '5×7 in, 2 sheets', 2, 1, { alongRowMm: 176.2, acrossRowMm: 125.4 }),
  sheetPage('8x10in', '8×10 in, 1 sheet', 1, 1, { alongRowMm: 201.6, acrossRowMm: 252.4 }),
];

/** The layout of that id among the usual ones and the user's own (which win), or null. */
export function findPageLayout(id: string, own: readonly PageLayout[]): PageLayout | null {
  return [...own, ...PAGE_LAYOUTS].find((layout) => layout.id === id) ?? null;
}

/** The layouts that take a film format, in the order given. */
export function layoutsFor(filmFormat: string, layouts: readonly PageLayout[]): readonly PageLayout[] {
  return layouts.filter((layout) => layout.filmFormats.includes(filmFormat));
}

function isCount(value: number): boolean {
  return Number.isInteger(value) && value >= 1 && value <= 100;
}

function isSizeMm(value: number): boolean {
  return Number.isFinite(value) && value >= 5 && value <= 2000;
}

/** A layout of the user's own, or what is wrong with it: 1 to 100 rows and positions, sizes of 5 to 2000 mm. */
export function checkPageLayout(layout: PageLayout): Checked<PageLayout, LayoutReason> {
  if (layout.id.trim() === '' || layout.name.trim() === '') return refuse('name_missing');
  if (!isCount(layout.rows) || !isCount(layout.positions)) return refuse('count_out_of_range');
  const sizes = [layout.pocketLengthMm, layout.pocketHeightMm, layout.pageWidthMm, layout.pageHeightMm];
  if (!sizes.every(isSizeMm)) return refuse('size_out_of_range');
  if (layout.filmFormats.length === 0) return refuse('film_format_missing');
  const pocketsInRow = layout.pocket === 'single' ? layout.positions : 1;
  if (
    layout.rows * layout.pocketHeightMm > layout.pageHeightMm ||
    pocketsInRow * layout.pocketLengthMm > layout.pageWidthMm
  ) {
    return refuse('pockets_exceed_page');
  }
  return accept(layout);
}
