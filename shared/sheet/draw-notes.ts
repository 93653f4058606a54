import type { Arrangement } from './arrange.ts';
import { headingAtScale, LINE_BAND_MM, NOTES_BESIDE_MM } from './arrange.ts';
import type { TextReport } from './draw-text.ts';
import type { FilmBlock } from './film-block.ts';
import { rowLengthMm } from './film-block.ts';
import { drawBlock, drawSingleLine } from './heading.ts';
import type { Heading } from './heading.ts';
import { placeNotes } from './place-items.ts';
import type { Note } from './place-items.ts';
import { CHECK_BOX, drawCheckBox, drawRuler, RULER_ROOM_MM } from './ruler.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** Ticks of a ruler with a band of its own and of one in a line, mm. */
const TICK_MM = 3.4;
const LINE_TICK_MM = 2.4;
/** Keeps the width of its lines inside the printable area, mm. */
const INSET_MM = 0.1;

/** Heading, ruler and check box of one sheet of paper, where the arrangement has room for them. */
export function drawSheetNotes(
  arrangement: Arrangement,
  block: FilmBlock,
  heading: Heading,
  spec: SheetSpec,
  report: TextReport,
): Note[] {
  const full = headingAtScale(heading, arrangement.scale);
  const { paper } = arrangement;
  const left = spec.marginMm;
  const top = spec.marginMm;
  const right = paper.widthMm - spec.marginMm;
  const foot = paper.heightMm - spec.marginMm;
  const widthMm = right - left;
  const heightMm = foot - top;
  switch (arrangement.notes) {
    case 'bare':
      return [];
    case 'line-below':
      return [
        ...placeNotes(drawLine(full, widthMm, spec, report), {
          xMm: left,
          yMm: foot - LINE_BAND_MM,
          turned: 0,
        }),
        ...boxInFreePocket(arrangement, block, spec, report),
      ];
    case 'line-beside':
      return [
        ...placeNotes(drawLine(full, heightMm, spec, report), { xMm: left, yMm: foot, turned: 270 }),
        ...boxInFreePocket(arrangement, block, spec, report),
      ];
    case 'headed':
    case 'mixed':
    case 'sided': {
      const words =
        arrangement.notes === 'sided'
          ? placeNotes(drawBlock(full, heightMm, report), { xMm: left, yMm: foot, turned: 270 })
          : placeNotes(drawBlock(full, widthMm, report), { xMm: left, yMm: top, turned: 0 });
      if (!spec.ruler) return words;
      const turned = arrangement.notes === 'headed' ? 0 : 90;
      const ruler = placeNotes(
        drawRuler(TICK_MM, report),
        turned === 0
          ? { xMm: left + INSET_MM, yMm: foot - INSET_MM, turned }
          : { xMm: right - INSET_MM - TICK_MM, yMm: arrangement.filmYMm + INSET_MM, turned },
      );
      if (!arrangement.box) return [...words, ...ruler, ...boxInFreePocket(arrangement, block, spec, report)];
      const box = placeNotes(
        drawCheckBox(report),
        turned === 0
          ? {
              xMm: right - CHECK_BOX.widthMm - INSET_MM,
              yMm: foot - CHECK_BOX.heightMm - INSET_MM,
              turned,
            }
          : {
              xMm: right - INSET_MM,
              yMm: arrangement.filmYMm + RULER_ROOM_MM + NOTES_BESIDE_MM,
              turned,
            },
      );
      return [...words, ...ruler, ...box];
    }
  }
}

/** Heading and ruler in one line `lengthMm` long and `LINE_BAND_MM` high, top left at the origin. */
function drawLine(heading: Heading, lengthMm: number, spec: SheetSpec, report: TextReport): Note[] {
  const rulerMm = spec.ruler ? RULER_ROOM_MM + NOTES_BESIDE_MM : 0;
  const words = placeNotes(drawSingleLine(heading, lengthMm - rulerMm, report), {
    xMm: 0,
    yMm: LINE_BAND_MM / 2,
    turned: 0,
  });
  if (!spec.ruler) return words;
  const ruler = placeNotes(drawRuler(LINE_TICK_MM, report), {
    xMm: lengthMm - RULER_ROOM_MM,
    yMm: LINE_BAND_MM / 2 + LINE_TICK_MM / 2,
    turned: 0,
  });
  return [...words, ...ruler];
}

/**
 * The check box on paper that a short row leaves free, the lowest such row; nothing where every row is full: then each
 * picture of 35 mm film is the box.
 */
function boxInFreePocket(
  arrangement: Arrangement,
  block: FilmBlock,
  spec: SheetSpec,
  report: TextReport,
): Note[] {
  if (!spec.ruler) return [];
  const { scale, filmXMm, filmYMm, gapMm, paper, notesMm } = arrangement;
  const right = paper.widthMm - spec.marginMm - notesMm.rightMm - INSET_MM;
  let found: { xMm: number; yMm: number } | null = null;
  let top = filmYMm;
  for (const band of block.bands) {
    const heightMm = band.heightMm * scale;
    const freeMm = right - (filmXMm + rowLengthMm(band.row) * scale);
    if (freeMm >= CHECK_BOX.widthMm + NOTES_BESIDE_MM / 2 && heightMm >= CHECK_BOX.heightMm + 2 * INSET_MM) {
      found = { xMm: right - CHECK_BOX.widthMm, yMm: top + (heightMm - CHECK_BOX.heightMm) / 2 };
    }
    top += heightMm + gapMm;
  }
  return found === null ? [] : placeNotes(drawCheckBox(report), { ...found, turned: 0 });
}
