import type { Balance } from './balance.ts';
import { labOfGrey } from './grey.ts';
import type { GreyRatio } from './grey.ts';
import type { FrameCast } from './cast-frame.ts';

/**
 * The cast of a frame that was measured under one balance, as it is under another of the same slopes: gains shift all
 * greys alike. A roll is measured about its own greys, where they are found surest; under the balance of its stock the
 * error of the whole roll is there again, whole.
 */
export function restateCast(cast: FrameCast, from: Balance, wanted: Balance): FrameCast {
  if (cast.grey === null) return cast;
  const shift = (channel: 0 | 2) =>
    Math.log((wanted.gain[channel] / wanted.gain[1]) * (from.gain[1] / from.gain[channel]));
  const by: GreyRatio = { u: shift(0), v: shift(2) };
  const shifted = ({ u, v }: GreyRatio): GreyRatio => ({ u: u + by.u, v: v + by.v });
  const grey = shifted(cast.grey);
  return {
    ...cast,
    grey,
    ...labOfGrey(grey),
    tones: cast.tones && {
      ...cast.tones,
      shadows: shifted(cast.tones.shadows),
      highlights: shifted(cast.tones.highlights),
    },
  };
}

/** A balance under which a grey that was found under `balance` is neutral. */
export function centredOn({ slope, gain }: Balance, { u, v }: GreyRatio): Balance {
  return { slope, gain: [gain[0] * Math.exp(-u), gain[1], gain[2] * Math.exp(-v)] };
}
