import { linearToLab } from './cie-lab.ts';
import { LEAST_PLACES, findBendNeutral, findEdgeNeutral, isReadable } from './edge-neutral.ts';
import { labOfGrey } from './grey.ts';
import type { GreyRatio } from './grey.ts';
import { evenTones, findNeutral } from './neutral.ts';
import type { Neutral, Ratio } from './neutral.ts';
import { blockMeans, luminance } from './picture.ts';
import type { Blocks, Light } from './picture.ts';
import { polarityOfFrame } from './polarity.ts';
import { median, quantileOfSorted } from '../statistics/order.ts';

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
  const first = edge === null ? surface : between(surface, edge, 0.5);
  const bend = findBendNeutral(blocks);
  const grey = bend === null ? first : between(first, bend, BEND_SHARE);
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

/** The share that second differences have in a grey. Our choice, measured on free pictures and the test scans. */
const BEND_SHARE = 0.25;

/** From one grey to another by a share: witnesses that err in unlike ways err less together. */
function between(one: GreyRatio, other: GreyRatio, share: number): GreyRatio {
  return { u: one.u + share * (other.u - one.u), v: one.v + share * (other.v - one.v) };
}

type Place = Ratio & { readonly tone: number };

function tonesOf(blocks: Blocks): { blackL: number; whiteL: number } {
  const lightness = Float64Array.from(
    blocks.red,
    (red, at) => linearToLab([red, blocks.green[at] ?? 0, blocks.blue[at] ?? 0]).L,
  ).sort();
  return { blackL: quantileOfSorted(lightness, 0.01), whiteL: quantileOfSorted(lightness, 0.99) };
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
