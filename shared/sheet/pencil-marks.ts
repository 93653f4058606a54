import type { LineItem } from './display-list.ts';
import type { PlannedMark } from './sheet-plan.ts';

/** The grease pencil's colour; a thin dark edge keeps it legible on bright pictures. */
const PENCIL = '#ff5a38';
const HALO = '#1b1b1b';
const STROKE_MM = 0.95;
const HALO_MM = 1.1;

type Point = [number, number];

interface Box {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Numbers from 0 to 1, the same for the same seed. mulberry32 over the FNV-1a hash of the seed. */
function steadyNumbers(seed: string): () => number {
  let state = 0x811c9dc5;
  for (let index = 0; index < seed.length; index += 1) {
    state = Math.imul(state ^ seed.charCodeAt(index), 0x01000193) >>> 0;
  }
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A stroke by hand from one point to another: a slow bow and a small tremor, `sizeMm` at most to either side. */
function handStroke(from: Point, to: Point, sizeMm: number, next: () => number): Point[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  if (length === 0) return [from, to];
  const steps = Math.max(4, Math.round(length / (2 * sizeMm)));
  const bow = (next() - 0.5) * 1.2 * sizeMm;
  const tremor = (0.1 + 0.15 * next()) * sizeMm;
  const phase = next() * 2 * Math.PI;
  const turns = 2 + Math.floor(next() * 2);
  return Array.from({ length: steps + 1 }, (_, index): Point => {
    const t = index / steps;
    const aside = bow * Math.sin(Math.PI * t) + tremor * Math.sin(turns * 2 * Math.PI * t + phase);
    return [from[0] + dx * t - (dy / length) * aside, from[1] + dy * t + (dx / length) * aside];
  });
}

/**
 * A mark drawn on a picture, as the lines of one hand. The same mark on the same frame always looks the same.
 * `picture` and the result in mm on paper; `scale` is that of the film.
 */
export function drawPencilMark(mark: PlannedMark, frameKey: string, picture: Box, scale: number): LineItem[] {
  const next = steadyNumbers(`${frameKey} ${mark.kind}`);
  // A pencil stays a pencil in a small picture: no stroke is wider than a twelfth of it.
  const size = Math.min(scale, Math.min(picture.widthMm, picture.heightMm) / (12 * STROKE_MM));
  const strokes = strokesOf(mark, picture, size, next);
  const line = (points: Point[], widthMm: number, colour: string): LineItem => ({
    kind: 'line',
    points,
    closed: false,
    cap: 'round',
    widthMm: widthMm * size,
    colour,
  });
  return [
    ...strokes.map((points) => line(points, HALO_MM, HALO)),
    ...strokes.map((points) => line(points, STROKE_MM, PENCIL)),
  ];
}

function strokesOf(
  mark: PlannedMark,
  { xMm, yMm, widthMm, heightMm }: Box,
  size: number,
  next: () => number,
): Point[][] {
  const right = xMm + widthMm;
  const foot = yMm + heightMm;
  switch (mark.kind) {
    case 'box': {
      // One stroke round the picture, begun above the corner and drawn past it; inside the foot so that the number stays legible.
      const inMm = 0.9 * size;
      const wobble = (): number => (next() - 0.5) * 0.8 * size;
      const corner = (x: number, y: number): Point => [x + wobble(), y + wobble()];
      const start = corner(xMm + inMm, yMm - 0.6 * size);
      const corners: Point[] = [
        start,
        corner(right - inMm, yMm + inMm * 0.6),
        corner(right - inMm, foot - inMm),
        corner(xMm + inMm, foot - inMm),
        corner(xMm + inMm * 1.3, yMm - 1.4 * size),
      ];
      const path = corners.slice(1).flatMap((to, index) => {
        const from = corners[index] ?? start;
        const points = handStroke(from, to, size, next);
        return index === 0 ? points : points.slice(1);
      });
      return [path];
    }
    case 'dot': {
      // A few turns of the pencil on one spot, top right.
      const radius = 1.2 * size;
      const x = right - 3.4 * size + (next() - 0.5) * size;
      const y = yMm + 3.2 * size + (next() - 0.5) * size;
      const phase = next() * 2 * Math.PI;
      const points = Array.from({ length: 33 }, (_, index): Point => {
        const angle = phase + (index / 32) * 4 * Math.PI;
        const reach = radius * (0.25 + 0.75 * (index / 32)) * (0.92 + 0.16 * next());
        return [x + reach * Math.cos(angle), y + reach * 0.92 * Math.sin(angle)];
      });
      return [points];
    }
    case 'stroke': {
      const from: Point = [xMm + widthMm * (0.1 + 0.06 * next()), foot - heightMm * (0.1 + 0.06 * next())];
      const to: Point = [right - widthMm * (0.08 + 0.06 * next()), yMm + heightMm * (0.1 + 0.06 * next())];
      return [handStroke(from, to, size, next)];
    }
    case 'crop': {
      const left = xMm + mark.x * widthMm;
      const top = yMm + mark.y * heightMm;
      const over = 1.6 * size;
      const verticals = [left, left + mark.width * widthMm].map((x) =>
        handStroke([x, top - over], [x, top + mark.height * heightMm + over], size * 0.5, next),
      );
      const horizontals = [top, top + mark.height * heightMm].map((y) =>
        handStroke([left - over, y], [left + mark.width * widthMm + over, y], size * 0.5, next),
      );
      return [...verticals, ...horizontals];
    }
  }
}
