import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import type { Agitation } from './agitation.ts';
import type { BathDefaults } from './bath-defaults.ts';
import type { CautionKey } from './cautions.ts';
import { isExtensionReal } from './extension.ts';
import type { PushTable } from './push-pull.ts';
import type { Source } from './source.ts';
import type { TimePoint } from './time-at-temperature.ts';
import { joinTimePoints } from './time-at-temperature.ts';

/** What a step's bath is; `water` steps use none of the user's baths. */
export type BathKind =
  | 'water'
  | 'prebath'
  | 'developer'
  | 'first_developer'
  | 'colour_developer'
  | 'stop'
  | 'reversal'
  | 'pre_bleach'
  | 'bleach'
  | 'fixer'
  | 'bleach_fix'
  | 'wetting_agent'
  | 'stabiliser'
  | 'final_rinse';

/**
 * How warm a step is to be, in °C. `aimC` null: anywhere from `lowC` to `highC`. All null: as the room is.
 */
export type StepTemperature = {
  readonly aimC: number | null;
  readonly lowC: number | null;
  readonly highC: number | null;
  readonly source: Source;
};

/** A step's nominal time; null seconds mean "enter your maker's". */
type StepTime = { readonly seconds: number | null; readonly source: Source };

/** One named step of a process. Plain values only, so that a user's copy can be kept as JSON. */
export type Step = {
  readonly key: string;
  readonly name: string;
  readonly bath: BathKind;
  readonly time: StepTime;
  /** `exact`: the time develops the picture. `minimum`: the bath works to completion, longer does no harm. */
  readonly timing: 'exact' | 'minimum';
  readonly temperature: StepTemperature | null;
  readonly agitation: Agitation | null;
  /** Times at other temperatures, as a maker's table gives them; empty when there is none. */
  readonly timePoints: readonly TimePoint[];
  readonly push: PushTable | null;
  readonly cautions: readonly CautionKey[];
  readonly note: string | null;
  /** What the maker says of the bath beyond one run: capacity, life, added time. Left out when he says nothing. */
  readonly bathFacts?: BathDefaults | undefined;
};

/** A process: what the film goes through, in order. */
export type Process = {
  readonly key: string;
  readonly name: string;
  readonly family: 'colour_negative' | 'black_and_white' | 'colour_reversal' | 'motion_picture_negative';
  readonly steps: readonly Step[];
  readonly note: string | null;
};

/** Why a process cannot be used as it was entered. */
export type ProcessFault =
  | 'no_steps'
  | 'name_missing'
  | 'step_key_twice'
  | 'time_not_positive'
  | 'time_too_long'
  | 'temperature_not_real'
  | 'tolerance_upside_down'
  | 'points_not_falling'
  | 'agitation_impossible'
  | 'push_not_real'
  | 'bath_facts_not_real';

/** A step of more than a day is a slip of the keyboard. Our choice. */
const LONGEST_STEP_SECONDS = 24 * 3600;

/** Water is ice below 0 °C and steam above 100 °C at sea level. */
function isWaterTemperature(celsius: number | null): boolean {
  return celsius === null || (Number.isFinite(celsius) && celsius >= 0 && celsius <= 100);
}

function timeFault(seconds: number | null): ProcessFault | null {
  if (seconds === null) return null;
  if (!Number.isFinite(seconds) || seconds <= 0) return 'time_not_positive';
  return seconds > LONGEST_STEP_SECONDS ? 'time_too_long' : null;
}

function temperatureFault(temperature: StepTemperature | null): ProcessFault | null {
  if (temperature === null) return null;
  const { aimC, lowC, highC } = temperature;
  if (![aimC, lowC, highC].every(isWaterTemperature)) return 'temperature_not_real';
  const inOrder = [lowC, aimC, highC].filter((value) => value !== null);
  return inOrder.every((value, i) => i === 0 || value >= (inOrder[i - 1] ?? value))
    ? null
    : 'tolerance_upside_down';
}

/** The step's own time as a row of a table, when it has both a time and a temperature to aim at. */
export function ownTimePoint(step: Step): TimePoint | null {
  const aimC = step.temperature?.aimC ?? null;
  const { seconds, source } = step.time;
  return aimC === null || seconds === null ? null : { celsius: aimC, seconds, source };
}

function pointsFault(step: Step): ProcessFault | null {
  const points = joinTimePoints(step.timePoints, ownTimePoint(step));
  for (const point of points) {
    const fault = timeFault(point.seconds);
    if (fault !== null) return fault;
    if (!isWaterTemperature(point.celsius)) return 'temperature_not_real';
  }
  const falls = points.every((point, i) => {
    const before = points[i - 1];
    return before === undefined || (point.celsius > before.celsius && point.seconds < before.seconds);
  });
  return falls ? null : 'points_not_falling';
}

function agitationFault(agitation: Agitation | null): ProcessFault | null {
  if (agitation === null || agitation.scheme !== 'intermittent') return null;
  const { firstSeconds, everySeconds, forSeconds } = agitation;
  const real = [firstSeconds, everySeconds, forSeconds].every((value) => Number.isFinite(value));
  return real && firstSeconds >= 0 && forSeconds > 0 && everySeconds > forSeconds
    ? null
    : 'agitation_impossible';
}

/** Every shift stands once, a factor is more than nothing, and the time of the step survives it. */
function pushFault({ push, time }: Step): ProcessFault | null {
  if (push === null) return null;
  const once = new Set(push.rows.map((row) => row.stops)).size === push.rows.length;
  const leaves = push.rows.every(({ stops, value }) => {
    if (!Number.isFinite(stops) || !Number.isFinite(value)) return false;
    return push.kind === 'factor' ? value > 0 : time.seconds === null || time.seconds + value > 0;
  });
  return once && leaves ? null : 'push_not_real';
}

function bathFactsFault(facts: BathDefaults | undefined): ProcessFault | null {
  if (facts === undefined) return null;
  const { capacityCm2PerLitre, shelfDays, extension } = facts;
  const positive = [capacityCm2PerLitre, shelfDays].every(
    (offered) => offered === null || (offered.value > 0 && Number.isFinite(offered.value)),
  );
  return positive && (extension === null || isExtensionReal(extension)) ? null : 'bath_facts_not_real';
}

/** The process, or the first thing that makes it unusable; steps without a time are allowed here. */
export function checkProcess(process: Process): Checked<Process, ProcessFault> {
  if (process.steps.length === 0) return refuse('no_steps');
  if (process.name.trim() === '' || process.steps.some((step) => step.name.trim() === '')) {
    return refuse('name_missing');
  }
  if (new Set(process.steps.map((step) => step.key)).size < process.steps.length) {
    return refuse('step_key_twice');
  }
  for (const step of process.steps) {
    const fault =
      timeFault(step.time.seconds) ??
      temperatureFault(step.temperature) ??
      pointsFault(step) ??
      agitationFault(step.agitation) ??
      pushFault(step) ??
      bathFactsFault(step.bathFacts);
    if (fault !== null) return refuse(fault);
  }
  return accept(process);
}

/** The steps whose time the user still has to enter, in order. */
export function stepsWithoutTime(process: Process): readonly Step[] {
  return process.steps.filter((step) => step.time.seconds === null);
}

/** The step that makes the picture: push and temperature speak of it. */
export function findDeveloperStep(process: Process): Step | null {
  const kinds = ['developer', 'first_developer', 'colour_developer'];
  return process.steps.find((step) => kinds.includes(step.bath)) ?? null;
}

/** A step's temperature aimed at another `celsius`, the tolerance carried along. */
export function moveTemperature(temperature: StepTemperature, celsius: number): StepTemperature {
  const { aimC, lowC, highC } = temperature;
  if (aimC === null) return { ...temperature, aimC: celsius };
  return {
    ...temperature,
    aimC: celsius,
    lowC: lowC === null ? null : celsius - (aimC - lowC),
    highC: highC === null ? null : celsius + (highC - aimC),
  };
}
