import type { DevelopmentPlan, RunEventValue } from '../../../shared/api/methods/development-methods.ts';
import {
  findMeanTemperature,
  type TemperatureReading,
} from '../../../shared/domain/development/effective-development.ts';
import { recordRun, type StepRecord } from '../../../shared/domain/development/run-clock.ts';

/** A step of the plan as it happened; a step that was begun twice counts as one. Seconds count from pouring in. */
export interface ActualStep {
  readonly step: number;
  readonly startedMs: number;
  readonly seconds: number;
  readonly meanC: number | null;
  readonly readings: readonly TemperatureReading[];
}

function join(step: number, records: readonly StepRecord[]): ActualStep | null {
  const [first] = records;
  if (first === undefined) return null;
  let seconds = 0;
  const readings: TemperatureReading[] = [];
  for (const { startedMs, endedMs, readings: taken } of records) {
    if (endedMs === null) continue;
    const before = seconds;
    readings.push(...taken.map((reading) => ({ ...reading, atSeconds: before + reading.atSeconds })));
    seconds += (endedMs - startedMs) / 1000;
  }
  if (seconds <= 0) return null;
  return {
    step,
    startedMs: first.startedMs,
    seconds,
    readings,
    meanC: findMeanTemperature(readings, seconds),
  };
}

/** The steps of a run that were done, in the order of the plan. */
export function actualSteps(plan: DevelopmentPlan, events: readonly RunEventValue[]): ActualStep[] {
  const { steps } = recordRun(plan.steps, events);
  return plan.steps.flatMap(
    (_step, at) =>
      join(
        at,
        steps.filter((record) => record.step === at),
      ) ?? [],
  );
}
