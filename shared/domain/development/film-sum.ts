import { findFilmArea, ROLL_AREA_CM2, type FilmArea } from '../film/film-area.ts';
import { accept, refuse, type Checked } from '../checked.ts';
import { arithmetic } from './source.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shown } from './working.ts';

/** Film of one kind in a load: the id of its format, exposures as on the box (null for the usual), how many pieces. */
export type FilmItem = {
  readonly name: string;
  readonly filmFormat: string;
  readonly exposures: number | null;
  readonly pieces: number;
};

/** What a load comes to, cm² and units of 80 sq in. */
type FilmSum = { readonly areaCm2: number; readonly rolls: number };

/** Why a load has no area. */
export type FilmSumRefusal = 'no_film' | 'format_unknown' | 'exposures_not_positive' | 'pieces_not_positive';

/** Adds the film of a load up; kinds with no piece are left out. */
export function addUpFilm(items: readonly FilmItem[]): WorkedOrNot<FilmSum, FilmSumRefusal> {
  const present = items.filter((item) => item.pieces !== 0);
  if (present.length === 0) return refuse('no_film');
  const lines: WorkingLine[] = [];
  let areaCm2 = 0;
  for (const { name, filmFormat, exposures, pieces } of present) {
    const area: Checked<FilmArea, FilmSumRefusal> = findFilmArea(filmFormat, exposures, pieces);
    if (!area.ok) return area;
    areaCm2 += area.value.areaCm2;
    lines.push({
      label: `${pieces} × ${name}`,
      formula: `${pieces} × ${shown(area.value.areaCm2 / pieces)} cm²`,
      value: area.value.areaCm2,
      unit: 'cm²',
      source: area.value.source,
    });
  }
  const rolls = areaCm2 / ROLL_AREA_CM2;
  lines.push({
    label: 'In rolls of 80 sq in',
    formula: `${shown(areaCm2)} / ${shown(ROLL_AREA_CM2)}`,
    value: rolls,
    unit: 'rolls',
    source: arithmetic('80 × 2.54² = 516.13 cm²'),
  });
  return accept({ value: { areaCm2, rolls }, lines });
}
