import { arrangePlan } from './arrange-plan.ts';
import type { PlanShortfall } from './arrange-plan.ts';
import type { FilmBlock } from './film-block.ts';
import { stripLengthMm } from './film-block.ts';
import { describeScale } from './heading.ts';
import { PAPERS } from './paper.ts';
import type { PaperSize } from './paper.ts';
import type { Misfit, Offer } from './sheet-layout.ts';
import type { PlannedPage, SheetPlan } from './sheet-plan.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** How many other papers are offered at most: the smallest that do. */
const PAPERS_OFFERED = 2;

/** Millimetres for a sentence: `228`, `203.2`. */
function say(mm: number): string {
  return String(Math.round(mm * 10) / 10);
}

/** What does not fit and what would; every offer was tried on the whole plan. */
export function describeMisfit(
  plan: SheetPlan,
  spec: SheetSpec,
  paper: PaperSize,
  worst: PlanShortfall,
): Misfit {
  const page = plan.pages[worst.page];
  if (!page) throw new Error('The worst page is not in the plan');
  return {
    page: worst.page,
    byMm: worst.byMm,
    sentence: worst.film === null ? sayNotes(worst.byMm) : sayFilm(page, spec, worst),
    offers: findOffers(plan, spec, paper),
  };
}

function sayNotes(byMm: number): string {
  return `The film fits; the heading and the ruler beside it lack ${say(byMm)} mm.`;
}

function sayFilm(page: PlannedPage, spec: SheetSpec, { film, block, scale }: PlanShortfall): string {
  if (film === null) return '';
  const atScale = describeScale(scale) === null ? '' : ` at ${(scale * 100).toFixed(1)} %`;
  const sentences: string[] = [];
  if (film.heightMm > 0) {
    sentences.push(
      `${sayRows(page, spec, block)} make ${say(block.heightMm * scale)} mm${atScale}; ${sayRoom(film.paper.heightMm, spec)}.`,
    );
  }
  if (film.lengthMm > 0) {
    sentences.push(
      `${sayLongest(block)} ${say(block.lengthMm * scale)} mm${atScale}; ${sayRoom(film.paper.widthMm, spec)}.`,
    );
  }
  return sentences.join(' ');
}

function sayRows(page: PlannedPage, spec: SheetSpec, block: FilmBlock): string {
  const count = block.bands.length;
  const strips = count === 1 ? '1 strip' : `${count} strips`;
  const captions = spec.captions ? ' with captions' : '';
  if (spec.trim === 'all') return `${strips} with trimmed edges${captions}`;
  const outer = spec.trim === 'outer' ? ' without the outer edges' : '';
  return `${strips} of ${say(page.film.widthMm)} mm${outer}${captions}`;
}

function sayLongest(block: FilmBlock): string {
  const strips = block.bands.flatMap((band) => band.row.strips);
  const alone = strips.find((strip) => Math.abs(stripLengthMm(strip) - block.lengthMm) < 1e-6);
  if (!alone) return 'The longest row takes';
  const frames = alone.frames.length;
  return `A strip of ${frames} ${frames === 1 ? 'frame' : 'frames'} is`;
}

function sayRoom(paperMm: number, spec: SheetSpec): string {
  if (spec.marginMm === 0) return `the paper has ${say(paperMm)} mm`;
  const between = say(Math.max(0, paperMm - 2 * spec.marginMm));
  return `the paper has ${say(paperMm)} mm, ${between} mm between its margins of ${say(spec.marginMm)} mm`;
}

function findOffers(plan: SheetPlan, spec: SheetSpec, paper: PaperSize): Offer[] {
  const perforated = plan.pages.some((page) => page.film.perforated);
  const edges = perforated ? 'perforations' : 'film edges';
  const attempt = (
    kind: Offer['kind'],
    sentence: string,
    change: Partial<SheetSpec>,
    size: PaperSize = paper,
  ): Offer[] => {
    const changed = { ...spec, ...change };
    const arranged = arrangePlan(plan, changed, size);
    if (!arranged.ok) return [];
    return [{ kind, sentence, spec: changed, scale: arranged.scale, sheets: arranged.sheets.length }];
  };
  const firstOf = (...attempts: (() => Offer[])[]): Offer[] => {
    for (const each of attempts) {
      const found = each();
      if (found.length > 0) return found;
    }
    return [];
  };
  return [
    ...(spec.captions
      ? attempt('without-captions', 'Leave out the captions under the frames', { captions: false })
      : []),
    ...(spec.heading || spec.ruler
      ? attempt('without-margin-notes', 'Leave out heading and ruler', { heading: false, ruler: false })
      : []),
    ...(spec.trim === 'all'
      ? []
      : firstOf(
          () =>
            spec.trim === 'none'
              ? attempt('trim-perforations', `Let the outer ${edges} run off; every picture stays whole`, {
                  trim: 'outer',
                })
              : [],
          () =>
            attempt('trim-perforations', `Trim the ${edges} of every strip; every picture stays whole`, {
              trim: 'all',
            }),
        )),
    ...[...PAPERS]
      .sort((a, b) => a.widthMm * a.heightMm - b.widthMm * b.heightMm)
      .filter((other) => other.id !== spec.paperId)
      .flatMap((other) =>
        attempt('paper', `Print on ${other.name}`, { paperId: other.id, customMm: null }, other),
      )
      .slice(0, PAPERS_OFFERED),
    ...(spec.sheets === 'one'
      ? attempt('second-sheet', 'Let the strips go on over more sheets', { sheets: 'as-needed' }).map(
          (offer) => ({ ...offer, sentence: `Use ${offer.sheets} sheets` }),
        )
      : []),
    ...(spec.scale === 'fit'
      ? []
      : attempt('scale', '', { scale: 'fit' })
          .filter((offer) => typeof spec.scale === 'number' && offer.scale < spec.scale)
          .map((offer) => ({
            ...offer,
            sentence: `Print the film at ${(offer.scale * 100).toFixed(1)} % of its true size; the sheet will say so`,
          }))),
  ];
}
