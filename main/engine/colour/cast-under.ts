import type { Balance } from '../../../shared/domain/colour/balance.ts';
import type { FrameCast } from '../../../shared/domain/colour/cast-frame.ts';
import { restateCast } from '../../../shared/domain/colour/restate.ts';
import type { MeasuredRoll } from './measured-roll.ts';

/** The casts of a roll's frames as they are under a balance that is not the roll's own; positives have only one. */
export function castsUnder(
  { rendering, frames }: Pick<MeasuredRoll, 'rendering' | 'frames'>,
  balance: Balance,
): FrameCast[] {
  if (rendering.kind !== 'colour-negative') return frames.map((frame) => frame.cast);
  return frames.map(({ cast, tones }) => restateCast(cast, tones, rendering, balance));
}
