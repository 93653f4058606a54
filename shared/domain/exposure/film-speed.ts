import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';

/**
 * Arithmetic film speeds of one decade as they are printed, the first at 21°.
 * Source: the speeds of the DX code, ISO 25 to 5000 in thirds of a stop, liquisearch.com/dx_encoding/reading_dx_codes;
 * ten thirds multiply by exactly 10: D. Kerr, openphotographyforums.com/forums/archive/index.php/t-18490.html.
 */
const DECADE = [100, 125, 160, 200, 250, 320, 400, 500, 640, 800] as const;

/** Degrees of the first speed of `DECADE`. */
const DECADE_DEGREES = 21;

/** Film speed limits that make sense, ISO. Our choice: from slow copying film to a pushed fast one, with room. */
const ISO_LIMITS = { least: 0.1, most: 102_400 } as const;

/** Whether a number can be a film speed. */
export function isFilmSpeed(iso: number): boolean {
  return Number.isFinite(iso) && iso >= ISO_LIMITS.least && iso <= ISO_LIMITS.most;
}

/**
 * Logarithmic speed in degrees of an arithmetic one, `iso` > 0: S° = 1 + 10 log₁₀ S, rounded.
 * Source: britannica.com/print/topic/163772 (200/24° is twice 100/21°); ISO 6 and ISO 5800 by name.
 */
export function degreesFromIso(iso: number): number {
  return Math.round(1 + 10 * Math.log10(iso));
}

/** The printed arithmetic speed of whole degrees: 27 → 400. Thirds of a stop, tenfold every ten. */
export function isoFromDegrees(degrees: number): number {
  const decades = Math.floor((degrees - DECADE_DEGREES) / DECADE.length);
  const step = degrees - DECADE_DEGREES - decades * DECADE.length;
  const speed = DECADE[step] ?? DECADE[0];
  return decades < 0 ? speed / 10 ** -decades : speed * 10 ** decades;
}

/** The printed speed nearest in stops: 390 → 400. `iso` > 0. */
export function nearestPrintedIso(iso: number): number {
  return isoFromDegrees(degreesFromIso(iso));
}

/** The printed speed `thirds` third-stops faster (slower when negative): 400 and 3 → 800. Whole thirds. */
export function stepIso(iso: number, thirds: number): number {
  return isoFromDegrees(degreesFromIso(iso) + thirds);
}

/** `ISO 400/27°`. `iso` > 0. */
export function formatFilmSpeed(iso: number): string {
  return `ISO ${String(iso)}/${String(degreesFromIso(iso))}°`;
}

const SPEED = /^(?:(?:iso|asa|ei)\s*)?(?<iso>\d+(?:[.,]\d+)?)(?:\s*\/\s*(?<both>\d{1,2})\s*°)?$/i;
const DEGREES = /^(?:(?<degrees>\d{1,2})\s*°(?:\s*din)?|(?<din>\d{1,2})\s*din)$/i;

/**
 * Reads a film speed: `400`, `ISO 400`, `400/27°`, `27°`, `27 DIN`. Refused as `speed_contradictory` when the two
 * figures do not belong together.
 */
export function parseFilmSpeed(
  text: string,
): Checked<number, 'speed_unreadable' | 'speed_out_of_range' | 'speed_contradictory'> {
  const trimmed = text.trim();
  const degrees = DEGREES.exec(trimmed)?.groups;
  const speed = SPEED.exec(trimmed)?.groups;
  if (degrees) return accept(isoFromDegrees(Number(degrees['degrees'] ?? degrees['din'])));
  if (!speed) return refuse('speed_unreadable');
  const iso = Number((speed['iso'] ?? '').replace(',', '.'));
  if (!isFilmSpeed(iso)) return refuse('speed_out_of_range');
  const both = speed['both'];
  if (both !== undefined && Number(both) !== degreesFromIso(iso)) return refuse('speed_contradictory');
  return accept(iso);
}
