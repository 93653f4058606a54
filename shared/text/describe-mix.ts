import type { DilutionRefusal } from '../domain/development/dilution.ts';
import type { EffectiveRefusal } from '../domain/development/effective-development.ts';
import type { FilmSumRefusal } from '../domain/development/film-sum.ts';
import type { DriftRefusal } from '../domain/development/tank-drift.ts';
import type { VolumeRefusal } from '../domain/development/tank-volume.ts';
import type { WashRefusal } from '../domain/development/wash.ts';
import type { WaterRefusal } from '../domain/development/water-mix.ts';

/** Why one of the darkroom's sums cannot be worked out. */
export type MixReason =
  | DilutionRefusal
  | WaterRefusal
  | DriftRefusal
  | VolumeRefusal
  | WashRefusal
  | EffectiveRefusal
  | FilmSumRefusal;

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
  no_reels: 'there is no reel with film on it',
  volume_per_reel_missing: 'it is not said how much covers a reel',
  volume_over_tank: 'that is more than the tank holds',
  area_not_positive: 'film is more than nothing',
  fills_not_whole: 'fills are counted whole, one at least',
  amount_not_real: 'that is no amount',
  no_readings: 'no temperature was read',
  below_range: 'that is colder than any time that is known; times are not guessed beyond it',
  above_range: 'that is warmer than any time that is known; times are not guessed beyond it',
  outside_tolerance: 'the one time that is known holds at its own temperature only',
  no_film: 'no film was named',
  format_unknown: 'there is no such film format',
  exposures_not_positive: 'a film has one exposure at least',
  pieces_not_positive: 'films are counted whole',
  crosses_room: 'a tank does not reach the temperature of the room, nor go beyond it',
};

/** Why a sum of mixing or cooling cannot be worked out, in words that follow the value. */
export function describeMixReason(reason: MixReason): string {
  return WORDS[reason];
}
