import type { Triple } from './cie-lab.ts';
import { blockMeans } from './picture.ts';
import type { Blocks, Light } from './picture.ts';
import { median, quantileOfSorted, robustDeviation } from '../statistics/order.ts';

/** What one negative frame says about the film base: its clear rebate if it shows, and its clearest parts. */
export type BaseEvidence = {
  /** Light through an even, clear band along an edge of the scan (0..1 per channel), or null. */
  readonly rebate: Triple | null;
  /** Light through the clearest parts of the picture: no more than the base lets through. */
  readonly clearest: Triple;
};

/** Light that the roll's film base lets through, fog included, in the scale of its scans. */
export type FilmBase = {
  readonly light: Triple;
  readonly from: 'rebate' | 'frames';
  /** Frames whose evidence was used. */
  readonly frames: number;
  /** 0 (a guess) to 1. */
  readonly confidence: number;
};

/** A band is even where its density spreads by less than this (log10). Our choice, above grain of block means. */
const EVEN_DENSITY = 0.025;

/** Scanner white: light past the film or through perforations. Our choice. */
const BARE_LIGHT = 0.985;

/** Light through perforations is less red than all of a masked film by at least this much of ln(R/G). Our choice. */
const LESS_RED = 0.35;

/** The evidence of one negative scan, from its light as scanned. */
export function baseOfFrame(light: Light): BaseEvidence {
  const blocks = blockMeans(light, 128);
  const film = filmMask(blocks);
  const greens = Float64Array.from(Array.from(blocks.green).filter((_, at) => film[at] === true)).sort();
  const limit = quantileOfSorted(greens, 0.995);
  const clear: number[] = [];
  for (const [at, green] of blocks.green.entries()) if (film[at] === true && green >= limit) clear.push(at);
  const clearest = middleOf(blocks, clear);
  return { rebate: findRebate(blocks, film, clearest), clearest };
}

/** Places this much denser than the clearest of the roll are dark picture, not base (log10). Our choice. */
const SAME_CLEARNESS = 0.03;

/** Fewer rebates than this in a whole roll may be dark edges of pictures. Our choice. */
const LEAST_REBATES = 3;

/**
 * The base of a roll: the middle of the rebates where frames show one as clear as anything on the roll; otherwise
 * the middle of the frames whose clearest part is as clear as any, since nothing is clearer than the base and some
 * frame nearly always holds a part that got no light. Null for no frames.
 */
export function baseOfRoll(frames: readonly BaseEvidence[]): FilmBase | null {
  if (frames.length === 0) return null;
  const clearness = (light: Triple) => Math.log10(Math.max(1e-5, light[1]));
  const clearest = Math.max(...frames.map((frame) => clearness(frame.clearest)));
  const rebates = frames.flatMap(({ rebate }) =>
    rebate !== null && clearness(rebate) > clearest - SAME_CLEARNESS ? [rebate] : [],
  );
  if (rebates.length >= Math.min(LEAST_REBATES, frames.length)) {
    const spread = robustDeviation(rebates.map(clearness));
    const confidence = Math.min(0.98, 0.75 + 0.05 * rebates.length) * Math.exp(-spread / 0.05);
    return { light: middle(rebates), from: 'rebate', frames: rebates.length, confidence };
  }
  const used = frames
    .map((frame) => frame.clearest)
    .filter((light) => clearness(light) > clearest - SAME_CLEARNESS);
  // Several frames that end at one clearness have met the base; one alone may just be the darkest picture.
  const confidence = 0.8 * (1 - Math.exp(-frames.length / 6)) * (used.length > 1 ? 1 : 0.5);
  return { light: middle(used), from: 'frames', frames: frames.length, confidence };
}

/** Density above the base: −log10(T / T_base), never below 0. Source: Altman, Densitometry (2000), D = −log10 T. */
export function netDensity(light: number, base: number): number {
  return Math.max(0, -Math.log10(Math.max(light, 1e-5) / Math.max(base, 1e-5)));
}

/** Blocks that show film: not bare scanner light, and in a masked film not less red than the rest. */
function filmMask(blocks: Blocks): boolean[] {
  const redness = Array.from(blocks.red, (red, at) =>
    Math.log(Math.max(red, 1e-5) / Math.max(blocks.green[at] ?? 0, 1e-5)),
  );
  const usual = median(redness);
  const isMasked = usual > 0.45;
  const brightest = quantileOfSorted(Float64Array.from(blocks.green).sort(), 0.9);
  return redness.map((value, at) => {
    const green = blocks.green[at] ?? 0;
    const least = Math.min(blocks.red[at] ?? 0, green, blocks.blue[at] ?? 0);
    if (least >= BARE_LIGHT) return false;
    return !(isMasked && green >= brightest && value < usual - LESS_RED);
  });
}

function findRebate(blocks: Blocks, film: readonly boolean[], clearest: Triple): Triple | null {
  const { columns, rows } = blocks;
  if (columns < 20 || rows < 12) return null;
  const band = Math.max(1, Math.round(Math.max(columns, rows) / 64));
  const sides = [
    (x: number) => x < band,
    (x: number) => x >= columns - band,
    (_: number, y: number) => y < band,
    (_: number, y: number) => y >= rows - band,
  ];
  let best: { light: Triple; green: number } | null = null;
  for (const isIn of sides) {
    const inside: number[] = [];
    for (let at = 0; at < columns * rows; at += 1) {
      if (isIn(at % columns, Math.floor(at / columns)) && film[at] === true) inside.push(at);
    }
    if (inside.length < 8) continue;
    const light = middleOf(blocks, inside);
    const uneven = robustDeviation(inside.map((at) => Math.log10(Math.max(blocks.green[at] ?? 0, 1e-5))));
    const isClear = light.every((value, channel) => value >= 0.97 * (clearest[channel] ?? 0));
    if (uneven < EVEN_DENSITY && isClear && (best === null || light[1] > best.green)) {
      best = { light, green: light[1] };
    }
  }
  return best?.light ?? null;
}

function middleOf(blocks: Blocks, places: readonly number[]): Triple {
  const of = (plane: Float32Array) => (places.length === 0 ? 1 : median(places.map((at) => plane[at] ?? 0)));
  return [of(blocks.red), of(blocks.green), of(blocks.blue)];
}

function middle(list: readonly Triple[]): Triple {
  return [
    median(list.map((light) => light[0])),
    median(list.map((light) => light[1])),
    median(list.map((light) => light[2])),
  ];
}
