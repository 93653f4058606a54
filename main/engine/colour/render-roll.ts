import { balanceOfRoll, samplesOfFrame, USUAL_BALANCE } from '../../../shared/domain/colour/balance.ts';
import { baseOfFrame, baseOfRoll } from '../../../shared/domain/colour/film-base.ts';
import {
  type RollRendering,
  whiteOfMonochromeRoll,
  whiteOfRoll,
} from '../../../shared/domain/colour/look.ts';
import { lightOf, type Light, type Picture } from '../../../shared/domain/colour/picture.ts';
import { polarityOfFrame, polarityOfRoll, type RollKind } from '../../../shared/domain/colour/polarity.ts';

/** What the user says of a roll's scans; `auto` leaves it to the pictures. */
export interface RollIntent {
  readonly polarity: 'auto' | 'negative' | 'positive';
  readonly tone: 'auto' | 'colour' | 'monochrome';
}

export interface RenderedRoll {
  readonly kind: RollKind;
  /** For showing: balanced to please the eye. */
  readonly rendering: RollRendering;
  /** For measuring: the usual balance, which hides no error of the roll. */
  readonly measuring: RollRendering;
}

/** Decides how the scans of a roll are meant and how they are turned into positives. */
export function renderRoll(pictures: readonly Picture[], intent: RollIntent): RenderedRoll {
  const lights = pictures.map(lightOf);
  const seen = polarityOfRoll(lights.map(polarityOfFrame));
  const kind: RollKind = {
    ...seen,
    polarity: intent.polarity === 'auto' ? seen.polarity : intent.polarity,
    colour: intent.tone === 'auto' ? seen.colour : intent.tone,
    confidence: intent.polarity === 'auto' ? seen.confidence : 1,
  };
  const asScanned: RollRendering = { kind: 'as-scanned' };
  if (kind.polarity !== 'negative') return { kind, rendering: asScanned, measuring: asScanned };
  return { kind, ...negativeRendering(lights, kind.colour === 'monochrome') };
}

function negativeRendering(
  lights: readonly Light[],
  monochrome: boolean,
): { readonly rendering: RollRendering; readonly measuring: RollRendering } {
  const base = baseOfRoll(lights.map(baseOfFrame));
  const asScanned: RollRendering = { kind: 'as-scanned' };
  if (base === null) return { rendering: asScanned, measuring: asScanned };
  const frames = lights.map(samplesOfFrame);
  const samples = frames.flat();
  if (monochrome) {
    const rendering: RollRendering = {
      kind: 'monochrome-negative',
      base,
      white: whiteOfMonochromeRoll(samples, base),
    };
    return { rendering, measuring: rendering };
  }
  const balance = balanceOfRoll(frames, base);
  return {
    rendering: { kind: 'colour-negative', base, balance, white: whiteOfRoll(samples, base, balance) },
    measuring: {
      kind: 'colour-negative',
      base,
      balance: USUAL_BALANCE,
      white: whiteOfRoll(samples, base, USUAL_BALANCE),
    },
  };
}
