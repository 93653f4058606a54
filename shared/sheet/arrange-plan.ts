import { arrangeAtScale, filmShortfall, largestScale, missingMm, notesShortfallMm } from './arrange.ts';
import type { Arrangement, Shortfall } from './arrange.ts';
import { measureBlock, splitRows } from './film-block.ts';
import type { FilmBlock } from './film-block.ts';
import type { Heading } from './heading.ts';
import type { PaperSize } from './paper.ts';
import type { PlannedPage, SheetPlan } from './sheet-plan.ts';
import { SCALE_LIMITS } from './sheet-spec.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** One sheet of paper of the plan. */
export interface ArrangedSheet {
  readonly page: PlannedPage;
  readonly block: FilmBlock;
  readonly heading: Heading;
  readonly arrangement: Arrangement;
}

/** The page that is worst, and what it lacks. */
export interface PlanShortfall {
  readonly page: number;
  readonly byMm: number;
  /** The part of the page that goes on one sheet of paper. */
  readonly block: FilmBlock;
  /** What the film lacks; null when the film fits and only the notes do not. */
  readonly film: Shortfall | null;
  readonly scale: number;
}

export type ArrangedPlan =
  | { readonly ok: true; readonly sheets: readonly ArrangedSheet[]; readonly scale: number }
  | { readonly ok: false; readonly worst: PlanShortfall };

/** Places every page of the plan on paper as chosen, or tells which page is farthest from fitting. */
export function arrangePlan(plan: SheetPlan, spec: SheetSpec, paper: PaperSize): ArrangedPlan {
  const scale = spec.scale === 'fit' ? scaleForAll(plan, spec, paper) : spec.scale;
  const sheets: ArrangedSheet[] = [];
  let worst: PlanShortfall | null = null;
  for (const [index, page] of plan.pages.entries()) {
    const arranged = arrangePage(page, spec, paper, scale);
    if (arranged) {
      sheets.push(...arranged);
      continue;
    }
    const lack = lackOf(page, index, spec, paper, scale);
    if (!worst || lack.byMm > worst.byMm) worst = lack;
  }
  return worst ? { ok: false, worst } : { ok: true, sheets, scale };
}

/** One scale for all pages: the largest that each of them bears, or the least that may be asked for. */
function scaleForAll(plan: SheetPlan, spec: SheetSpec, paper: PaperSize): number {
  const scales = plan.pages.map((page) => {
    const load = {
      block: measureBlock(page, spec, 0, page.rows.length),
      heading: headingOf(page, spec, null),
    };
    return largestScale(load, spec, paper, SCALE_LIMITS.most) ?? 0;
  });
  return Math.max(SCALE_LIMITS.least, Math.min(...scales));
}

function headingOf(page: PlannedPage, spec: SheetSpec, part: string | null): Heading {
  if (!spec.heading) return { title: '', lines: part === null ? [] : [part] };
  return {
    title: spec.title ?? page.title,
    lines: [...(part === null ? [] : [part]), ...page.captionLines],
  };
}

function arrangePage(
  page: PlannedPage,
  spec: SheetSpec,
  paper: PaperSize,
  scale: number,
): readonly ArrangedSheet[] | null {
  const most = spec.sheets === 'as-needed' ? page.rows.length : 1;
  for (let parts = 1; parts <= most; parts += 1) {
    const arranged = arrangeParts(page, spec, paper, scale, parts);
    if (arranged) return arranged;
  }
  return null;
}

function arrangeParts(
  page: PlannedPage,
  spec: SheetSpec,
  paper: PaperSize,
  scale: number,
  parts: number,
): readonly ArrangedSheet[] | null {
  const sheets: ArrangedSheet[] = [];
  let first = 0;
  for (const [index, end] of splitRows(page.rows.length, parts).entries()) {
    const block = measureBlock(page, spec, first, end);
    const heading = headingOf(page, spec, parts === 1 ? null : `Sheet ${index + 1} of ${parts}`);
    const arrangement = arrangeAtScale({ block, heading }, spec, paper, scale);
    if (!arrangement) return null;
    sheets.push({ page, block, heading, arrangement });
    first = end;
  }
  return sheets;
}

function lackOf(
  page: PlannedPage,
  index: number,
  spec: SheetSpec,
  paper: PaperSize,
  scale: number,
): PlanShortfall {
  // Where rows may go over several sheets, a single row is the least that has to fit.
  const parts = spec.sheets === 'as-needed' ? page.rows.length : 1;
  const ends = splitRows(page.rows.length, parts);
  const lacks = ends.map((end, part): PlanShortfall => {
    const block = measureBlock(page, spec, ends[part - 1] ?? 0, end);
    const film = filmShortfall(block, spec, paper, scale);
    const filmMm = missingMm(film);
    if (filmMm > 0) return { page: index, byMm: filmMm, block, film, scale };
    const load = { block, heading: headingOf(page, spec, null) };
    return { page: index, byMm: notesShortfallMm(load, spec, paper, scale), block, film: null, scale };
  });
  return lacks.reduce((worst, each) => (each.byMm > worst.byMm ? each : worst));
}
