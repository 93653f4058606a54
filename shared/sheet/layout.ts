import { arrangePlan } from './arrange-plan.ts';
import type { ArrangedSheet } from './arrange-plan.ts';
import type { DisplayItem, DisplayPage } from './display-list.ts';
import { drawSheetNotes } from './draw-notes.ts';
import { drawStrip } from './draw-strip.ts';
import { startTextReport } from './draw-text.ts';
import type { TextReport } from './draw-text.ts';
import { stripStarts } from './film-block.ts';
import { describeMisfit } from './misfit.ts';
import { findPaper } from './paper.ts';
import type { PaperSize } from './paper.ts';
import type { PlacedFrame, SheetLayout } from './sheet-layout.ts';
import type { SheetPlan } from './sheet-plan.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** The size of the paper that was chosen, or null for an unknown id and for `custom` without a size. */
export function findSheetPaper(spec: SheetSpec): PaperSize | null {
  if (spec.paperId === 'custom') return spec.customMm;
  return findPaper(spec.paperId);
}

/**
 * Lays a plan out on paper as chosen: what to draw, where each picture lies, or what does not fit. At true size unless
 * another scale was asked for. A plan that does not fit gives a misfit and no pages; nothing is scaled, split, trimmed
 * or left out that `spec` did not ask for.
 * @throws Error (a bug of the caller) when `findSheetPaper` finds none.
 */
export function layOutSheet(plan: SheetPlan, spec: SheetSpec): SheetLayout {
  const paper = findSheetPaper(spec);
  if (!paper) throw new Error(`No paper ${spec.paperId}`);
  const arranged = arrangePlan(plan, spec, paper);
  if (!arranged.ok) {
    return {
      pages: [],
      frames: [],
      misfit: describeMisfit(plan, spec, paper, arranged.worst),
      scale: arranged.worst.scale,
      missingGlyphs: [],
      shortened: [],
    };
  }
  const report = startTextReport();
  const drawn = arranged.sheets.map((sheet, index) => drawSheet(sheet, spec, index, report));
  return {
    pages: drawn.map(({ page }) => page),
    frames: drawn.flatMap(({ frames }) => frames),
    misfit: null,
    scale: arranged.scale,
    missingGlyphs: [...report.missing],
    shortened: [...report.shortened],
  };
}

function drawSheet(
  { page, block, heading, arrangement }: ArrangedSheet,
  spec: SheetSpec,
  paperPage: number,
  report: TextReport,
): { readonly page: DisplayPage; readonly frames: readonly PlacedFrame[] } {
  const { scale, filmXMm, gapMm, paper } = arrangement;
  const items: DisplayItem[] = [];
  const frames: PlacedFrame[] = [];
  let yMm = arrangement.filmYMm;
  for (const band of block.bands) {
    const starts = stripStarts(band.row);
    for (const [index, strip] of band.row.strips.entries()) {
      const xMm = filmXMm + (starts[index] ?? 0) * scale;
      const drawn = drawStrip(strip, { page, spec, band, xMm, yMm, scale, paperPage, report });
      items.push(...drawn.items);
      frames.push(...drawn.frames);
    }
    yMm += band.heightMm * scale + gapMm;
  }
  items.push(...drawSheetNotes(arrangement, block, heading, spec, report));
  return { page: { widthMm: paper.widthMm, heightMm: paper.heightMm, items }, frames };
}
