import type { FrameCast } from './cast-frame.ts';
import type { RollCast } from './cast-roll.ts';
import type { Comparison } from './compare-with-stock.ts';
import { judgeGrey } from './judge-alone.ts';
import type { Alone } from './judge-alone.ts';

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
      return judgeGrey(cast);
  }
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
