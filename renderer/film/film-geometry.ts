import { FILM_FORMATS, findFilmFormat } from '../../shared/domain/film/film-format.ts';
import {
  findFrameFormat,
  findFrameOnFilm,
  FRAME_FORMATS,
  PERFORATION_PITCH_MM,
} from '../../shared/domain/film/frame-format.ts';
import { PERFORATION } from '../../shared/sheet/draw-strip.ts';
import type { EdgeStyle } from './film-scale.ts';

/** Where a frame's picture lies on its piece of film, as drawn on the screen. Millimetres from the upper left. */
export interface FrameGeometry {
  /** Across the film. */
  readonly filmMm: number;
  /** Along the film, one frame with its gap. */
  readonly cellMm: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly perforated: boolean;
}

/** Taken where the program does not know a format: that of 35 mm. */
const UNKNOWN = { filmMm: 35, alongMm: 36, acrossMm: 24, gapMm: 2 } as const;

/** Film without holes keeps this much below the picture for its number, and this much above. Our choice. */
const NUMBER_BAND_MM = 6;
const TOP_BAND_MM = 1.5;

/**
 * A frame as it is drawn. Film with holes keeps its true sizes; on film without, the picture is drawn a little small
 * so that its number can be read below it. A sheet stands upright.
 */
export function frameGeometry(frameFormat: string, filmFormat: string): FrameGeometry {
  return KNOWN.get(`${frameFormat} on ${filmFormat}`) ?? layOnFilm(frameFormat, filmFormat);
}

function layOnFilm(frameFormat: string, filmFormat: string): FrameGeometry {
  const film = findFilmFormat(filmFormat);
  const format = findFrameFormat(frameFormat) ?? findFrameFormat(film?.standardFrame ?? '');
  const sheet = film?.lengthMm ?? null;
  const alongMm = (sheet === null ? format?.alongMm : format?.acrossMm) ?? UNKNOWN.alongMm;
  const acrossMm = (sheet === null ? format?.acrossMm : format?.alongMm) ?? UNKNOWN.acrossMm;
  const filmMm = sheet ?? film?.widthMm ?? UNKNOWN.filmMm;
  const pitch =
    sheet === null ? (findFrameOnFilm(frameFormat, filmFormat) ?? format?.on[0])?.pitchMm : film?.widthMm;
  const cellMm = Math.max(pitch ?? alongMm + UNKNOWN.gapMm, alongMm);
  const perforated = film === null || (film.perforated && film.kind === 'roll');
  if (perforated) {
    const yMm = Math.max(0, (filmMm - acrossMm) / 2);
    return {
      filmMm,
      cellMm,
      xMm: (cellMm - alongMm) / 2,
      yMm,
      widthMm: alongMm,
      heightMm: acrossMm,
      perforated,
    };
  }
  const roomMm = filmMm - NUMBER_BAND_MM - TOP_BAND_MM;
  const shrink = Math.min(1, roomMm / acrossMm);
  const widthMm = alongMm * shrink;
  const heightMm = acrossMm * shrink;
  const yMm = TOP_BAND_MM + (roomMm - heightMm) / 2;
  return { filmMm, cellMm, xMm: (cellMm - widthMm) / 2, yMm, widthMm, heightMm, perforated };
}

/** Every frame on every film the program knows: a binder asks for thousands of frames at once. */
const KNOWN: ReadonlyMap<string, FrameGeometry> = new Map(
  FILM_FORMATS.flatMap((film) =>
    FRAME_FORMATS.map((frame) => [`${frame.id} on ${film.id}`, layOnFilm(frame.id, film.id)] as const),
  ),
);

/** A hole as drawn for reading: smaller, and close to the picture, so that the outer 3 mm take the number. Our choice. */
const READING_HOLE = { acrossMm: 1.9, alongMm: 2, fromEdgeMm: 3.15, radiusMm: 0.45 } as const;

/** The holes of `cellMm` of film, both edges, as one SVG path in millimetres. They lie half a pitch from the cut. */
export function holesPath({ cellMm, filmMm }: FrameGeometry, edge: EdgeStyle): string {
  const hole = edge === 'true' ? PERFORATION : READING_HOLE;
  const count = Math.max(1, Math.round(cellMm / PERFORATION_PITCH_MM));
  const tops = [hole.fromEdgeMm, filmMm - hole.fromEdgeMm - hole.acrossMm];
  return tops
    .flatMap((top) =>
      Array.from({ length: count }, (_, index) =>
        roundedRect((index + 0.5) * (cellMm / count) - hole.alongMm / 2, top, hole),
      ),
    )
    .join('');
}

function roundedRect(
  x: number,
  y: number,
  { alongMm, acrossMm, radiusMm }: { alongMm: number; acrossMm: number; radiusMm: number },
): string {
  const [across, along] = [acrossMm - 2 * radiusMm, alongMm - 2 * radiusMm];
  const corner = (dx: number, dy: number) => `a${radiusMm} ${radiusMm} 0 0 1 ${dx} ${dy}`;
  const round = radiusMm;
  return (
    `M${(x + round).toFixed(3)} ${y.toFixed(3)}h${along}${corner(round, round)}v${across}` +
    `${corner(-round, round)}h${-along}${corner(-round, -round)}v${-across}${corner(round, -round)}z`
  );
}

/** Length of a strip, mm: the film of its frames. */
export function stripLengthMm(filmFormat: string, frameFormats: readonly string[]): number {
  return frameFormats.reduce((sum, format) => sum + frameGeometry(format, filmFormat).cellMm, 0);
}
