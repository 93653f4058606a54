import {
  balanceOfRoll,
  plainBalanceOfRoll,
  samplesOfFrame,
  type Balance,
} from '../../../shared/domain/colour/balance.ts';
import { baseOfFrame, baseOfRoll } from '../../../shared/domain/colour/film-base.ts';
import {
  type RollRendering,
  whiteOfMonochromeRoll,
  whiteOfRoll,
} from '../../../shared/domain/colour/look.ts';
import { lightOf, type Light, type Picture } from '../../../shared/domain/colour/picture.ts';
import {
  polarityOfFrame,
  polarityOfRoll,
  type PolarityEvidence,
  type RollKind,
} from '../../../shared/domain/colour/polarity.ts';

/** What the user says of a roll's scans; `auto` leaves it to the pictures. */
export interface RollIntent {
  readonly polarity: 'auto' | 'negative' | 'positive';
  readonly tone: 'auto' | 'colour' | 'monochrome';
}

export interface RenderedRoll {
  readonly kind: RollKind;
  /** What each picture says of how it is meant. */
  readonly evidence: readonly PolarityEvidence[];
  /** How they are shown: balanced by their own greys, to please the eye. */
  readonly rendering: RollRendering;
  /** What to measure colour negatives under, to begin with; null for all else. */
  readonly plain: Balance | null;
}

/** Decides how the scans of a roll are meant and how they are turned into positives. */
export function renderRoll(pictures: readonly Picture[], intent: RollIntent): RenderedRoll {
  const lights = pictures.map(lightOf);
  const evidence = lights.map(polarityOfFrame);
  const seen = polarityOfRoll(evidence);
  const kind: RollKind = {
    ...seen,
    polarity: intent.polarity === 'auto' ? seen.polarity : intent.polarity,
    colour: intent.tone === 'auto' ? seen.colour : intent.tone,
    confidence: intent.polarity === 'auto' ? seen.confidence : 1,
  };
  const found = kind.polarity === 'negative' ? negativeRendering(lights, kind.colour === 'monochrome') : null;
  return { kind, evidence, ...(found ?? { rendering: { kind: 'as-scanned' }, plain: null }) };
}

function negativeRendering(
  lights: readonly Light[],
  monochrome: boolean,
): Pick<RenderedRoll, 'rendering' | 'plain'> | null {
  const base = baseOfRoll(lights.map(baseOfFrame));
  if (base === null) return null;
  const frames = lights.map(samplesOfFrame);
  const samples = frames.flat();
  if (monochrome) {
    const white = whiteOfMonochromeRoll(samples, base);
    return { rendering: { kind: 'monochrome-negative', base, white }, plain: null };
  }
  const balance = balanceOfRoll(frames, base);
  return {
    rendering: { kind: 'colour-negative', base, balance, white: whiteOfRoll(samples, base, balance) },
    plain: plainBalanceOfRoll(frames, base),
  };
}
