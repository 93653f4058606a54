import type { Source } from '../development/source.ts';
import { fromMemory, reported, ruleOfThumb } from '../development/source.ts';

/** A size of film as it is sold. Lengths in millimetres. */
export type FilmFormat = {
  /** Short text kept in the archive: `135`, `120`, `4x5in`. */
  readonly id: string;
  readonly name: string;
  /** `roll`: on a spool or in a 135 magazine. `cartridge`: wound from one side of a plastic case to the other. */
  readonly kind: 'roll' | 'cartridge' | 'sheet';
  readonly perforated: boolean;
  /** Across the film; the shorter side of a sheet. */
  readonly widthMm: number;
  /** The longer side of a sheet; null for film on a roll. */
  readonly lengthMm: number | null;
  /** Exposures it is sold with, the usual one first, counted in frames of `standardFrame`. */
  readonly exposures: readonly number[];
  /** Id of the frame format that `exposures` counts. */
  readonly standardFrame: string;
  readonly source: Source;
};

const ROLL_WIDTH = reported(
  'Nominal 60 mm, really about 61 mm (infogalactic.com/info/220_film); 62 mm (videophoto.studio): the middle, 61.5 mm',
);

const SHEET_CUT = fromMemory('Sheets are cut about 0.06 in under their name (ISO 1012)');

/** The film formats the program knows; another one may be written by name and then has no geometry. */
export const FILM_FORMATS: readonly FilmFormat[] = [
  {
    id: '135',
    name: '135 (35 mm)',
    kind: 'roll',
    perforated: true,
    widthMm: 35,
    lengthMm: null,
    exposures: [36, 24, 12, 20],
    standardFrame: '24x36',
    source: reported('Film width 35 mm: 135 film, graphsearch.epfl.ch/en/concept/173458, after ISO 1007'),
  },
  {
    id: '120',
    name: '120',
    kind: 'roll',
    perforated: false,
    widthMm: 61.5,
    lengthMm: null,
    exposures: [12],
    standardFrame: '6x6',
    source: ROLL_WIDTH,
  },
  {
    id: '220',
    name: '220',
    kind: 'roll',
    perforated: false,
    widthMm: 61.5,
    lengthMm: null,
    exposures: [24],
    standardFrame: '6x6',
    source: ROLL_WIDTH,
  },
  {
    id: '620',
    name: '620',
    kind: 'roll',
    perforated: false,
    widthMm: 61.5,
    lengthMm: null,
    exposures: [12],
    standardFrame: '6x6',
    source: reported('620 is 120 film on a thinner spool: earlyphotography.co.uk/site/sfs.html'),
  },
  {
    id: '127',
    name: '127',
    kind: 'roll',
    perforated: false,
    widthMm: 46,
    lengthMm: null,
    exposures: [8],
    standardFrame: '4x6.5',
    source: reported('46 mm: professionalfilmscanning.com/film-formats'),
  },
  {
    id: '110',
    name: '110 cartridge',
    kind: 'cartridge',
    perforated: true,
    widthMm: 16,
    lengthMm: null,
    exposures: [24, 12],
    standardFrame: '13x17',
    source: reported('16 mm stock: wikiwand.com, List of photographic film formats; 12 or 24 from memory'),
  },
  {
    id: '126',
    name: '126 cartridge',
    kind: 'cartridge',
    perforated: true,
    widthMm: 35,
    lengthMm: null,
    exposures: [24, 12, 20],
    standardFrame: '28x28',
    source: reported(
      '35 mm wide, one hole per picture, 12 or 24: old-photo.com/pages/126-film.htm; 20 from memory',
    ),
  },
  {
    id: '4x5in',
    name: '4×5 in sheet',
    kind: 'sheet',
    perforated: false,
    widthMm: 100,
    lengthMm: 125.4,
    exposures: [1],
    standardFrame: '4x5in',
    source: SHEET_CUT,
  },
  {
    id: '5x7in',
    name: '5×7 in sheet',
    kind: 'sheet',
    perforated: false,
    widthMm: 125.4,
    lengthMm: 176.2,
    exposures: [1],
    standardFrame: '5x7in',
    source: SHEET_CUT,
  },
  {
    id: '8x10in',
    name: '8×10 in sheet',
    kind: 'sheet',
    perforated: false,
    widthMm: 201.6,
    lengthMm: 252.4,
    exposures: [1],
    standardFrame: '8x10in',
    source: SHEET_CUT,
  },
  {
    id: '9x12cm',
    name: '9×12 cm sheet',
    kind: 'sheet',
    perforated: false,
    widthMm: 90,
    lengthMm: 120,
    exposures: [1],
    standardFrame: '9x12cm',
    source: ruleOfThumb('The nominal size; the sheet itself is a little less'),
  },
];

/** The film format of that id, or null when the program does not know its geometry. */
export function findFilmFormat(id: string): FilmFormat | null {
  return FILM_FORMATS.find((format) => format.id === id) ?? null;
}
