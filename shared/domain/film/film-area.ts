import { MM_PER_INCH } from '../../units/length.ts';
import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import type { Source } from '../development/source.ts';
import { fromMemory, reported, ruleOfThumb } from '../development/source.ts';
import { findFilmFormat } from './film-format.ts';
import { findFrameOnFilm } from './frame-format.ts';

/** A film area in cm² and where the figure comes from. */
export type FilmArea = { readonly areaCm2: number; readonly source: Source };

const CM_PER_INCH = MM_PER_INCH / 10;

/**
 * The unit that capacities are counted in: 80 square inches, in cm² (516.128).
 * Source: brodie-tyrrell.org/wiki, FixerCapacity; the same unit in The Darkroom Cookbook.
 */
export const ROLL_AREA_CM2 = 80 * CM_PER_INCH * CM_PER_INCH;

const UNIT = reported(
  '80 sq in = one 135-36 = one 120 = half a 220 = four 4×5 = one 8×10: brodie-tyrrell.org/wiki, FixerCapacity',
);

/** Films counted as whole units of 80 sq in. */
const UNITS: Readonly<Record<string, number>> = { '120': 1, '620': 1, '220': 2 };

/** Sides of sheets as named, in inches: 4×5 in is a quarter of the unit. */
const SHEET_INCHES: Readonly<Record<string, readonly [number, number]>> = {
  '4x5in': [4, 5],
  '5x7in': [5, 7],
  '8x10in': [8, 10],
};

/**
 * Length of a loaded 135 film, mm: 250 mm of leader and tail and 37.5 mm per exposure goes through the lengths
 * 1.60, 1.15 and 0.70 m for 36, 24 and 12 exposures. Those lengths are from memory, not looked up.
 */
function loadedLength135Mm(exposures: number): number {
  return 250 + 37.5 * exposures;
}

/** Area of a piece of film in cm², sides in mm. Both finite and positive, else it throws: that is a bug. */
export function areaOfFilmCm2(widthMm: number, lengthMm: number): number {
  if (!(widthMm > 0 && lengthMm > 0 && Number.isFinite(widthMm * lengthMm))) {
    throw new RangeError(`no film has the sides ${String(widthMm)} and ${String(lengthMm)} mm`);
  }
  return (widthMm * lengthMm) / 100;
}

/**
 * Area that a bath is charged with for one load. `exposures`: what is printed on a 135 film or a cartridge; null
 * for the usual load. `pieces`: how many rolls or sheets, a whole number of at least 1.
 */
export function findFilmArea(
  filmFormat: string,
  exposures: number | null,
  pieces: number,
): Checked<FilmArea, 'format_unknown' | 'exposures_not_positive' | 'pieces_not_positive'> {
  const film = findFilmFormat(filmFormat);
  if (!film) return refuse('format_unknown');
  if (!Number.isInteger(pieces) || pieces < 1) return refuse('pieces_not_positive');
  const count = exposures ?? film.exposures[0] ?? 1;
  if (!Number.isInteger(count) || count < 1) return refuse('exposures_not_positive');

  const units = UNITS[filmFormat];
  if (units !== undefined) return accept({ areaCm2: units * pieces * ROLL_AREA_CM2, source: UNIT });

  const inches = SHEET_INCHES[filmFormat];
  if (inches) {
    return accept({ areaCm2: inches[0] * inches[1] * CM_PER_INCH ** 2 * pieces, source: UNIT });
  }
  if (film.lengthMm !== null) {
    return accept({ areaCm2: areaOfFilmCm2(film.widthMm, film.lengthMm) * pieces, source: film.source });
  }
  if (filmFormat === '135') {
    const share = loadedLength135Mm(count) / loadedLength135Mm(36);
    const source = count === 36 ? UNIT : fromMemory('The unit for 36 exposures, by the loaded length');
    return accept({ areaCm2: ROLL_AREA_CM2 * share * pieces, source });
  }
  const pitchMm = findFrameOnFilm(film.standardFrame, filmFormat)?.pitchMm ?? 0;
  return accept({
    areaCm2: areaOfFilmCm2(film.widthMm, pitchMm * count) * pieces,
    source: ruleOfThumb('Frames times pitch times width; leader and tail are not counted'),
  });
}
