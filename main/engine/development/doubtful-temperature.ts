import { appError } from '../../../shared/api/errors.ts';
import { questionTemperature } from '../../../shared/domain/development/temperature-question.ts';
import { formatTemperature } from '../../../shared/text/format.ts';

/** Thermometers of a darkroom and the water they stand in, °C. */
const COLDEST_C = -10;
const WARMEST_C = 110;

/**
 * Lets a typed temperature pass, °C, unless it is probably another one (378 for 37.8, °F for °C) and nobody said that
 * it is meant, or no bath is like that. `expectedC`: what it is held against; null where nothing is known.
 * @throws {AppError} temperature_doubtful, value_not_valid
 */
export function checkTemperature(typedC: number, expectedC: number | null, sure: boolean): void {
  const typed = `${typedC} °C`;
  const question = sure || expectedC === null ? null : questionTemperature(typedC, expectedC);
  if (question !== null) {
    const { suggestedC } = question;
    const meant = suggestedC === null ? null : formatTemperature(suggestedC);
    throw appError('temperature_doubtful', { typed, meant });
  }
  if (typedC < COLDEST_C || typedC > WARMEST_C) {
    throw appError('value_not_valid', { field: 'temperature', value: typed, reason: 'no bath is like that' });
  }
}
