import type { Process } from './process.ts';
import { findDeveloperStep, moveTemperature } from './process.ts';
import type { TimePoint } from './time-at-temperature.ts';

/**
 * The process with a film's own developer time: the first row is the time and the temperature aimed at (the
 * tolerance goes along), further rows are its table. What the process itself said about developer times is dropped,
 * since rows of two films do not belong to one curve.
 */
export function setDeveloperTime(
  process: Process,
  own: TimePoint,
  further: readonly TimePoint[] = [],
): Process {
  const developer = findDeveloperStep(process);
  const steps = process.steps.map((step) =>
    step.key === developer?.key
      ? {
          ...step,
          time: { seconds: own.seconds, source: own.source },
          temperature:
            step.temperature === null
              ? { aimC: own.celsius, lowC: null, highC: null, source: own.source }
              : moveTemperature(step.temperature, own.celsius),
          timePoints: further,
        }
      : step,
  );
  return { ...process, steps };
}
