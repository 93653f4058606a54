import { linearToLab } from './cie-lab.ts';
import { blockMeans, luminance } from './picture.ts';
import type { Blocks, Light } from './picture.ts';
import { median, quantile, quantileOfSorted } from '../statistics/order.ts';

/** What a frame's own pixels say about how its scan is meant. Odds are natural logarithms, above 0 for yes. */
export type PolarityEvidence = {
  /** Nothing on it: no tone differs from the others by more than grain. */
  readonly blank: boolean;
  readonly colour: 'colour' | 'monochrome' | 'toned';
  /** That it shows an orange-masked colour negative as it lies on the light table. */
  readonly maskOdds: number;
  /** That light and dark are exchanged, from the shape of details and the place of bright areas. */
  readonly exchangedOdds: number;
};

/** How a roll's scans are meant. */
export type RollKind = {
  readonly polarity: 'positive' | 'negative' | 'unknown';
  readonly colour: 'colour' | 'monochrome' | 'toned' | 'unknown';
  /** 0 (a guess) to 1 (every frame agrees strongly). */
  readonly confidence: number;
  /** Frames that spoke; blank ones say nothing. */
  readonly frames: number;
};

/** Blank: lightness of the 1st and 99th percentile differ by less than this. Our choice, above grain and JPEG. */
const BLANK_RANGE_L = 8;

/** Monochrome: nine tenths of the picture under this chroma. Our choice: below what is seen as coloured. */
const MONOCHROME_CHROMA = 3;

/**
 * Toned: colour follows tone alone, so nearly all of the picture lies this close (in a*, b*) to the middle colour of
 * its tone. Our choice, measured: toned prints of the tests have 1.7 and 3.3 at these shares, 298 of 306 free colour
 * views of places other than a grey studio more.
 */
const TONED_SPREAD = [
  { share: 0.9, most: 2.2 },
  { share: 0.98, most: 4 },
] as const;

/** One frame is never more than this sure. Our choice: odds of about 20 to 1. */
const MOST_ODDS = 3;

/** Colour without a mask is seldom a negative: odds against it beforehand (natural logarithm). Our choice. */
const UNMASKED_ODDS = 1.5;

/** The evidence of one frame, from its light as scanned, before anything is inverted. */
export function polarityOfFrame(light: Light): PolarityEvidence {
  const blocks = blockMeans(light, 96);
  const labs = labsOf(blocks);
  const lightness = Float64Array.from(labs, (lab) => lab.L).sort();
  const range = quantileOfSorted(lightness, 0.99) - quantileOfSorted(lightness, 0.01);
  const colour = colourKind(labs);
  return {
    blank: range < BLANK_RANGE_L,
    colour,
    maskOdds: colour === 'colour' || colour === 'toned' ? maskOdds(blocks) : -MOST_ODDS,
    exchangedOdds: exchangedOdds(light),
  };
}

/** What one frame says by itself of how its scan is meant. */
export type FrameReading = 'negative' | 'positive' | 'undecided' | 'blank';

/** Odds (natural logarithm) from which one frame alone counts as speaking. Our choice: about 3 to 1. */
const SPEAKS = 1;

/** One frame's evidence in a word. */
export function readingOfFrame({
  blank,
  colour,
  maskOdds: masked,
  exchangedOdds: exchanged,
}: PolarityEvidence): FrameReading {
  if (blank) return 'blank';
  if (masked > 0) return 'negative';
  const odds = colour === 'colour' ? exchanged - UNMASKED_ODDS : exchanged;
  if (Math.abs(odds) < SPEAKS) return 'undecided';
  return odds > 0 ? 'negative' : 'positive';
}

/** What all frames of a roll say together; frames that are blank are left out. */
export function polarityOfRoll(frames: readonly PolarityEvidence[]): RollKind {
  const speaking = frames.filter((frame) => !frame.blank);
  const count = speaking.length;
  if (count === 0) return { polarity: 'unknown', colour: 'unknown', confidence: 0, frames: 0 };
  const masked = median(speaking.map((frame) => frame.maskOdds));
  // Neighbouring frames show alike scenes, so their odds are averaged and only slowly grow with the count.
  const weight = Math.sqrt(count);
  const exchanged = (weight * speaking.reduce((sum, frame) => sum + frame.exchangedOdds, 0)) / count;
  const isMasked = masked > 0;
  const kinds = (kind: PolarityEvidence['colour']) =>
    speaking.filter((frame) => frame.colour === kind).length;
  let colour: RollKind['colour'] = 'colour';
  if (!isMasked && kinds('colour') * 2 < count) {
    colour = kinds('toned') > kinds('monochrome') ? 'toned' : 'monochrome';
  }
  const unmasked = colour === 'colour' ? exchanged - UNMASKED_ODDS : exchanged;
  const odds = isMasked ? Math.max(masked * weight, exchanged) : unmasked;
  const confidence = Math.tanh(Math.abs(odds) / 2);
  return { polarity: odds > 0 ? 'negative' : 'positive', colour, confidence, frames: count };
}

type LabPoint = { readonly L: number; readonly a: number; readonly b: number };

function labsOf(blocks: Blocks): LabPoint[] {
  return Array.from(blocks.red, (red, at) => linearToLab([red, blocks.green[at] ?? 0, blocks.blue[at] ?? 0]));
}

function colourKind(labs: readonly LabPoint[]): PolarityEvidence['colour'] {
  const chromas = labs.map((lab) => Math.hypot(lab.a, lab.b));
  if (quantile(chromas, 0.9) < MONOCHROME_CHROMA) return 'monochrome';
  const tones = new Map<number, LabPoint[]>();
  for (const lab of labs) {
    const tone = Math.floor(lab.L / 5);
    const there = tones.get(tone);
    if (there === undefined) tones.set(tone, [lab]);
    else there.push(lab);
  }
  const distances = [...tones.values()].flatMap((points) => {
    const a = median(points.map((point) => point.a));
    const b = median(points.map((point) => point.b));
    return points.map((point) => Math.hypot(point.a - a, point.b - b));
  });
  return TONED_SPREAD.every(({ share, most }) => quantile(distances, share) < most) ? 'toned' : 'colour';
}

/**
 * An orange mask colours everything: red over green by the base's own ratio in the clearest parts, nothing neutral,
 * and nothing near black, since film density stays within about 2. The limits surround the published base
 * (R 0.32, G 0.63, B 0.72, so ln(R/G) = 0.71: http://chemistry.hitechemall.com/support/qualitycontrol/cntrlstrpflm.htm) and what simulated
 * negatives of free pictures span. All must hold, so the weakest decides.
 */
function maskOdds(blocks: Blocks): number {
  const points = Array.from(blocks.red, (red, at) => {
    const green = blocks.green[at] ?? 0;
    return {
      redness: Math.log((red + 1e-5) / (green + 1e-5)),
      light: luminance(red, green, blocks.blue[at] ?? 0),
    };
  });
  const lights = Float64Array.from(points, (point) => point.light).sort();
  const clearest = quantileOfSorted(lights, 0.97);
  const middle = median(points.map((point) => point.redness));
  const clear = median(points.filter((point) => point.light >= clearest).map((point) => point.redness));
  const share = points.filter((point) => point.redness > 0.14).length / points.length;
  const floor = quantileOfSorted(lights, 0.01) / Math.max(1e-6, quantileOfSorted(lights, 0.99));
  const margins = [
    (middle - 0.5) / 0.1,
    (1.55 - middle) / 0.1,
    (clear - 0.47) / 0.08,
    (share - 0.88) / 0.04,
    Math.log(Math.max(floor, 1e-6) / 0.03) / 0.3,
  ];
  return Math.max(-MOST_ODDS, Math.min(MOST_ODDS, ...margins));
}

/**
 * In a picture as seen, small details more often stick out darker than their surroundings (gaps, shadows, leaves
 * against sky) and the upper part is lighter; a negative has it the other way round.
 * Our choice, measured: fitted to 324 views of 18 free panoramas, their simulated film negatives and their inverted
 * codes; leaving each panorama out in turn, 78 % of single frames, and of rolls of twelve all positives, all film
 * negatives and 87 % of inverted codes come out right. Views without sky (from the air, flowers) are often wrong.
 */
function exchangedOdds(scan: Light): number {
  // The measure was fitted at this size; finer detail leans less.
  const small = blockMeans(scan, 192);
  const light: Light = { ...small, width: small.columns, height: small.rows };
  const block = Math.max(2, Math.floor(Math.min(light.height / 16, light.width / 24)));
  const rows = Math.floor(light.height / block);
  const columns = Math.floor(light.width / block);
  if (rows < 6 || columns < 6) return 0;
  let lean = 0;
  let spread = 0;
  const means: number[] = [];
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const values = new Float32Array(block * block);
      let sum = 0;
      for (let y = 0; y < block; y += 1) {
        for (let x = 0; x < block; x += 1) {
          const at = (row * block + y) * light.width + column * block + x;
          const tone = luminance(light.red[at] ?? 0, light.green[at] ?? 0, light.blue[at] ?? 0);
          values[y * block + x] = Math.cbrt(tone);
          sum += tone;
        }
      }
      values.sort();
      const least = values[0] ?? 0;
      const most = values[values.length - 1] ?? 0;
      lean += most + least - 2 * quantileOfSorted(values, 0.5);
      spread += most - least;
      means.push(sum / (block * block));
    }
  }
  const sorted = Float64Array.from(means).sort();
  const third = Math.floor(rows / 3) * columns;
  const height = (list: readonly number[]) =>
    list.reduce((sum, value) => sum + rankShare(sorted, value), 0) / list.length;
  const upperLighter = height(means.slice(0, third)) - height(means.slice(-third));
  const odds = 4.86 * (lean / (spread + 1e-9)) - 2.83 * upperLighter;
  return Math.max(-MOST_ODDS, Math.min(MOST_ODDS, odds));
}

/** The share of the sorted values at or below this one, halving the equal ones. */
function rankShare(sorted: Float64Array, value: number): number {
  const bound = (after: boolean) => {
    let low = 0;
    let high = sorted.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      const there = sorted[middle] ?? 0;
      if (there < value || (after && there === value)) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return (bound(false) + bound(true)) / 2 / sorted.length;
}
