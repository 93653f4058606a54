import type { CSSProperties } from 'react';
import { PITCH_135_MM } from '../../shared/domain/film/frame-format.ts';

/**
 * How the film's edge is drawn. `reading`: smaller holes close to the picture and the number in the outer 3 mm, for
 * less than 4 px per mm; `true`: the real sizes; `bare`: holes without print, where no print could be read.
 */
export type EdgeStyle = 'bare' | 'reading' | 'true';

/** From here on the real sizes can be read, px per mm. */
const TRUE_FROM = 4;
/** Below this, edge print of the film would be smaller than about 7 px, px per mm. Our choice. */
const PRINT_FROM = { perforated: 2, plain: 1.4 } as const;

/** How the edge is drawn at `pxPerMm` on film with holes or without. */
export function edgeStyle(pxPerMm: number, perforated: boolean): EdgeStyle {
  if (pxPerMm < (perforated ? PRINT_FROM.perforated : PRINT_FROM.plain)) return 'bare';
  return pxPerMm < TRUE_FROM ? 'reading' : 'true';
}

/** The one variable that everything on the film is sized by. */
export function filmScale(pxPerMm: number): CSSProperties {
  return { '--mm': `${pxPerMm}px` };
}

/** `pxPerMm` rounded down so that a frame of 38 mm takes whole pixels and pictures stand sharp; at least 0.2. */
export function wholePixelScale(pxPerMm: number): number {
  return Math.max(0.2, Math.floor(pxPerMm * PITCH_135_MM) / PITCH_135_MM);
}
