import type { Page } from '../../shared/api/methods/filing-methods.ts';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { frameGeometry } from '../film/film-geometry.ts';

/** A row of film, with the notes that stand beside it. */
export interface FilmRow {
  /** The frames of the roll in it, from the left. */
  readonly frames: readonly Frame[];
  /** Film of other rolls that lies in the same row. */
  readonly others: readonly { readonly rollId: number; readonly number: string }[];
}

/** The rows of a page as far as they hold film of `rollId`. */
export function rowsOfPage(
  page: Page,
  rollId: number,
  known: ReadonlyMap<number, Frame>,
): readonly FilmRow[] {
  return Array.from({ length: page.layout.rows }, (_, index) => {
    const strips = page.strips.filter(({ row }) => row === index + 1).sort((a, b) => a.position - b.position);
    const others = strips.filter((strip) => strip.rollId !== rollId);
    return {
      frames: strips
        .filter((strip) => strip.rollId === rollId)
        .flatMap((strip) => strip.frames.flatMap(({ id }) => known.get(id) ?? [])),
      others: [...new Map(others.map((strip) => [strip.rollId, strip.roll]))].map(([id, number]) => ({
        rollId: id,
        number,
      })),
    };
  });
}

/** Film that goes into one row on the desk, mm: six frames of 35 mm film. Our choice. */
const LOOSE_ROW_MM = 6 * 38;

/** Frames that lie in no page, in rows as long as a usual strip. */
export function looseRows(frames: readonly Frame[], filmFormat: string): readonly FilmRow[] {
  const rows: Frame[][] = [];
  let usedMm = Number.POSITIVE_INFINITY;
  for (const frame of frames) {
    const { cellMm } = frameGeometry(frame.frameFormat, filmFormat);
    if (usedMm + cellMm > LOOSE_ROW_MM + 1) {
      rows.push([]);
      usedMm = 0;
    }
    rows.at(-1)?.push(frame);
    usedMm += cellMm;
  }
  return rows.map((row) => ({ frames: row, others: [] }));
}

/** Lines of notes beside a row: how many, how high, and in how many columns they stand. */
export interface LineLayout {
  readonly lines: number;
  readonly columns: number;
  readonly linePx: number;
}

/** Below this a line of the smallest text, 12 px, is cut off. */
const LEAST_LINE_PX = 12.5;

/** One line for each place of a row, exactly as high together as the strip; side by side where that is too low. */
export function layLines(places: number, stripPx: number): LineLayout {
  const most = Math.max(1, Math.floor(stripPx / LEAST_LINE_PX));
  const columns = Math.ceil(Math.max(1, places) / most);
  const lines = Math.ceil(Math.max(1, places) / columns);
  return { lines, columns, linePx: stripPx / lines };
}

/** A run of frames of one outing, over the rows of a page: from and to are places counted through all rows. */
export interface OutingRun {
  readonly outing: { readonly id: number; readonly name: string };
  readonly from: { readonly row: number; readonly index: number };
  readonly to: { readonly row: number; readonly index: number };
}

/** The runs of outings along the rows; frames without an outing part them. */
export function outingRuns(rows: readonly FilmRow[]): readonly OutingRun[] {
  const runs: OutingRun[] = [];
  let open = false;
  for (const [row, { frames }] of rows.entries()) {
    for (const [index, frame] of frames.entries()) {
      const last = runs.at(-1);
      if (frame.outing === null) open = false;
      else if (open && last && last.outing.id === frame.outing.id) {
        runs[runs.length - 1] = { ...last, to: { row, index } };
      } else {
        runs.push({ outing: frame.outing, from: { row, index }, to: { row, index } });
        open = true;
      }
    }
  }
  return runs;
}
