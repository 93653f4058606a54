import { MM_PER_INCH } from '../../../shared/units/length.ts';

/** A resolution as a file states it: unit 2 inch, 3 centimetre, anything else says nothing about size. */
export interface Resolution {
  readonly unit: number;
  readonly x: number;
  readonly y: number;
}

/** Size on the film by the file's own resolution, in mm, with the resolution in pixels per inch. */
export interface PhysicalSize {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly ppi: number;
}

const CM_PER_INCH = MM_PER_INCH / 10;

/** Written by default by cameras and programs, not measured by any scanner. "Common practice, no source". */
const DEFAULT_PPI = [72, 96, 180];
/** From this resolution, and between these sizes, a file may tell the size of film. Our choice: 110 to 11×14 in. */
const LEAST_PPI = 100;
const MOST_PPI = 20_000;
const SHORTEST_MM = 8;
const LONGEST_MM = 400;

/**
 * The size on film of `width` × `height` px as stored, or null where the resolution makes no sense: no unit, 0/0,
 * one by one, a default, or a size that no film has.
 */
export function findPhysicalSize(
  width: number,
  height: number,
  resolution: Resolution | null,
): PhysicalSize | null {
  if (resolution === null || (resolution.unit !== 2 && resolution.unit !== 3)) return null;
  const perInch = resolution.unit === 3 ? CM_PER_INCH : 1;
  const x = resolution.x * perInch;
  const y = resolution.y * perInch;
  if (!(x >= LEAST_PPI && x <= MOST_PPI && y >= LEAST_PPI && y <= MOST_PPI)) return null;
  if (DEFAULT_PPI.some((ppi) => Math.abs(ppi - x) < 0.01)) return null;
  const widthMm = (width / x) * MM_PER_INCH;
  const heightMm = (height / y) * MM_PER_INCH;
  if (Math.min(widthMm, heightMm) < SHORTEST_MM || Math.max(widthMm, heightMm) > LONGEST_MM) return null;
  return { widthMm, heightMm, ppi: x };
}
