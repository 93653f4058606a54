import { densityOfLight, sceneLight } from './balance.ts';
import type { Balance } from './balance.ts';
import { labOfGrey } from './cast-frame.ts';
import type { FrameCast, GreyRatio } from './cast-frame.ts';
import { luminance } from './picture.ts';
import type { Light } from './picture.ts';
import { quantileOfSorted } from '../statistics/order.ts';

/** How light a frame is as shown: luminance 0..1 in the middles of its darkest fifth, its whole, its lightest fifth. */
export type FrameTones = { readonly dark: number; readonly middle: number; readonly light: number };

/** Lighter than this the print curve has bent, and darker than this all is noise: tones are taken in between. Our choice. */
const LEAST_TONE = 0.01;
const MOST_TONE = 0.75;

/** The tones of a frame as shown. */
export function tonesOfFrame(shown: Light): FrameTones {
  const tones = Float64Array.from(shown.red, (red, at) =>
    luminance(red, shown.green[at] ?? 0, shown.blue[at] ?? 0),
  ).sort();
  const tone = (share: number) => Math.min(MOST_TONE, Math.max(LEAST_TONE, quantileOfSorted(tones, share)));
  return { dark: tone(0.1), middle: tone(0.5), light: tone(0.9) };
}

/** A balance with the white it was shown with. */
export type ShownBalance = { readonly balance: Balance; readonly white: number };

/**
 * The cast of a frame that was measured under one balance, as it would be under another: the densities behind its
 * greys are the same, only what they are taken for changes. A roll is shown balanced by its own greys, which hides an
 * error of the whole roll; under the balance of its stock the error is there again, whole.
 */
export function restateCast(
  cast: FrameCast,
  tones: FrameTones,
  from: ShownBalance,
  wanted: Balance,
): FrameCast {
  if (cast.grey === null) return cast;
  const grey = restateGrey(cast.grey, tones.middle, from, wanted);
  return {
    ...cast,
    grey,
    ...labOfGrey(grey),
    tones: cast.tones && {
      shadows: restateGrey(cast.tones.shadows, tones.dark, from, wanted),
      highlights: restateGrey(cast.tones.highlights, tones.light, from, wanted),
    },
  };
}

function restateGrey(
  { u, v }: GreyRatio,
  tone: number,
  { balance, white }: ShownBalance,
  wanted: Balance,
): GreyRatio {
  const green = tone / luminance(Math.exp(u), 1, Math.exp(v));
  const light = (shown: number, channel: 0 | 1 | 2) => {
    const density = densityOfLight((shown * white) / balance.gain[channel], balance.slope[channel]);
    return Math.log(wanted.gain[channel] * sceneLight(density, wanted.slope[channel]));
  };
  const middle = light(green, 1);
  return { u: light(green * Math.exp(u), 0) - middle, v: light(green * Math.exp(v), 2) - middle };
}
