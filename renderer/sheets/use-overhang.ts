import type { Output } from '../../shared/api/contract.ts';
import type { DisplayPage } from '../../shared/sheet/display-list.ts';
import type { SheetSpec } from '../../shared/sheet/sheet-spec.ts';
import { useArchive } from '../api/use-query.ts';

/** A sheet that does not fit, drawn on a larger paper, with the real one on it. Millimetres. */
export interface Overhang {
  readonly page: DisplayPage;
  /** The real paper, from the upper left of the page. */
  readonly paper: { readonly widthMm: number; readonly heightMm: number };
  /** What falls off at either side; 0 where nothing does. */
  readonly rightMm: number;
  readonly bottomMm: number;
}

/** So much more than is missing, mm, so that rounding does not make it miss again. */
const SPARE_MM = 0.05;

type Sheet = Output<'sheets.layOut'>;

/** How the film would lie on the paper it does not fit, or null: laid out on a paper longer by what is missing. */
export function useOverhang(
  rollIds: readonly number[],
  spec: SheetSpec,
  sheet: Sheet | undefined,
): Overhang | null {
  const misfit = sheet?.misfit ?? null;
  const byMm = misfit?.byMm ?? 0;
  const papers = useArchive('sheets.papers', {});
  const paper = spec.customMm ?? papers.data?.find(({ id }) => id === spec.paperId) ?? null;
  const when = misfit !== null && paper !== null && rollIds.length > 0;
  const [short, long] = paper
    ? [Math.min(paper.widthMm, paper.heightMm), Math.max(paper.widthMm, paper.heightMm)]
    : [100, 100];
  const larger = (widthMm: number, heightMm: number): SheetSpec => ({
    ...spec,
    paperId: 'custom',
    customMm: { widthMm: Math.min(widthMm, 2000), heightMm: Math.min(heightMm, 2000) },
  });
  const more = byMm + SPARE_MM;
  const wider = useArchive(
    'sheets.layOut',
    { rollIds: [...rollIds], spec: larger(short + more, long) },
    { when },
  );
  const longer = useArchive(
    'sheets.layOut',
    { rollIds: [...rollIds], spec: larger(short, long + more) },
    { when },
  );
  const both = useArchive(
    'sheets.layOut',
    { rollIds: [...rollIds], spec: larger(short + more, long + more) },
    { when: when && wider.data?.misfit !== null && longer.data?.misfit !== null },
  );
  if (!when || !misfit) return null;
  const laidOut = [wider.data, longer.data, both.data].find(
    (each) => each !== undefined && each.misfit === null,
  );
  const page = laidOut?.layout.pages[misfit.page] ?? laidOut?.layout.pages[0];
  return page ? overhangOf(page, short, long) : null;
}

function overhangOf(page: DisplayPage, short: number, long: number): Overhang {
  const wide = page.widthMm > page.heightMm;
  const widthMm = Math.min(wide ? long : short, page.widthMm);
  const heightMm = Math.min(wide ? short : long, page.heightMm);
  const beyond = (mm: number) => (mm > 2 * SPARE_MM ? mm - SPARE_MM : 0);
  return {
    page,
    paper: { widthMm, heightMm },
    rightMm: beyond(page.widthMm - widthMm),
    bottomMm: beyond(page.heightMm - heightMm),
  };
}
