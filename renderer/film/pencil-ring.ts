import type { LineItem } from '../../shared/sheet/display-list.ts';

/** Thickness of the pencil, mm: as on a small drawing. */
const STROKE_MM = 2.2;
const STEPS = 48;

/**
 * A ring drawn by hand, a little past its beginning: dark edge, then pencil. `acrossMm` is its radius; the same seed
 * gives the same ring.
 */
export function steadyRing(
  ring: { readonly xMm: number; readonly yMm: number; readonly acrossMm: number },
  seed: string,
): readonly LineItem[] {
  const wobble = [...seed].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 997, 7) / 997;
  const begin = -0.6 * Math.PI + wobble;
  const points = Array.from({ length: STEPS + 1 }, (_, index): [number, number] => {
    const along = index / STEPS;
    const angle = begin + along * 2.12 * Math.PI;
    const reach = ring.acrossMm * (1 + 0.05 * Math.sin(3 * angle + 6 * wobble) - 0.07 * along);
    return [ring.xMm + reach * Math.cos(angle), ring.yMm + 0.94 * reach * Math.sin(angle)];
  });
  const line = (widthMm: number): LineItem => ({
    kind: 'line',
    points,
    closed: false,
    cap: 'round',
    widthMm,
    colour: '#ff5a38',
  });
  return [line(STROKE_MM + 0.4), line(STROKE_MM)];
}
