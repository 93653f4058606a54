import type { Balance } from '../../../shared/domain/colour/balance.ts';
import type { FrameCast } from '../../../shared/domain/colour/cast-frame.ts';
import { restateCast } from '../../../shared/domain/colour/restate.ts';
import type { MeasuredRoll } from './measured-roll.ts';

/** The casts of a roll's frames as they are under a balance that is not the roll's own; positives have only one. */
export function castsUnder(
  { measuredUnder, frames }: Pick<MeasuredRoll, 'measuredUnder' | 'frames'>,
  balance: Balance,
): FrameCast[] {
  return frames.map(({ cast }) =>
    measuredUnder === null ? cast : restateCast(cast, measuredUnder, balance),
  );
}
