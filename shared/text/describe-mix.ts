import type { DilutionRefusal } from '../domain/development/dilution.ts';
import type { DriftRefusal } from '../domain/development/tank-drift.ts';
import type { WaterRefusal } from '../domain/development/water-mix.ts';

/** Why volumes, waters or a drift cannot be worked out. */
export type MixReason = DilutionRefusal | WaterRefusal | DriftRefusal;

const WORDS: Readonly<Record<MixReason, string>> = {
  dilution_not_readable: 'a dilution is such as 1+9, 1+1+8 or stock',
  parts_not_positive: 'every part of a dilution is more than nothing',
  volume_not_positive: 'a volume is more than nothing',
  temperature_not_real: 'that is no temperature of water',
  hot_not_warmer: 'the hot water is not warmer than the cold',
  target_above_hot: 'the hot water is not as warm as what is wanted',
  target_below_cold: 'the cold water is warmer than what is wanted',
  time_not_positive: 'a time is more than nothing',
  constant_not_real: 'no tank cools like that',
  no_difference_to_room: 'the tank starts at the temperature of the room, so nothing can be read from it',
  moves_away_from_room: 'the tank moves away from the temperature of the room; check the readings',
  crosses_room: 'a tank does not reach the temperature of the room, nor go beyond it',
};

/** Why a sum of mixing or cooling cannot be worked out, in words that follow the value. */
export function describeMixReason(reason: MixReason): string {
  return WORDS[reason];
}
