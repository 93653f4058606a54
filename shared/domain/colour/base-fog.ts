import type { Triple } from './cie-lab.ts';
import type { FilmBase } from './film-base.ts';
import { luminance } from './picture.ts';
import { median } from '../statistics/order.ts';

/**
 * Density of a roll's film base, fog and mask included, red, green, blue, as its scanner sees it: against the light
 * that the scanner takes for white. Densities of two rolls may be compared where one scanner with fixed exposure made
 * both scans.
 */
export type BaseDensity = {
  readonly density: Triple;
  /** From unexposed film beside the pictures, or from the clearest parts of all frames (no less dense than the base). */
  readonly from: FilmBase['from'];
  readonly frames: number;
  /** 0 (a guess) to 1. */
  readonly confidence: number;
};

/** The base density behind the light of a film base. Source: Altman, Densitometry (2000): D = −log10 T. */
export function densityOfBase(base: FilmBase): BaseDensity {
  const density = (channel: 0 | 1 | 2) => -Math.log10(Math.max(base.light[channel], 1e-5));
  return {
    density: [density(0), density(1), density(2)],
    from: base.from,
    frames: base.frames,
    confidence: base.confidence,
  };
}

/** Density of a roll's base over that of its stock's others; above 0 for more fog. */
export type FogAgainstStock = {
  /** Other rolls it was held against. */
  readonly rolls: number;
  readonly red: number;
  readonly green: number;
  readonly blue: number;
  /** All three, weighted as the eye does. */
  readonly visual: number;
};

/** Rolls needed beside the one in question: as for casts. */
const LEAST_ROLLS = 3;

/** A roll's base against the median of the other rolls of its stock; null with fewer than three: not enough rolls. */
export function fogAgainstStock(own: Triple, others: readonly Triple[]): FogAgainstStock | null {
  if (others.length < LEAST_ROLLS) return null;
  const over = (channel: 0 | 1 | 2) => own[channel] - median(others.map((density) => density[channel]));
  const [red, green, blue] = [over(0), over(1), over(2)];
  return { rolls: others.length, red, green, blue, visual: luminance(red, green, blue) };
}

/**
 * Fog that is worth a word. Source: action limit of the base in process control, +0.03 density (from memory, see the
 * control aims; not verified).
 */
const LEAST_FOG = 0.03;

/** What the base says, in a sentence. */
export function sayFog(base: BaseDensity, fog: FogAgainstStock | null): string {
  const [red, green, blue] = base.density.map((value) => value.toFixed(2));
  const where = base.from === 'rebate' ? 'from unexposed film' : 'from the clearest parts of the frames';
  const own = `Film base ${where}: density ${red}, ${green}, ${blue} (red, green, blue) as scanned.`;
  if (fog === null) return `${own} Not enough rolls of this stock to say whether that is fogged.`;
  const signed = `${fog.visual < 0 ? '−' : '+'}${Math.abs(fog.visual).toFixed(2)}`;
  if (Math.abs(fog.visual) < LEAST_FOG) {
    return `${own} No different from the ${fog.rolls} others of the stock (${signed}).`;
  }
  const kind = fog.visual > 0 ? 'Base fog' : 'The base is clearer,';
  return `${own} ${kind} ${signed} over the ${fog.rolls} others of the stock, if one scanner at one exposure made all.`;
}
