import type { TemperatureReading } from './effective-development.ts';
import { findMeanTemperature } from './effective-development.ts';
import type { PlannedStep } from './planned-step.ts';
import type { StepTemperature } from './process.ts';

/** A step as it happened. Readings are by seconds from pouring in. */
export type ActualStep = {
  readonly seconds: number;
  readonly readings: readonly TemperatureReading[];
};

/** Where measured temperatures lie against what was allowed. */
export type TemperatureVerdict =
  'within' | 'below' | 'above' | 'both_sides' | 'not_measured' | 'no_tolerance';

/** A planned step against what happened, errors as actual minus planned. */
export type StepComparison = {
  readonly timeErrorSeconds: number;
  readonly timeErrorPercent: number;
  /** For a step that works to completion, whether it had its time; null for an exact one. */
  readonly hadMinimum: boolean | null;
  readonly meanC: number | null;
  readonly lowestC: number | null;
  readonly highestC: number | null;
  /** Mean minus the temperature aimed at, °C; null when nothing was measured or aimed at. */
  readonly temperatureErrorC: number | null;
  /** Whether the mean was within tolerance; this is what the film as a whole got. */
  readonly meanVerdict: TemperatureVerdict;
  /** Whether every single reading was within tolerance. */
  readonly readingsVerdict: TemperatureVerdict;
};

/** A tolerance given to 0.01 °C at best is met within this. */
const SLACK_C = 1e-6;

/** Where temperatures lie against a step's tolerance. An aim without limits allows nothing to be said. */
export function judgeTemperatures(
  celsius: readonly number[],
  temperature: StepTemperature | null,
): TemperatureVerdict {
  const lowC = temperature?.lowC ?? null;
  const highC = temperature?.highC ?? null;
  if (lowC === null && highC === null) return 'no_tolerance';
  if (celsius.length === 0) return 'not_measured';
  const below = lowC !== null && celsius.some((value) => value < lowC - SLACK_C);
  const above = highC !== null && celsius.some((value) => value > highC + SLACK_C);
  if (below && above) return 'both_sides';
  if (below) return 'below';
  return above ? 'above' : 'within';
}

/** Compares one step's plan, as it was made, with what happened; `actual.seconds` > 0. */
export function comparePlannedAndActual(
  planned: Pick<PlannedStep, 'seconds' | 'timing' | 'temperature'>,
  actual: ActualStep,
): StepComparison {
  const timeErrorSeconds = actual.seconds - planned.seconds;
  const measured = actual.readings.map((reading) => reading.celsius);
  const meanC = findMeanTemperature(actual.readings, actual.seconds);
  const aimC = planned.temperature?.aimC ?? null;
  return {
    timeErrorSeconds,
    timeErrorPercent: (timeErrorSeconds / planned.seconds) * 100,
    hadMinimum: planned.timing === 'minimum' ? timeErrorSeconds >= 0 : null,
    meanC,
    lowestC: measured.length === 0 ? null : Math.min(...measured),
    highestC: measured.length === 0 ? null : Math.max(...measured),
    temperatureErrorC: meanC === null || aimC === null ? null : meanC - aimC,
    meanVerdict: judgeTemperatures(meanC === null ? [] : [meanC], planned.temperature),
    readingsVerdict: judgeTemperatures(measured, planned.temperature),
  };
}
