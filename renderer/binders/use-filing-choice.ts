import { useState } from 'react';
import type { Given } from '../../shared/api/contract.ts';
import type { Binder, LayoutRow, Page } from '../../shared/api/methods/filing-methods.ts';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { useArchive } from '../api/use-query.ts';
import { readCut } from './read-cut.ts';

/** What was typed and chosen on the slip. */
export interface FilingGiven {
  readonly binder: string;
  readonly newBinder: boolean;
  readonly page: string;
  /** Null: the program's own choice. */
  readonly layoutId: string | null;
  readonly cut: string;
  readonly morePages: boolean;
}

export interface FilingChoice {
  readonly given: FilingGiven;
  set(change: Partial<FilingGiven>): void;
  /** What the engine is asked; null while something is missing or cannot be read. */
  readonly choice: Given<'filing.propose'> | null;
  readonly pageWrong: boolean;
  readonly roll: RollRow | null;
  /** The layouts that take the roll's film. */
  readonly layouts: readonly LayoutRow[];
  readonly layout: LayoutRow | null;
  /** The pages of the chosen binder. */
  readonly pages: readonly Page[];
}

/** The choices of the slip, beginning with the open binder and the layout that its pages have. */
export function useFilingChoice(
  rollId: number,
  binders: readonly Binder[],
  open: Binder | null,
): FilingChoice {
  const first = open ?? binders[0] ?? null;
  const [given, setGiven] = useState<FilingGiven>({
    binder: first?.name ?? '',
    newBinder: first === null,
    page: '',
    layoutId: null,
    cut: '',
    morePages: true,
  });
  const { data: rolls } = useArchive('rolls.rows', { ids: [rollId] });
  const { data: allLayouts } = useArchive('layouts.list', {});
  const binder = given.newBinder ? null : (binders.find(({ name }) => name === given.binder) ?? null);
  const { data: pages } = useArchive(
    'pages.ofBinder',
    { binderId: binder?.id ?? 1 },
    { when: binder !== null },
  );
  const roll = rolls?.[0] ?? null;
  const layouts = (allLayouts ?? []).filter(
    ({ filmFormats }) => roll && filmFormats.includes(roll.filmFormat),
  );
  const hanging = binder === null ? [] : (pages ?? []);
  const layout =
    layouts.find(({ id }) => id === given.layoutId) ?? (roll && usualLayout(roll, layouts, hanging));
  const pageText = given.page.trim();
  const page = pageText === '' ? null : Number(pageText);
  const pageWrong = page !== null && !(Number.isInteger(page) && page >= 1);
  const cut = readCut(given.cut);
  // The pages of the binder decide what the usual layout is: no proposal before they are known.
  const ready = binder === null || pages !== undefined;
  const name = given.binder.trim();
  const choice =
    layout && cut.ok && !pageWrong && name !== '' && ready
      ? {
          rollId,
          binder: name,
          page,
          layoutId: layout.id,
          cut: cut.value === null ? null : [...cut.value],
          morePages: given.morePages,
        }
      : null;
  return {
    given,
    set: (change) => setGiven((before) => ({ ...before, ...change })),
    choice,
    pageWrong,
    roll,
    layouts,
    layout: layout ?? null,
    pages: hanging,
  };
}

/**
 * The layout to begin with: one that the binder has pages of and that has a place for every frame, the most frequent
 * first; else the most frequent; else the smallest that has a place for every frame; else the largest.
 */
export function usualLayout(
  roll: Pick<RollRow, 'frames' | 'exposures'>,
  layouts: readonly LayoutRow[],
  pages: readonly Pick<Page, 'layout'>[],
): LayoutRow | null {
  const often = (layout: LayoutRow) => pages.filter((page) => page.layout.id === layout.id).length;
  const places = (layout: LayoutRow) => layout.rows * layout.positions;
  const frames = Math.max(roll.frames, roll.exposures ?? 0);
  const holds = (layout: LayoutRow) => places(layout) >= frames;
  const hung = layouts
    .filter((layout) => often(layout) > 0)
    .sort((a, b) => Number(holds(b)) - Number(holds(a)) || often(b) - often(a));
  if (hung[0]) return hung[0];
  const bySize = [...layouts].sort((a, b) => places(a) - places(b));
  return bySize.find(holds) ?? bySize.at(-1) ?? null;
}
