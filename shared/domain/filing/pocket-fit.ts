import { findFilmFormat } from '../film/film-format.ts';
import { findFrameFormat, findFrameOnFilm } from '../film/frame-format.ts';
import type { PageLayout } from './page-layout.ts';

/** Sums of pitches are compared with this slack, mm: far below what scissors can do, far above rounding. */
const ROUNDING_MM = 1e-6;

/** How long a frame's share of film is, and whether the program knows it or took a place of the page for it. */
export type FramePitch = { readonly pitchMm: number; readonly known: boolean };

/**
 * Film that one frame takes, mm. A frame format that is not usual on this film (35 mm film in a 6×6 camera) takes
 * its own usual pitch; one without geometry takes one place of the page.
 */
export function pitchInPage(frameFormat: string, filmFormat: string, layout: PageLayout): FramePitch {
  const here = findFrameOnFilm(frameFormat, filmFormat) ?? findFrameFormat(frameFormat)?.on[0];
  if (here) return { pitchMm: here.pitchMm, known: true };
  const places = layout.pocket === 'single' ? 1 : layout.positions;
  return { pitchMm: layout.pocketLengthMm / places, known: false };
}

/** By how many mm a strip is longer than the pocket; 0 or less when it goes in. */
export function excessLengthMm(lengthMm: number, layout: PageLayout): number {
  const excess = lengthMm - layout.pocketLengthMm;
  return Math.abs(excess) < ROUNDING_MM ? 0 : excess;
}

/**
 * By how many mm the film is too wide for the pocket; 0 or less when it goes in, 0 for film without geometry.
 * A sheet may be turned.
 */
export function excessWidthMm(filmFormat: string, layout: PageLayout): number {
  const film = findFilmFormat(filmFormat);
  if (!film) return 0;
  if (film.lengthMm === null) return film.widthMm - layout.pocketHeightMm;
  const upright = Math.max(film.widthMm - layout.pocketLengthMm, film.lengthMm - layout.pocketHeightMm);
  const turned = Math.max(film.lengthMm - layout.pocketLengthMm, film.widthMm - layout.pocketHeightMm);
  return Math.min(upright, turned);
}

/** The side of a sheet that lies along the row, mm: the shorter one when the sheet goes in so; null for a roll. */
export function findSheetAlongRowMm(filmFormat: string, layout: PageLayout): number | null {
  const film = findFilmFormat(filmFormat);
  if (!film || film.lengthMm === null) return null;
  const upright = film.widthMm <= layout.pocketLengthMm && film.lengthMm <= layout.pocketHeightMm;
  return upright ? film.widthMm : film.lengthMm;
}

/** How many frames of a format go into one pocket, by their real length; 1 at most where a pocket holds one piece. */
export function framesPerPocket(frameFormat: string, filmFormat: string, layout: PageLayout): number {
  if (excessWidthMm(filmFormat, layout) > 0) return 0;
  if (findFilmFormat(filmFormat)?.kind === 'sheet') return 1;
  const { pitchMm } = pitchInPage(frameFormat, filmFormat, layout);
  const fit = Math.floor((layout.pocketLengthMm + ROUNDING_MM) / pitchMm);
  return layout.pocket === 'single' ? Math.min(fit, 1) : fit;
}

/** How many more frames of `pitchMm` there is room for beside a strip of `lengthMm`. */
export function roomBeside(lengthMm: number, pitchMm: number, layout: PageLayout): number {
  return Math.max(0, Math.floor((layout.pocketLengthMm - lengthMm + ROUNDING_MM) / pitchMm));
}
