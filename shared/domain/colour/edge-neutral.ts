import { findNeutral } from './neutral.ts';
import type { Neutral, Ratio } from './neutral.ts';
import type { Blocks } from './picture.ts';

/** Darker or lighter than this a channel is cut off or all noise, and its ratios say nothing. Our choice. */
const LEAST_LIGHT = 0.004;
const MOST_LIGHT = 0.97;

/** Edges among places: wider than surfaces, as edges also part two surfaces. Our choice, measured. */
const EDGE_SEARCH = { wide: 0.7, narrow: 0.2, reach: 0.8 };

/** An edge fainter than this is noise (linear light). Our choice. */
const LEAST_EDGE = 1e-4;

/** Fewer places than this are no evidence. Our choice. */
export const LEAST_PLACES = 60;

/** Whether the ratios of a place can be read: no channel cut off, none all noise (linear light 0..1). */
export function isReadable(red: number, green: number, blue: number): boolean {
  return Math.min(red, green, blue) > LEAST_LIGHT && Math.max(red, green, blue) < MOST_LIGHT;
}

/** Greys from the differences of neighbouring blocks: even colours of a large surface drop out. */
export function findEdgeNeutral(blocks: Blocks): Neutral | null {
  const { columns, rows, red, green, blue } = blocks;
  const edges: Ratio[] = [];
  const readable = (at: number) => isReadable(red[at] ?? 0, green[at] ?? 0, blue[at] ?? 0);
  const compare = (one: number, other: number) => {
    if (!readable(one) || !readable(other)) return;
    const step = [red, green, blue].map((plane) => (plane[one] ?? 0) - (plane[other] ?? 0));
    const [r = 0, g = 0, b = 0] = fromDark(step);
    if (Math.min(r, g, b) > LEAST_EDGE)
      edges.push({ u: Math.log(r / g), v: Math.log(b / g), weight: r + g + b });
  };
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      if (column + 1 < columns) compare(at, at + 1);
      if (row + 1 < rows) compare(at, at + columns);
    }
  }
  return edges.length < LEAST_PLACES ? null : findNeutral(edges, EDGE_SEARCH);
}

/** The step turned so that it goes from dark to light. */
function fromDark(step: readonly number[]): readonly number[] {
  return step.reduce((sum, value) => sum + value, 0) < 0 ? step.map((value) => -value) : step;
}

/** The power of the mean over second differences: strong ones lead, no single one decides. */
const POWER = 4;

/**
 * Greys from second differences (where light bends: glints, rims, fine texture), as the power mean of each channel.
 * Null where too few places can be read.
 * Source: van de Weijer, Gevers & Gijsenij, "Edge-based color constancy", IEEE Trans. Image Process. 16 (2007)
 * 2207–2214: the hypothesis of order 2; power 4 and smoothing by 1 block are our choice, measured on free pictures.
 */
export function findBendNeutral(blocks: Blocks): { readonly u: number; readonly v: number } | null {
  const { columns, rows } = blocks;
  const smooth = [blocks.red, blocks.green, blocks.blue].map((plane) =>
    smoothed(smoothed(plane, columns, rows), columns, rows),
  );
  const readable = (at: number) =>
    isReadable(blocks.red[at] ?? 0, blocks.green[at] ?? 0, blocks.blue[at] ?? 0);
  const sums = [0, 0, 0];
  let places = 0;
  for (let row = 1; row < rows - 1; row += 1) {
    for (let column = 1; column < columns - 1; column += 1) {
      const at = row * columns + column;
      const around = [at - 1, at + 1, at - columns, at + columns];
      if (!readable(at) || !around.every(readable)) continue;
      places += 1;
      for (const [channel, plane] of smooth.entries()) {
        const bend = around.reduce((sum, other) => sum - (plane[other] ?? 0), 4 * (plane[at] ?? 0));
        sums[channel] = (sums[channel] ?? 0) + bend ** POWER;
      }
    }
  }
  const [red, green, blue] = sums;
  if (places < LEAST_PLACES || !red || !green || !blue) return null;
  return { u: Math.log(red / green) / POWER, v: Math.log(blue / green) / POWER };
}

/** Each block with its neighbours by weights 1 2 1 both ways: a standard deviation of √½ block. */
function smoothed(plane: Float32Array, columns: number, rows: number): Float32Array {
  const across = plane.map((value, at) => {
    const column = at % columns;
    const left = column > 0 ? (plane[at - 1] ?? value) : value;
    const right = column < columns - 1 ? (plane[at + 1] ?? value) : value;
    return (left + 2 * value + right) / 4;
  });
  return across.map((value, at) => {
    const above = at >= columns ? (across[at - columns] ?? value) : value;
    const below = at < columns * (rows - 1) ? (across[at + columns] ?? value) : value;
    return (above + 2 * value + below) / 4;
  });
}
