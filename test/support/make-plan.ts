import type { PlannedFrame, PlannedPage, SheetPlan } from '../../shared/sheet/sheet-plan.ts';

/** A film and its frames for plans of tests. Millimetres. */
export interface PlanFilm {
  readonly filmMm: number;
  readonly perforated: boolean;
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly pitchMm: number;
}

/** 35 mm film: pictures of 36 × 24 mm, one to 38 mm of film (8 × 4.75 mm). Source: facts of the trade, film geometry. */
export const FILM_135: PlanFilm = { filmMm: 35, perforated: true, alongMm: 36, acrossMm: 24, pitchMm: 38 };
/** 6×6 on 120: pictures of 56 × 56 mm on film 61.5 mm wide; a gap of 5 mm. Source: same. */
export const FILM_6X6: PlanFilm = {
  filmMm: 61.5,
  perforated: false,
  alongMm: 56,
  acrossMm: 56,
  pitchMm: 61,
};
/** Half frame on 35 mm film: 18 mm along, 24 mm across, 4 × 4.75 mm apart. Source: same. */
export const FILM_HALF: PlanFilm = { ...FILM_135, alongMm: 18, pitchMm: 19 };

/** One frame with a scan, changed as told. */
export function makeFrame(number: number, film: PlanFilm, change: Partial<PlannedFrame> = {}): PlannedFrame {
  return {
    key: `frame-${number}`,
    label: String(number),
    picture: { widthMm: film.alongMm, heightMm: film.acrossMm },
    pitchMm: film.pitchMm,
    scan: {
      pictureId: `picture-${number}`,
      region: { x: 0, y: 0, width: 1, height: 1 },
      turned: 0,
      mirrored: false,
    },
    remark: null,
    marks: [],
    caption: null,
    ...change,
  };
}

/** One page of one roll cut into strips of so many frames, one strip to a row, numbered from 1. */
export function makePage(
  cut: readonly number[],
  film: PlanFilm = FILM_135,
  change: (number: number) => Partial<PlannedFrame> = () => ({}),
): PlannedPage {
  let number = 0;
  return {
    title: '2024-027 Moor road to Torrow',
    captionLines: ['Sedge Pan 100, EI 80', 'Development 112, 20.2 °C', 'Spring 2024', 'Binder 10, page 22'],
    film: { widthMm: film.filmMm, perforated: film.perforated },
    rows: cut.map((frames, row) => ({
      row: row + 1,
      strips: [
        {
          startMm: 0,
          edgeTexts: ['SEDGE PAN 100', '2207'],
          frames: Array.from({ length: frames }, () => {
            number += 1;
            return makeFrame(number, film, change(number));
          }),
        },
      ],
    })),
  };
}

/** A plan of one such page. */
export function makePlan(...page: Parameters<typeof makePage>): SheetPlan {
  return { pages: [makePage(...page)] };
}
