import type { PlottedRoll } from '../../shared/api/methods/causes-methods.ts';
import {
  LOG_KINDS,
  LOG_NUMBERS,
  type LogKind,
  type LogNumber,
  type Measure,
} from '../../shared/domain/colour/logged-roll.ts';
import { KIND_WORDS, MEASURE_WORDS, NUMBER_WORDS } from '../../shared/text/describe-trend.ts';

/** What a cast is looked at against: a number of the log, or a kind. */
export type CastFactor = LogNumber | LogKind;

/** Everything that casts can be looked at against, in the order it is offered. */
export const FACTORS: readonly CastFactor[] = [...LOG_NUMBERS, ...LOG_KINDS];

/** Whether a factor is a number, so that there is a line; kinds stand beside each other. */
export function isLogNumber(factor: CastFactor): factor is LogNumber {
  return LOG_NUMBERS.some((number) => number === factor);
}

/** What a factor is called. */
export function factorLabel(factor: CastFactor): string {
  return isLogNumber(factor) ? NUMBER_WORDS[factor].label : KIND_WORDS[factor].label;
}

/** A number with a sign that is read aloud as one. */
export function formatSigned(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return Number(text) === 0 ? text : `${value < 0 ? '−' : '+'}${text}`;
}

/** What the log knows of a roll on a factor, in words: `0.6 °C under`, `58 months past`. */
export function describeFactor(roll: Pick<PlottedRoll, CastFactor>, factor: CastFactor): string {
  if (!isLogNumber(factor)) return roll[factor] ?? 'not in the log';
  const value = roll[factor];
  if (value === null) return 'not in the log';
  switch (factor) {
    case 'temperatureErrorC':
      return Math.abs(value) < 0.05
        ? 'on temperature'
        : `${Math.abs(value).toFixed(1)} °C ${value < 0 ? 'under' : 'over'}`;
    case 'monthsPastExpiry':
      return value <= 0 ? `in date by ${months(-value)}` : `${months(value)} past`;
    case 'warmMonths':
      return `${months(Math.round(value))} kept warm`;
    case 'bathRolls':
      return value === 0 ? 'fresh bath' : `${Number(value.toFixed(1))} rolls before`;
    case 'effectiveSeconds': {
      const seconds = Math.round(value);
      return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')} effective`;
    }
  }
}

function months(value: number): string {
  return value === 1 ? '1 month' : `${value} months`;
}

/** A measure in words: `Δa* −2.6, greener`. */
export function describeMeasure(measure: Measure, value: number): string {
  const { symbol, less, more, digits } = MEASURE_WORDS[measure];
  if (measure === 'deltaE00') return `${symbol} ${value.toFixed(digits)}`;
  const figure = formatSigned(value, digits);
  return Number(figure) === 0 ? `${symbol} ${figure}` : `${symbol} ${figure}, ${value < 0 ? less : more}`;
}
