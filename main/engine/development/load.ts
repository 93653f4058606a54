import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { processKind, rollState } from '../../../shared/api/values.ts';
import { findFilmArea } from '../../../shared/domain/film/film-area.ts';
import { findFrameOnFilm } from '../../../shared/domain/film/frame-format.ts';
import { findFilmFormat } from '../../../shared/domain/film/film-format.ts';
import { query, type ReadableDb } from '../db/query.ts';

const loadRow = z.object({
  id: z.number(),
  number: z.string(),
  filmFormat: z.string(),
  frameFormat: z.string(),
  exposures: z.number().nullable(),
  exposureIndex: z.number().nullable(),
  pushStops: z.number().nullable(),
  state: rollState,
  process: processKind.nullable(),
  iso: z.number().nullable(),
  fixerFactor: z.number().nullable(),
  runningIn: z.number().nullable(),
});

/** A roll as a load sees it. Areas in cm²; `weightedAreaCm2` counts how fast it uses a fixer up. */
export interface LoadedRoll extends z.output<typeof loadRow> {
  readonly reel: '135' | '120';
  readonly areaCm2: number;
  readonly weightedAreaCm2: number;
}

/** Film wider than this goes on the wide setting of a reel: 35 mm and narrower on the other. */
const NARROW_MM = 36;

/**
 * Exposures as the box counts them: “72” noted for a half-frame roll is the film of a box of 36. A number that is
 * on boxes is taken as it stands.
 */
function boxExposures(filmFormat: string, frameFormat: string, exposures: number): number {
  const film = findFilmFormat(filmFormat);
  if (!film || film.exposures.includes(exposures)) return exposures;
  const pitchMm = findFrameOnFilm(frameFormat, filmFormat)?.pitchMm ?? 1;
  const standardMm = findFrameOnFilm(film.standardFrame, filmFormat)?.pitchMm ?? pitchMm;
  return Math.max(1, Math.round((exposures * pitchMm) / standardMm));
}

/** Area of one roll in cm². A roll of sheet film is as many sheets as it has exposures. */
function areaOf(filmFormat: string, frameFormat: string, exposures: number | null): number {
  const sheets = findFilmFormat(filmFormat)?.kind === 'sheet' ? (exposures ?? 1) : null;
  const counted =
    sheets !== null || exposures === null ? null : boxExposures(filmFormat, frameFormat, exposures);
  const area = findFilmArea(filmFormat, counted, sheets ?? 1);
  if (!area.ok) throw new Error(`A roll that was never checked: ${filmFormat}, ${area.reason}`);
  return area.value.areaCm2;
}

/** The rolls with these ids, in the order given. @throws {AppError} roll_not_found */
export function requireLoad(db: ReadableDb, ids: readonly number[]): LoadedRoll[] {
  const find = query(
    db,
    loadRow,
    `SELECT roll.id, roll.number, film_format AS filmFormat, frame_format AS frameFormat, exposures, exposure_index AS exposureIndex,
       push_stops AS pushStops, roll.state, stock.process, stock.iso, stock.fixer_factor AS fixerFactor,
       (SELECT min(development.id) FROM development_roll
         JOIN development ON development.id = development_roll.development_id AND development.state = 'running'
         WHERE development_roll.roll_id = roll.id) AS runningIn
     FROM roll LEFT JOIN stock ON stock.id = roll.stock_id WHERE roll.id = :id`,
  );
  return [...new Set(ids)].map((id) => {
    const row = find.find({ id });
    if (!row) throw appError('roll_not_found', { name: String(id) });
    const areaCm2 = areaOf(row.filmFormat, row.frameFormat, row.exposures);
    const wide = (findFilmFormat(row.filmFormat)?.widthMm ?? 0) > NARROW_MM;
    return {
      ...row,
      reel: wide ? '120' : '135',
      areaCm2,
      weightedAreaCm2: areaCm2 * (row.fixerFactor ?? 1),
    };
  });
}

/** Plain and weighted area of a load, cm². */
export function sumLoad(rolls: readonly Pick<LoadedRoll, 'areaCm2' | 'weightedAreaCm2'>[]): {
  readonly areaCm2: number;
  readonly weightedAreaCm2: number;
} {
  return {
    areaCm2: rolls.reduce((sum, roll) => sum + roll.areaCm2, 0),
    weightedAreaCm2: rolls.reduce((sum, roll) => sum + roll.weightedAreaCm2, 0),
  };
}
