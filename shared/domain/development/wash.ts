import { accept, refuse } from '../checked.ts';
import { arithmetic, published, reported } from './source.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shown } from './working.ts';

/**
 * Fixer that stays on a wet 135-36 film and in a drained 500 ml tank, and the thiosulfate in it.
 * Source: Torzynski on Süssbrich, https://www.largeformatphotography.info/unicolor/com_rolf.html
 */
export const CARRIED_ON_FILM_ML = 4;
/** See `CARRIED_ON_FILM_ML`. */
export const CARRIED_IN_TANK_ML = 6;
/** See `CARRIED_ON_FILM_ML`: milligrams in the 10 ml of both. */
export const THIOSULFATE_CARRIED_MG = 600;

/**
 * Thiosulfate that may stay in film meant to last, µg/cm².
 * Source: ISO 18917:1999 test, http://www.gosmicro.com.au/Services/methylenebluetest.htm
 */
const RESIDUE_LIMIT_UG_PER_CM2 = 1.4;

const CARRIED = reported(
  'Torzynski on Süssbrich, https://www.largeformatphotography.info/unicolor/com_rolf.html',
);

/** What a wash leaves behind. */
export type WashResult = {
  /** Thiosulfate per litre after the first fill, g/l. */
  readonly firstFillGramsPerLitre: number;
  /** Share of what was carried in that is left. */
  readonly shareLeft: number;
  /** What is left, mg. */
  readonly leftMg: number;
  /** What may be left for the film area, mg. */
  readonly limitMg: number;
};

/** Why a wash cannot be worked out. */
export type WashRefusal = 'volume_not_positive' | 'fills_not_whole' | 'amount_not_real' | 'area_not_positive';

/** What is carried into the wash and how it is washed. Volumes in ml, thiosulfate in mg, area in cm². */
export type WashPlan = {
  readonly carriedMl: number;
  readonly carriedMg: number;
  readonly fillMl: number;
  readonly fills: number;
  readonly areaCm2: number;
};

/**
 * A tank washed by `fills` (whole, ≥ 1) of `fillMl`, each drained to the volume that was carried in. It assumes that
 * every fill has time to even out with the gelatine; a hurried fill removes less.
 */
export function washByFills(plan: WashPlan): WorkedOrNot<WashResult, WashRefusal> {
  const { carriedMl, carriedMg, fillMl, fills, areaCm2 } = plan;
  if (!(carriedMl > 0 && fillMl > 0 && Number.isFinite(carriedMl + fillMl)))
    return refuse('volume_not_positive');
  if (!(Number.isInteger(fills) && fills >= 1)) return refuse('fills_not_whole');
  if (!(carriedMg >= 0 && Number.isFinite(carriedMg))) return refuse('amount_not_real');
  if (!(areaCm2 > 0 && Number.isFinite(areaCm2))) return refuse('area_not_positive');
  const perFill = carriedMl / (carriedMl + fillMl);
  const shareLeft = perFill ** fills;
  const leftMg = carriedMg * shareLeft;
  const limitMg = (areaCm2 * RESIDUE_LIMIT_UG_PER_CM2) / 1000;
  const firstFillGramsPerLitre = carriedMg / (carriedMl + fillMl);
  const full = arithmetic('Full evening out in every fill');
  const lines: readonly WorkingLine[] = [
    {
      label: 'In the first fill',
      formula: `${shown(carriedMg)} mg / (${shown(carriedMl)} + ${shown(fillMl)}) ml`,
      value: firstFillGramsPerLitre,
      unit: 'g/l',
      source: CARRIED,
    },
    {
      label: 'Share left',
      formula: `(${shown(carriedMl)} / ${shown(carriedMl + fillMl)}) ^ ${fills}`,
      value: shareLeft,
      unit: '',
      source: full,
    },
    {
      label: 'Thiosulfate left',
      formula: `${shown(carriedMg)} mg × share left`,
      value: leftMg,
      unit: 'mg',
      source: full,
    },
    {
      label: 'May be left in this film',
      formula: `${shown(areaCm2)} cm² × ${RESIDUE_LIMIT_UG_PER_CM2} µg/cm²`,
      value: limitMg,
      unit: 'mg',
      source: published(
        'ISO 18917:1999 limit for long-term film, http://www.gosmicro.com.au/Services/methylenebluetest.htm',
      ),
    },
  ];
  return accept({ value: { firstFillGramsPerLitre, shareLeft, leftMg, limitMg }, lines });
}
