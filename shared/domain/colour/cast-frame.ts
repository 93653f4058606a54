import { linearToLab } from './cie-lab.ts';
import { evenTones, findNeutral } from './neutral.ts';
import type { Neutral, Ratio } from './neutral.ts';
import { blockMeans, luminance } from './picture.ts';
import type { Blocks, Light } from './picture.ts';
import { polarityOfFrame } from './polarity.ts';
import { median, quantileOfSorted } from '../statistics/order.ts';

/** Ratios of light in greys, natural logarithms: u of red to green, v of blue to green; 0, 0 for no cast. */
export type GreyRatio = { readonly u: number; readonly v: number };

/** Why a frame says something about a cast, or does not. */
export type CastNote = 'measured' | 'weak' | 'no-neutral' | 'blank' | 'monochrome' | 'toned' | 'negative';

/** What a frame shown as a positive says about a cast. */
export type FrameCast = {
  readonly note: CastNote;
  /** 0 (says nothing) to 1. */
  readonly confidence: number;
  /** Where greys lie; null where the note says that there is nothing to go by. */
  readonly grey: GreyRatio | null;
  /** The same as a* and b* of a middle grey. */
  readonly a: number | null;
  readonly b: number | null;
  /** Greys in the darkest and in the lightest fifth of near-neutral places, where both have enough. */
  readonly tones: { readonly shadows: GreyRatio; readonly highlights: GreyRatio } | null;
  /** L* of the darkest and lightest hundredth: lifted blacks and little range are what fog looks like. */
  readonly blackL: number;
  readonly whiteL: number;
};

/** How the polarity of a frame's scan is known: by its roll or by the user, or not at all. */
export type ShownAs = 'positive' | 'unknown';

/** Greys among surfaces: a narrow last look, since a cast moves all greys together. Our choice, measured. */
const SURFACE_SEARCH = { wide: 0.4, narrow: 0.12, reach: 0.5 };

/** Greys among edges (light against dark of one surface): wider, as edges also part two surfaces. Our choice, measured. */
const EDGE_SEARCH = { wide: 0.7, narrow: 0.2, reach: 0.8 };

/** Darker or lighter than this a channel is cut off or all noise, and its ratios say nothing. Our choice. */
const LEAST_LIGHT = 0.004;
const MOST_LIGHT = 0.97;

/** An edge fainter than this is noise (linear light). Our choice. */
const LEAST_EDGE = 1e-4;

/** Fewer places than this are no evidence. Our choice. */
const LEAST_PLACES = 60;

/** Under this share of the weight near one grey the subject has no neutral. Our choice, measured on red doors. */
const LEAST_SHARE = 0.02;

/** Confidence from which a frame counts as measured. Our choice. */
export const MEASURED_FROM = 0.35;

/** Odds (natural logarithm) from which one frame alone is taken for a negative. Our choice. */
const MASKED_ODDS = 1;
const EXCHANGED_ODDS = 0.5;

/**
 * The cast of one frame, from its light as shown (a positive scan, or a negative rendered with its stock's balance).
 * With `shownAs` 'unknown' a frame that looks like an unconverted negative is not measured.
 */
export function castOfFrame(light: Light, shownAs: ShownAs): FrameCast {
  const kind = polarityOfFrame(light);
  const blocks = blockMeans(light, 96);
  const { blackL, whiteL } = tonesOf(blocks);
  const without = (note: CastNote): FrameCast => ({
    note,
    confidence: 0,
    grey: null,
    a: null,
    b: null,
    tones: null,
    blackL,
    whiteL,
  });
  if (kind.blank) return without('blank');
  const isNegative =
    kind.maskOdds > MASKED_ODDS || (kind.colour !== 'colour' && kind.exchangedOdds > EXCHANGED_ODDS);
  if (shownAs === 'unknown' && isNegative) return without('negative');
  if (kind.colour === 'monochrome') return without('monochrome');
  if (kind.colour === 'toned') return without('toned');
  const places = surfaces(blocks);
  if (places.length < LEAST_PLACES) return without('no-neutral');
  const surface = findNeutral(places, SURFACE_SEARCH);
  const edge = findEdgeNeutral(blocks);
  if (surface === null || surface.share < LEAST_SHARE) return without('no-neutral');
  const grey: GreyRatio =
    edge === null ? surface : { u: (surface.u + edge.u) / 2, v: (surface.v + edge.v) / 2 };
  const confidence = confidenceOf(surface, edge, places);
  return {
    note: confidence < MEASURED_FROM ? 'weak' : 'measured',
    confidence,
    grey,
    ...labOfGrey(grey),
    tones: tonesOfGrey(places, surface),
    blackL,
    whiteL,
  };
}

/** a* and b* of a middle grey (18 % luminance) under the given ratios. */
export function labOfGrey({ u, v }: GreyRatio): { a: number; b: number } {
  const scale = 0.18 / luminance(Math.exp(u), 1, Math.exp(v));
  const { a, b } = linearToLab([Math.exp(u) * scale, scale, Math.exp(v) * scale]);
  return { a, b };
}

type Place = Ratio & { readonly tone: number };

function tonesOf(blocks: Blocks): { blackL: number; whiteL: number } {
  const lightness = Float64Array.from(
    blocks.red,
    (red, at) => linearToLab([red, blocks.green[at] ?? 0, blocks.blue[at] ?? 0]).L,
  ).sort();
  return { blackL: quantileOfSorted(lightness, 0.01), whiteL: quantileOfSorted(lightness, 0.99) };
}

function isReadable(red: number, green: number, blue: number): boolean {
  return Math.min(red, green, blue) > LEAST_LIGHT && Math.max(red, green, blue) < MOST_LIGHT;
}

function surfaces(blocks: Blocks): Place[] {
  const found: { u: number; v: number; tone: number }[] = [];
  for (const [at, red] of blocks.red.entries()) {
    const green = blocks.green[at] ?? 0;
    const blue = blocks.blue[at] ?? 0;
    if (!isReadable(red, green, blue)) continue;
    const tone = Math.log(luminance(red, green, blue));
    found.push({ u: Math.log(red / green), v: Math.log(blue / green), tone });
  }
  const weights = evenTones(
    found.map((place) => place.tone),
    Math.log(0.01),
    0,
  );
  return found.map((place, at) => ({ ...place, weight: weights[at] ?? 0 }));
}

/** Greys from the differences of neighbouring blocks: even colours of a large surface drop out. */
function findEdgeNeutral(blocks: Blocks): Neutral | null {
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

function confidenceOf(surface: Neutral, edge: Neutral | null, places: readonly Place[]): number {
  const near = places.filter((place) => Math.hypot(place.u - surface.u, place.v - surface.v) < 0.25);
  if (near.length < LEAST_PLACES / 2) return 0;
  const tones = Float64Array.from(near, (place) => place.tone).sort();
  const range = quantileOfSorted(tones, 0.95) - quantileOfSorted(tones, 0.05);
  const apart = edge === null ? 0.5 : Math.hypot(surface.u - edge.u, surface.v - edge.v);
  const far = Math.hypot(surface.u, surface.v);
  // Our choice: each kind of doubt halves the confidence at the value named.
  const enough = 1 - 2 ** (-surface.share / 0.06);
  const wideRange = 1 - 2 ** (-range / 0.7);
  const agreement = 2 ** -((apart / 0.35) ** 2);
  const nearness = 2 ** -((far / 0.8) ** 2);
  return enough * wideRange * agreement * nearness;
}

function tonesOfGrey(places: readonly Place[], centre: GreyRatio): FrameCast['tones'] {
  const near = places.filter((place) => Math.hypot(place.u - centre.u, place.v - centre.v) < 0.8);
  if (near.length < 4 * LEAST_PLACES) return null;
  const tones = Float64Array.from(near, (place) => place.tone).sort();
  const low = quantileOfSorted(tones, 0.2);
  const high = quantileOfSorted(tones, 0.8);
  // Less than a stop between the fifths: one tone only, nothing to compare.
  if (high - low < Math.log(2)) return null;
  const middle = (list: readonly Place[]): GreyRatio => ({
    u: median(list.map((place) => place.u)),
    v: median(list.map((place) => place.v)),
  });
  return {
    shadows: middle(near.filter((place) => place.tone <= low)),
    highlights: middle(near.filter((place) => place.tone >= high)),
  };
}
