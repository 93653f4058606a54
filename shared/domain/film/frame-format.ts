import type { Source } from '../development/source.ts';
import { arithmetic, fromMemory, reported, ruleOfThumb } from '../development/source.ts';
import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import { findFilmFormat } from './film-format.ts';

/** How a frame format lies on one film format. Lengths in millimetres. */
export type FrameOnFilm = {
  readonly filmFormat: string;
  /** From the start of one frame to the start of the next; the length of the sheet for sheet film. */
  readonly pitchMm: number;
  readonly pitchSource: Source;
  /** Frames that the usual load gives (a 36-exposure magazine, one roll, one sheet), the usual number first. */
  readonly counts: readonly number[];
};

/** The size of a picture on the film. Lengths in millimetres. */
export type FrameFormat = {
  /** Short text kept in the archive: `24x36`, `6x4.5`, `4x5in`. */
  readonly id: string;
  readonly name: string;
  /** Across the film. */
  readonly acrossMm: number;
  /** Along the film. Less than across: the picture lies upright when the film runs from left to right. */
  readonly alongMm: number;
  readonly sizeSource: Source;
  /** Film formats it goes on, the usual one first. */
  readonly on: readonly FrameOnFilm[];
};

/**
 * Perforation pitch of still film, mm. Source: long-pitch KS perforation KS-1870, 0.1870 in = 4.750 mm,
 * "135 film", graphsearch.epfl.ch/en/concept/173458, after ISO 1007 (the standard itself was not seen).
 */
export const PERFORATION_PITCH_MM = 4.75;

/** Film per 24×36 frame, mm: eight perforations. Source: es.knowpia.com/knowpedia/Formato_135. */
export const PITCH_135_MM = 8 * PERFORATION_PITCH_MM;

/** Gap between frames on 120 and its kin, mm. Our choice: about 5, so that every row of the table fits 760–840 mm. */
const ROLL_GAP_MM = 5;

/** Gap between frames on 127, mm. Our choice: no source was found. */
const GAP_127_MM = 3;

const PUBLISHED_135 = reported('135 film, academickids.com/encyclopedia/index.php/135_film');

function on135(perforations: number, counts: readonly number[], pitchSource: Source): FrameOnFilm {
  return { filmFormat: '135', pitchMm: perforations * PERFORATION_PITCH_MM, pitchSource, counts };
}

function frame135(
  id: string,
  acrossMm: number,
  alongMm: number,
  name: string,
  film: FrameOnFilm,
  sizeSource: Source = PUBLISHED_135,
): FrameFormat {
  return { id, name, acrossMm, alongMm, sizeSource, on: [film] };
}

/** `on120` and `on220`: counts of the table; 620 is 120 film on another spool. */
function frame120(
  id: string,
  alongMm: number,
  on120: readonly number[],
  on220: readonly number[],
): FrameFormat {
  const pitchMm = alongMm + ROLL_GAP_MM;
  const pitchSource = ruleOfThumb('The picture and a gap of about 5 mm; it differs from camera to camera');
  return {
    id,
    name: id.replace('x', '×'),
    acrossMm: 56,
    alongMm,
    sizeSource: reported('liquisearch.com/120_film/frame_sizes; gates differ by a few mm between cameras'),
    on: [
      { filmFormat: '120', pitchMm, pitchSource, counts: on120 },
      { filmFormat: '220', pitchMm, pitchSource, counts: on220 },
      { filmFormat: '620', pitchMm, pitchSource, counts: on120 },
    ],
  };
}

function frame127(id: string, acrossMm: number, alongMm: number, count: number): FrameFormat {
  return {
    id,
    name: id.replace('x', '×'),
    acrossMm,
    alongMm,
    sizeSource: reported('earlyphotography.co.uk/site/sfs.html, the nominal size in cm'),
    on: [
      {
        filmFormat: '127',
        pitchMm: alongMm + GAP_127_MM,
        pitchSource: ruleOfThumb('The picture and an assumed gap of 3 mm'),
        counts: [count],
      },
    ],
  };
}

function sheetFrame(id: string, name: string, acrossMm: number, alongMm: number): FrameFormat {
  return {
    id,
    name,
    acrossMm,
    alongMm,
    sizeSource: fromMemory('What a holder leaves free: about 5 mm less than the sheet each way'),
    on: [
      {
        filmFormat: id,
        pitchMm: findFilmFormat(id)?.lengthMm ?? alongMm,
        pitchSource: arithmetic('One picture takes the whole length of its sheet'),
        counts: [1],
      },
    ],
  };
}

/** The frame formats the program knows; another one may be written by name and then has no geometry. */
export const FRAME_FORMATS: readonly FrameFormat[] = [
  frame135(
    '24x36',
    24,
    36,
    '24×36',
    on135(8, [36, 37, 38], reported('8 perforations, 38 mm: es.knowpia.com/knowpedia/Formato_135')),
  ),
  frame135(
    '18x24',
    24,
    18,
    'Half frame 18×24',
    on135(4, [72], fromMemory('4 perforations, 19 mm; 72 on a 36-exposure film')),
  ),
  frame135(
    '24x24',
    24,
    24,
    'Square 24×24',
    on135(6, [48, 50], ruleOfThumb('6 perforations assumed: the fewest that hold 24 mm')),
  ),
  frame135(
    '24x32',
    24,
    32,
    '24×32',
    on135(7, [41, 40], fromMemory('7 perforations; about 40 on a 36-exposure film')),
  ),
  frame135('24x34', 24, 34, '24×34', on135(8, [36], fromMemory('8 perforations, as for 24×36'))),
  frame135(
    '24x65',
    24,
    65,
    'Panorama 24×65',
    on135(14, [20, 21], fromMemory('14 perforations, 66.5 mm; 20 or 21 on a 36-exposure film')),
  ),
  frame135(
    '13x36',
    13,
    36,
    'Panorama mask 13×36',
    on135(8, [36, 37, 38], arithmetic('A mask in a 24×36 camera: its pitch')),
    fromMemory('A mask leaves about 13 mm of the height'),
  ),
  frame120('6x4.5', 41.5, [16, 15], [32, 30, 31]),
  frame120('6x6', 56, [12, 13], [24, 25, 26, 27]),
  frame120('6x7', 70, [10], [20, 21]),
  frame120('6x8', 77, [9], [19]),
  frame120('6x9', 84, [8], [16, 18]),
  frame120('6x12', 118, [6], [12]),
  frame120('6x17', 168, [4], [9]),
  frame120('6x24', 224, [3], [6]),
  frame127('4x6.5', 40, 65, 8),
  frame127('4x4', 40, 40, 12),
  frame127('3x4', 40, 30, 16),
  {
    id: '13x17',
    name: '13×17 (110)',
    acrossMm: 13,
    alongMm: 17,
    sizeSource: reported('wikiwand.com, List of photographic film formats'),
    on: [
      {
        filmFormat: '110',
        pitchMm: 25,
        pitchSource: fromMemory('One perforation per frame, 25 mm apart'),
        counts: [24],
      },
    ],
  },
  {
    id: '28x28',
    name: '28×28 (126)',
    acrossMm: 28,
    alongMm: 28,
    sizeSource: reported('28×28 on the film, about 26.5 after masking: old-photo.com/pages/126-film.htm'),
    on: [
      {
        filmFormat: '126',
        pitchMm: 32,
        pitchSource: ruleOfThumb('The picture and an assumed gap of 4 mm'),
        counts: [24],
      },
    ],
  },
  sheetFrame('4x5in', '4×5 in', 95, 120),
  sheetFrame('5x7in', '5×7 in', 120, 171),
  sheetFrame('8x10in', '8×10 in', 197, 247),
  sheetFrame('9x12cm', '9×12 cm', 85, 115),
];

/** The frame format of that id, or null when the program does not know its geometry. */
export function findFrameFormat(id: string): FrameFormat | null {
  return FRAME_FORMATS.find((format) => format.id === id) ?? null;
}

/** The frame formats that go on a film format, in the order of the table; none for an unknown film. */
export function frameFormatsOn(filmFormat: string): readonly FrameFormat[] {
  return FRAME_FORMATS.filter((format) => format.on.some((film) => film.filmFormat === filmFormat));
}

/** How a frame format lies on a film format, or null when it does not go there or one of them is unknown. */
export function findFrameOnFilm(frameFormat: string, filmFormat: string): FrameOnFilm | null {
  return findFrameFormat(frameFormat)?.on.find((film) => film.filmFormat === filmFormat) ?? null;
}

/** Whether the picture stands upright when the film runs from left to right, as 6×4.5 and half frame do. */
export function liesUpright(format: FrameFormat): boolean {
  return format.alongMm < format.acrossMm;
}

/**
 * Frames to expect on a roll. `exposures`: what is printed on the film; null for the usual load. Film sold in
 * several lengths (135, cartridges) is counted in its standard frame, so another length than the usual gives
 * ⌊exposures × standard pitch ÷ pitch⌋; on all other film the exposures are the frames.
 */
export function expectFrames(
  frameFormat: string,
  filmFormat: string,
  exposures: number | null,
): Checked<number, 'format_unknown' | 'frame_not_on_film' | 'exposures_not_positive'> {
  const film = findFilmFormat(filmFormat);
  if (!film || !findFrameFormat(frameFormat)) return refuse('format_unknown');
  const here = findFrameOnFilm(frameFormat, filmFormat);
  const standard = findFrameOnFilm(film.standardFrame, filmFormat);
  if (!here || !standard) return refuse('frame_not_on_film');
  if (exposures === null) return accept(here.counts[0] ?? 0);
  if (!Number.isInteger(exposures) || exposures < 1) return refuse('exposures_not_positive');
  if (film.exposures.length === 1) return accept(exposures);
  if (exposures === film.exposures[0]) return accept(here.counts[0] ?? 0);
  return accept(Math.floor((exposures * standard.pitchMm) / here.pitchMm));
}
