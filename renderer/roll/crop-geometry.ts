import type { Crop } from './use-marks.ts';

/**
 * How a frame is held to be looked at: as it lies on the film, or, where it was laid on its side there, turned back a
 * quarter against the clock.
 */
export type Held = 'lying' | 'turned back';

/** A point of the screen, as fractions of what is shown, on the frame as it lies on the film. */
export function pointOnFilm(
  held: Held,
  point: { readonly u: number; readonly v: number },
): { x: number; y: number } {
  const u = clamp(point.u);
  const v = clamp(point.v);
  return held === 'lying' ? { x: u, y: v } : { x: 1 - v, y: u };
}

/** A step on the screen, on the frame as it lies on the film. */
function stepOnFilm(held: Held, step: { dx: number; dy: number }): { dx: number; dy: number } {
  return held === 'lying' ? step : { dx: -step.dy, dy: step.dx };
}

/** The part between two points of the film, in whatever order they were set. */
export function cropBetween(a: { x: number; y: number }, b: { x: number; y: number }): Crop {
  return {
    x: Math.min(a.x, b.x),
    y: Math.min(a.y, b.y),
    width: Math.abs(a.x - b.x),
    height: Math.abs(a.y - b.y),
  };
}

/** Where a crop begins before anything was drawn. */
export const FIRST_CROP: Crop = { x: 0.1, y: 0.1, width: 0.8, height: 0.8 };

/** Below this a crop is taken for a slip of the hand, as a fraction of the picture. Our choice. */
const LEAST = 0.05;
const STEP = 0.01;

/** Whether a part is large enough to be meant. */
export function isMeant(crop: Crop): boolean {
  return crop.width >= LEAST && crop.height >= LEAST;
}

const STEPS: Readonly<Record<string, { dx: number; dy: number }>> = {
  ArrowLeft: { dx: -STEP, dy: 0 },
  ArrowRight: { dx: STEP, dy: 0 },
  ArrowUp: { dx: 0, dy: -STEP },
  ArrowDown: { dx: 0, dy: STEP },
};

/** The crop after an arrow key: moved, or with Shift larger or smaller; null for another key. */
export function cropByKey(crop: Crop, key: string, sizing: boolean, held: Held): Crop | null {
  const step = STEPS[key];
  if (!step) return null;
  const { dx, dy } = stepOnFilm(held, step);
  if (!sizing) {
    return {
      ...crop,
      x: round(between(crop.x + dx, 0, 1 - crop.width)),
      y: round(between(crop.y + dy, 0, 1 - crop.height)),
    };
  }
  // What is the right edge on the screen is the lower one of a frame that was turned back, and its x runs upwards.
  const grow = held === 'lying' ? { dx, dy } : { dx: -dx, dy };
  const width = round(
    between(crop.width + grow.dx, LEAST, held === 'lying' ? 1 - crop.x : crop.x + crop.width),
  );
  const height = round(between(crop.height + grow.dy, LEAST, 1 - crop.y));
  return { x: held === 'lying' ? crop.x : round(crop.x + crop.width - width), y: crop.y, width, height };
}

function clamp(value: number): number {
  return between(value, 0, 1);
}

function between(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}

function round(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
