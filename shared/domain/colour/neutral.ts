/** A place in a picture as ratios of its light: ln(R/G) and ln(B/G), with the weight it has in the search. */
export type Ratio = { readonly u: number; readonly v: number; readonly weight: number };

/** Where the greys of a picture lie, and how much of the weight lies near there. */
export type Neutral = { readonly u: number; readonly v: number; readonly share: number };

/** How a search for greys narrows: natural-logarithm units. */
export type Search = {
  /** Width of the first look. */
  readonly wide: number;
  /** Width of the last look. */
  readonly narrow: number;
  /** How far from the start greys are still believed. */
  readonly reach: number;
};

/** Each look is this much narrower than the one before. Our choice. */
const NARROWING = 0.85;

/** Looks in all: enough for the widest start to come down and settle. */
const LOOKS = 15;

/**
 * The middle of what is near neutral: a weighted mean about a centre that starts at `start` and whose window
 * narrows, so that coloured subjects drop out step by step. Null where nothing lies within reach.
 * Source: mean shift (Fukunaga & Hostetler, IEEE Trans. Inf. Theory 21 (1975) 32–40) with a narrowing Gaussian window.
 */
export function findNeutral(
  points: readonly Ratio[],
  search: Search,
  start: { readonly u: number; readonly v: number } = { u: 0, v: 0 },
): Neutral | null {
  let u = start.u;
  let v = start.v;
  let near = 0;
  const believed = points.map(
    (point) =>
      point.weight *
      Math.exp(-((point.u - start.u) ** 2 + (point.v - start.v) ** 2) / (2 * search.reach ** 2)),
  );
  const all = points.reduce((sum, point) => sum + point.weight, 0);
  for (let look = 0; look < LOOKS; look += 1) {
    const width = Math.max(search.narrow, search.wide * NARROWING ** look);
    let sum = 0;
    let sumU = 0;
    let sumV = 0;
    for (const [at, point] of points.entries()) {
      const away = ((point.u - u) ** 2 + (point.v - v) ** 2) / (2 * width ** 2);
      // Beyond 4.5 widths the window is under 1/20 000: left out for speed.
      if (away > 10) continue;
      const weight = (believed[at] ?? 0) * Math.exp(-away);
      sum += weight;
      sumU += weight * point.u;
      sumV += weight * point.v;
    }
    if (!(sum > all * 1e-6)) return null;
    u = sumU / sum;
    v = sumV / sum;
    near = sum / all;
  }
  return { u, v, share: near };
}

/** Steps of tone between black and white in `evenTones`. */
const TONES = 12;

/**
 * Weights that keep one large even area (a sky, a wall) from deciding alone: each tone step counts with the square
 * root of its size. `tones` are natural logarithms of light, counted from `black` to `white`.
 */
export function evenTones(tones: readonly number[], black: number, white: number): number[] {
  const step = (tone: number) =>
    Math.min(TONES - 1, Math.max(0, Math.floor(((tone - black) / (white - black)) * TONES)));
  const counts = new Array<number>(TONES).fill(0);
  for (const tone of tones) counts[step(tone)] = (counts[step(tone)] ?? 0) + 1;
  return tones.map((tone) => 1 / Math.sqrt(counts[step(tone)] ?? 1));
}
