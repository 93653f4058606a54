import { USUAL_SLOPE, balancedLight, sceneLight } from './balance.ts';
import type { Balance } from './balance.ts';
import type { Triple } from './cie-lab.ts';
import { netDensity } from './film-base.ts';
import type { FilmBase } from './film-base.ts';
import { fullScale, luminance } from './picture.ts';
import type { Picture } from './picture.ts';
import { linearToSrgb, srgbToLinear } from './srgb.ts';
import { quantile } from '../statistics/order.ts';

/** How the scans of a roll are turned into positives. */
export type RollRendering =
  | { readonly kind: 'as-scanned' }
  | {
      readonly kind: 'colour-negative';
      readonly base: FilmBase;
      readonly balance: Balance;
      /** Balanced scene light that is shown as white. */
      readonly white: number;
    }
  | { readonly kind: 'monochrome-negative'; readonly base: FilmBase; readonly white: number };

/** What the user set for a roll or a frame; `UNADJUSTED` changes nothing. */
export type Adjust = {
  /** Stops lighter (+) or darker (−), −4..4. */
  readonly brightnessStops: number;
  /** Slope about middle grey, 0.5..2; 1 leaves it. */
  readonly contrast: number;
  /** Factors of the channels, from a click on something grey; 1, 1, 1 leaves them. */
  readonly grey: Triple;
};

export const UNADJUSTED: Adjust = { brightnessStops: 0, contrast: 1, grey: [1, 1, 1] };

/**
 * A rendering ready to be applied: one table per channel from the sRGB code of the scan (0..1 in equal steps) to the
 * code shown. `single`: all three are fed with the green channel.
 */
export type Look = {
  readonly single: boolean;
  readonly tables: readonly [Float32Array, Float32Array, Float32Array];
};

/** Steps of a table; between them it is read off a line. Our choice: error under a quarter of one code of 255. */
const STEPS = 1024;

/** Middle grey, the pivot of contrast. Source: Kodak R-27 grey card, 18 % reflectance (common practice). */
const MIDDLE_GREY = 0.18;

/** Above this light the print curve bends so that highlights end softly at white. Our choice. */
const SHOULDER = 0.8;

/** The share of a roll's samples that lies below white. Our choice: leaves room for lamps and glints. */
const WHITE_SHARE = 0.97;

/** The light at which that share is shown. Our choice: a light paper white. */
const WHITE_LIGHT = 0.85;

/** White of a colour negative roll from its samples: balanced scene light to be shown as `white`. */
export function whiteOfRoll(samples: readonly Triple[], base: FilmBase, balance: Balance): number {
  const lights = samples.map((sample) => luminance(...balancedLight(sample, base, balance)));
  return Math.max(1e-6, quantile(lights, WHITE_SHARE)) / WHITE_LIGHT;
}

/** White of a monochrome negative roll from its samples, read in the green channel. */
export function whiteOfMonochromeRoll(samples: readonly Triple[], base: FilmBase): number {
  const lights = samples.map((sample) => sceneLight(netDensity(sample[1], base.light[1]), USUAL_SLOPE));
  return Math.max(1e-6, quantile(lights, WHITE_SHARE)) / WHITE_LIGHT;
}

/** The look of a roll's scans with the user's adjustment. The same tables serve window, sheet and export. */
export function makePositiveLook(roll: RollRendering, adjust: Adjust): Look {
  const table = (channel: 0 | 1 | 2) =>
    Float32Array.from({ length: STEPS + 1 }, (_, step) => {
      const code = step / STEPS;
      if (roll.kind === 'as-scanned' && leavesChannel(adjust, channel)) return code;
      const light = renderedLight(roll, srgbToLinear(code), channel);
      // Black-and-white has no colour to balance.
      const grey = roll.kind === 'monochrome-negative' ? 1 : adjust.grey[channel];
      return linearToSrgb(printLight(light * grey, adjust, roll.kind !== 'as-scanned'));
    });
  if (roll.kind !== 'monochrome-negative') return { single: false, tables: [table(0), table(1), table(2)] };
  const one = table(1);
  return { single: true, tables: [one, one, one] };
}

/**
 * The factors that make a clicked place grey without changing its luminance; `sample` is the scanned light there.
 * They replace the `grey` of the adjustment. Channels are kept within a factor of 8.
 */
export function greyFromClick(roll: RollRendering, sample: Triple): Triple {
  const light: Triple = [
    renderedLight(roll, sample[0], 0),
    renderedLight(roll, sample[1], 1),
    renderedLight(roll, sample[2], 2),
  ];
  const wanted = luminance(...light);
  const factor = (value: number) => Math.min(8, Math.max(1 / 8, wanted / Math.max(value, 1e-6)));
  return [factor(light[0]), factor(light[1]), factor(light[2])];
}

/** The picture shown under a look: interleaved 8-bit sRGB, three channels. The picture given is left as it is. */
export function applyLook(picture: Picture, look: Look): Picture {
  const { width, height, channels, samples, encoding } = picture;
  const full = fullScale(samples);
  const shown = new Uint8ClampedArray(width * height * 3);
  const tables = look.tables.map((table) => codeTable(table, samples, full, encoding));
  for (let at = 0; at < width * height; at += 1) {
    for (let channel = 0; channel < 3; channel += 1) {
      const from = channels === 1 ? 0 : look.single ? 1 : channel;
      const read = tables[channel];
      shown[at * 3 + channel] = read === undefined ? 0 : read(samples[at * channels + from] ?? 0);
    }
  }
  return { width, height, channels: 3, samples: shown, encoding: 'srgb' };
}

/** One value of a look: code shown (0..1) for the code scanned (0..1). */
export function lookUp(table: Float32Array, code: number): number {
  const place = Math.min(1, Math.max(0, code)) * STEPS;
  const below = Math.min(STEPS - 1, Math.floor(place));
  const low = table[below] ?? 0;
  return low + ((table[below + 1] ?? low) - low) * (place - below);
}

function codeTable(
  table: Float32Array,
  samples: Picture['samples'],
  full: number,
  encoding: Picture['encoding'],
): (sample: number) => number {
  const shownFor = (sample: number) => {
    const code = encoding === 'linear' ? linearToSrgb(sample / full) : sample / full;
    return lookUp(table, code) * 255;
  };
  // A table of all codes pays only where there are more samples than codes.
  if (samples instanceof Float32Array || samples.length < full) return shownFor;
  const codes = Float32Array.from({ length: full + 1 }, (_, sample) => shownFor(sample));
  return (sample) => codes[sample] ?? 0;
}

/** Whether an adjustment changes nothing. */
export function isUnadjusted(adjust: Adjust): boolean {
  return ([0, 1, 2] as const).every((channel) => leavesChannel(adjust, channel));
}

function leavesChannel(adjust: Adjust, channel: 0 | 1 | 2): boolean {
  return adjust.brightnessStops === 0 && adjust.contrast === 1 && adjust.grey[channel] === 1;
}

function renderedLight(roll: RollRendering, light: number, channel: 0 | 1 | 2): number {
  if (roll.kind === 'as-scanned') return light;
  const density = netDensity(light, roll.base.light[roll.kind === 'monochrome-negative' ? 1 : channel]);
  if (roll.kind === 'monochrome-negative') return sceneLight(density, USUAL_SLOPE) / roll.white;
  return (roll.balance.gain[channel] * sceneLight(density, roll.balance.slope[channel])) / roll.white;
}

/** Brightness, then contrast about middle grey, then (for negatives) the soft shoulder to white. */
function printLight(light: number, adjust: Adjust, soft: boolean): number {
  const exposed = light * 2 ** adjust.brightnessStops;
  const toned = adjust.contrast === 1 ? exposed : MIDDLE_GREY * (exposed / MIDDLE_GREY) ** adjust.contrast;
  if (!soft || toned <= SHOULDER) return Math.min(1, toned);
  return SHOULDER + (1 - SHOULDER) * (1 - Math.exp(-(toned - SHOULDER) / (1 - SHOULDER)));
}
