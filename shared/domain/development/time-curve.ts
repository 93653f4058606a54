import type { Process, Step } from './process.ts';
import { ownTimePoint } from './process.ts';
import type { TimeCurve } from './time-at-temperature.ts';
import { joinTimePoints } from './time-at-temperature.ts';

/**
 * How the time of a step depends on temperature: its rows, else for black-and-white development the marked
 * estimate, else the one time within its tolerance. Null when nothing is known yet or the time does not depend on
 * an aim.
 */
export function findTimeCurve(step: Step, family: Process['family']): TimeCurve | null {
  const points = joinTimePoints(step.timePoints, ownTimePoint(step));
  const [only] = points;
  if (only === undefined) return null;
  if (points.length > 1) return { kind: 'points', points };
  if (family === 'black_and_white' && step.bath === 'developer') return { kind: 'estimate', point: only };
  return {
    kind: 'fixed',
    point: only,
    lowC: step.temperature?.lowC ?? only.celsius,
    highC: step.temperature?.highC ?? only.celsius,
  };
}
