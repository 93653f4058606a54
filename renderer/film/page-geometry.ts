import type { LayoutRow } from '../../shared/api/methods/filing-methods.ts';
import { wholePixelScale } from './film-scale.ts';

/** Left of the pockets: holes, then the numbers of the rows. */
export const BOUND_MM = 20;
/** The open end of a row, beyond its film: there the thumb goes in. */
export const THUMB_MM = 7;
/** Right of the pockets. */
const OPEN_EDGE_MM = 2;
/** Between two pockets. */
export const WELD_MM = 2.2;
/** Of the writing strip above the pockets, in pixels: it holds text, which does not shrink with the film. */
export const HEADING_PX = 58;

/** Whether each position of a row is a pocket of its own, for a single frame or sheet, or the row is one pocket. */
export function hasSinglePockets(layout: Pick<LayoutRow, 'pocket'>): boolean {
  return layout.pocket === 'single';
}

/** The pockets of a row, from the left, mm. */
export function rowLengthMm(layout: LayoutRow): number {
  return layout.pocketLengthMm * (hasSinglePockets(layout) ? layout.positions : 1);
}

/** The page as drawn, mm, without its heading. */
export function pageSizeMm(layout: LayoutRow): { readonly widthMm: number; readonly heightMm: number } {
  return {
    widthMm: BOUND_MM + rowLengthMm(layout) + THUMB_MM + OPEN_EDGE_MM,
    heightMm: layout.rows * (layout.pocketHeightMm + WELD_MM) + 2 * WELD_MM,
  };
}

/** The largest scale at which the whole page goes into so many pixels, px per mm; a height of null does not bound it. */
export function fitPage(
  layout: LayoutRow,
  room: { readonly widthPx: number; readonly heightPx: number | null },
  headingPx: number = HEADING_PX,
): number {
  const { widthMm, heightMm } = pageSizeMm(layout);
  const high = room.heightPx === null ? Number.POSITIVE_INFINITY : (room.heightPx - headingPx) / heightMm;
  return wholePixelScale(Math.min((room.widthPx - 2) / widthMm, high));
}

/** Filing holes. Source: ISO 838, 80 mm apart, 6 mm wide, 12 mm from the edge; four of them is common practice. */
export const FILING_HOLE = { apartMm: 80, wideMm: 6, fromEdgeMm: 12 } as const;

/** Where the centres of the filing holes lie, mm from the page's upper edge: as many as go in, about its middle. */
export function filingHolesMm(heightMm: number): readonly number[] {
  const count = heightMm > 3 * FILING_HOLE.apartMm + 2 * FILING_HOLE.fromEdgeMm ? 4 : 2;
  const first = heightMm / 2 - ((count - 1) / 2) * FILING_HOLE.apartMm;
  return Array.from({ length: count }, (_, index) => first + index * FILING_HOLE.apartMm);
}
