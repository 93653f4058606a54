import type { PlannedFrame, PlannedPage, PlannedRow, PlannedStrip } from './sheet-plan.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** Black band with the number under a picture whose film edges are trimmed, mm at true size. Our choice. */
const LABEL_BAND_MM = 3;
/** White band with the caption under a row, mm at true size. Our choice. */
const CAPTION_BAND_MM = 3.6;

/** How one row of strips is cut across the film. Millimetres at true size. */
export interface RowBand {
  readonly row: PlannedRow;
  /** Film left away above and below, each from the film's own edge. */
  readonly cutAboveMm: number;
  readonly cutBelowMm: number;
  /** Added below the film: the band of a trimmed edge, then the band of captions. */
  readonly labelBandMm: number;
  readonly captionBandMm: number;
  readonly heightMm: number;
}

/** The rows that go on one sheet of paper. Millimetres at true size, before any gap between rows. */
export interface FilmBlock {
  readonly bands: readonly RowBand[];
  readonly lengthMm: number;
  readonly heightMm: number;
}

/** Length of a strip, mm: a whole pitch for each frame. */
export function stripLengthMm(strip: PlannedStrip): number {
  return sum(strip.frames.map((frame) => cellMm(frame)));
}

/** Film that belongs to a frame, mm: its pitch, or the picture where that is longer. */
export function cellMm(frame: PlannedFrame): number {
  return Math.max(frame.pitchMm, frame.picture.widthMm);
}

/** Where the strips of a row start, mm: as filed, but never over the strip before. */
export function stripStarts(row: PlannedRow): readonly number[] {
  let free = 0;
  return row.strips.map((strip) => {
    const start = Math.max(free, strip.startMm);
    free = start + stripLengthMm(strip);
    return start;
  });
}

/** Film above (or below) the picture, mm, for the tallest picture of the row. */
function edgeMm(page: PlannedPage, row: PlannedRow): number {
  const heights = row.strips.flatMap((strip) => strip.frames.map((frame) => frame.picture.heightMm));
  return Math.max(0, (page.film.widthMm - Math.max(...heights)) / 2);
}

/** The rows from `first` to before `end` as one block, trimmed and captioned as the user chose. */
export function measureBlock(page: PlannedPage, spec: SheetSpec, first: number, end: number): FilmBlock {
  const rows = page.rows.slice(first, end);
  const bands = rows.map((row, index): RowBand => {
    const edge = edgeMm(page, row);
    const cutAboveMm = spec.trim === 'all' || (spec.trim === 'outer' && index === 0) ? edge : 0;
    const cutBelowMm = spec.trim === 'all' || (spec.trim === 'outer' && index === rows.length - 1) ? edge : 0;
    const labelBandMm = spec.trim === 'all' ? LABEL_BAND_MM : 0;
    const captionBandMm = spec.captions ? CAPTION_BAND_MM : 0;
    const filmMm = page.film.widthMm - cutAboveMm - cutBelowMm;
    return {
      row,
      cutAboveMm,
      cutBelowMm,
      labelBandMm,
      captionBandMm,
      heightMm: filmMm + labelBandMm + captionBandMm,
    };
  });
  return {
    bands,
    lengthMm: Math.max(...rows.map(rowLengthMm)),
    heightMm: sum(bands.map((band) => band.heightMm)),
  };
}

/** Where the last strip of a row ends, mm from the pocket's left end. */
export function rowLengthMm(row: PlannedRow): number {
  const starts = stripStarts(row);
  return Math.max(...row.strips.map((strip, index) => (starts[index] ?? 0) + stripLengthMm(strip)));
}

/**
 * Cuts `count` rows into `parts` neighbouring groups whose sizes differ by one at most, the larger first: 7 in 2 is
 * 4 and 3. Gives where each group ends.
 */
export function splitRows(count: number, parts: number): readonly number[] {
  const least = Math.floor(count / parts);
  const larger = count % parts;
  return Array.from({ length: parts }, (_, part) => (part + 1) * least + Math.min(part + 1, larger));
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
