import { accept, refuse } from '../checked.ts';
import type { ExtensionRefusal, ExtensionRule } from './extension.ts';
import { applyExtension } from './extension.ts';
import type { Process, Step } from './process.ts';
import { ownTimePoint } from './process.ts';
import type { PushRefusal } from './push-pull.ts';
import { applyPush } from './push-pull.ts';
import { arithmetic } from './source.ts';
import type { TimeRefusal } from './time-at-temperature.ts';
import { timeAtTemperature } from './time-at-temperature.ts';
import { findTimeCurve } from './time-curve.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shownTime } from './working.ts';

/** What a step will be worked under. `celsius` null: at the process's own temperature. */
export type StepConditions = {
  readonly celsius: number | null;
  readonly stops: number;
  /** Rolls of 80 sq in that went through the step's bath before. */
  readonly rollsDone: number;
  readonly extension: ExtensionRule | null;
};

/** Why a step has no time. */
export type StepRefusal = 'time_missing' | TimeRefusal | PushRefusal | ExtensionRefusal;

/** The time before push and extension: from the curve where there is one, else the step's own. */
function timeBefore(
  step: Step,
  family: Process['family'],
  celsius: number | null,
): WorkedOrNot<number, StepRefusal> {
  const curve = findTimeCurve(step, family);
  const at = celsius ?? step.temperature?.aimC ?? null;
  if (curve !== null && at !== null) return timeAtTemperature(curve, at);
  const { seconds, source } = step.time;
  if (seconds === null) return refuse('time_missing');
  const line: WorkingLine = {
    label: step.name,
    formula: shownTime(seconds),
    value: seconds,
    unit: 's',
    source,
  };
  return accept({ value: seconds, lines: [line] });
}

/**
 * A push on a time that already stands at another temperature. Seconds per stop are meant at the process's own
 * temperature, so they are carried over as a ratio (our choice: the rate falls for the push as for the rest).
 */
function pushAt(step: Step, seconds: number, stops: number): WorkedOrNot<number, PushRefusal> {
  const own = ownTimePoint(step);
  if (own === null || own.seconds === seconds || step.push?.kind !== 'seconds') {
    return applyPush(seconds, stops, step.push);
  }
  const pushed = applyPush(own.seconds, stops, step.push);
  const line = pushed.ok ? pushed.value.lines[0] : undefined;
  if (!pushed.ok) return pushed;
  if (line === undefined) return accept({ value: seconds, lines: [] });
  const value = (seconds * pushed.value.value) / own.seconds;
  const formula = `${shownTime(seconds)} × (${line.formula}) / ${shownTime(own.seconds)}`;
  return accept({ value, lines: [{ ...line, formula, value }] });
}

/**
 * The time of a step in whole seconds with the whole sum: time at the temperature, push, film already through the
 * bath, rounding. The order does not change the result, each is a factor.
 */
export function planStepTime(
  step: Step,
  family: Process['family'],
  conditions: StepConditions,
): WorkedOrNot<number, StepRefusal> {
  const before = timeBefore(step, family, conditions.celsius);
  if (!before.ok) return before;
  const pushed = pushAt(step, before.value.value, conditions.stops);
  if (!pushed.ok) return pushed;
  const extended = applyExtension(pushed.value.value, conditions.rollsDone, conditions.extension);
  if (!extended.ok) return extended;
  const exact = extended.value.value;
  const value = Math.max(1, Math.round(exact));
  const rounding: readonly WorkingLine[] =
    Math.abs(value - exact) < 1e-9
      ? []
      : [
          {
            label: 'To the whole second',
            formula: shownTime(exact),
            value,
            unit: 's',
            source: arithmetic('Rounded to the nearest second'),
          },
        ];
  return accept({
    value,
    lines: [...before.value.lines, ...pushed.value.lines, ...extended.value.lines, ...rounding],
  });
}
