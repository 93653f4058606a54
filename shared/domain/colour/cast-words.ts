import { directionOf, greyShifted, shiftOf } from './cast-axes.ts';
import type { Direction } from './cast-axes.ts';
import { MEASURED_FROM, labOfGrey } from './cast-frame.ts';
import type { FrameCast, GreyRatio } from './cast-frame.ts';
import type { Comparison, RollCast } from './cast-roll.ts';

/** What one picture on its own can say: a leaning only where light alone hardly ever goes. */
export type Alone = { readonly direction: Direction | null; readonly note: string };

/**
 * Where the greys of one picture lie when nothing is wrong, and the confidence needed to call it unusual beyond that.
 * Our choice, measured on 324 free views of 18 places and the film scans of the tests: under 1 in 100 is called.
 * Dawn and dusk reach far towards magenta, so that side asks for more. Along the colours of light a single picture
 * may lie nearly anywhere: most slight casts cannot be told from the light on one picture; the roll tells.
 */
const USUAL = {
  green: { across: -0.42, confidence: MEASURED_FROM },
  magenta: { across: 0.22, confidence: 0.6 },
  blue: { along: -0.62, confidence: MEASURED_FROM },
  yellow: { along: 0.65, confidence: MEASURED_FROM },
} as const;

/**
 * The grey that a leaning is named from: as warm as film scans usually are. Our choice: the plain film scans of the
 * tests lie there.
 */
const USUAL_WARMTH: GreyRatio = greyShifted({ u: 0, v: 0 }, { across: 0, along: 0.3 });

/** What one picture says without its roll. */
export function judgeAlone(cast: FrameCast): Alone {
  switch (cast.note) {
    case 'blank':
      return { direction: null, note: 'Nothing on it: a blank frame has no cast.' };
    case 'monochrome':
      return { direction: null, note: 'Black-and-white: no cast to measure.' };
    case 'toned':
      return { direction: null, note: 'Toned: one hue follows the tone all through. That is no cast.' };
    case 'negative':
      return { direction: null, note: 'An unconverted negative: show it as a positive first.' };
    case 'no-neutral':
      return { direction: null, note: 'The subject has no neutral to go by.' };
    case 'weak':
    case 'measured':
      return judgeMeasured(cast);
  }
}

function judgeMeasured(cast: FrameCast): Alone {
  if (cast.grey === null || cast.a === null || cast.b === null) {
    return { direction: null, note: 'The subject has no neutral to go by.' };
  }
  if (cast.confidence < MEASURED_FROM) {
    return { direction: null, note: 'Too little neutral in the subject to be sure.' };
  }
  const { across, along } = shiftOf(cast.grey);
  const isUnusual =
    (across < USUAL.green.across && cast.confidence >= USUAL.green.confidence) ||
    (across > USUAL.magenta.across && cast.confidence >= USUAL.magenta.confidence) ||
    (along < USUAL.blue.along && cast.confidence >= USUAL.blue.confidence) ||
    (along > USUAL.yellow.along && cast.confidence >= USUAL.yellow.confidence);
  if (!isUnusual) {
    return { direction: null, note: 'Within what light alone can do; its roll can tell more.' };
  }
  const usual = labOfGrey(USUAL_WARMTH);
  const direction = directionOf(cast.a - usual.a, cast.b - usual.b);
  return { direction, note: `Greys lean to ${direction}.` };
}

/** Words for the size of a difference. Our choice: 2 is just worth a word, 7 is plain at a glance. */
function sizeOf(deltaE00: number): string {
  if (deltaE00 < 3.5) return 'slight';
  return deltaE00 < 7 ? 'clear' : 'strong';
}

function signed(value: number): string {
  return `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`;
}

/** What a roll says, in one or two sentences; `comparison` is null where there are not enough other rolls. */
export function sayRoll(roll: RollCast | null, comparison: Comparison | null): string {
  if (roll === null) return 'Too few frames with something neutral to speak for the roll.';
  const own = `Greys at a* ${signed(roll.a)}, b* ${signed(roll.b)} in ${roll.frames} frames`;
  if (comparison === null) return `${own}. Not enough rolls of this stock to say whether that is unusual.`;
  const kind = comparison.measure === 'good-rolls' ? ' in date and on temperature' : '';
  const against = `${comparison.rolls} other rolls of this stock${kind}`;
  const numbers = `Δa* ${signed(comparison.deltaA)}, Δb* ${signed(comparison.deltaB)}, ΔE00 ${comparison.deltaE00.toFixed(1)}`;
  const main = comparison.stands
    ? `Against ${against}: a ${sizeOf(comparison.deltaE00)} shift to ${comparison.direction} (${numbers}), seen in ${roll.frames} frames.`
    : `No shift that stands out against ${against} (${numbers}).`;
  const cross =
    comparison.crossover?.stands === true
      ? ` Shadows lean to ${comparison.crossover.shadows}, highlights to ${comparison.crossover.highlights}: no one filter takes both away.`
      : '';
  const fog =
    comparison.liftedBlackL >= LIFTED_BLACK
      ? ` Blacks are lifted by ${comparison.liftedBlackL.toFixed(0)} L* against the usual.`
      : '';
  return `${main}${cross}${fog}`;
}

/** Blacks lifted by less are a matter of scanning. Our choice. */
const LIFTED_BLACK = 8;
