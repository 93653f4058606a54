import type { ExtensionRule } from './extension.ts';
import type { StepRefusal } from './plan-step.ts';
import { planStepTime } from './plan-step.ts';
import type { PlannedStep } from './planned-step.ts';
import type { Process } from './process.ts';
import { findDeveloperStep, moveTemperature } from './process.ts';
import { curveRange } from './time-at-temperature.ts';
import { findTimeCurve } from './time-curve.ts';
import type { Source } from './source.ts';
import { fromMemory, published } from './source.ts';

/** What is to be done: a process at a temperature and shift, with what the baths have been through. */
export type PlanRequest = {
  readonly process: Process;
  /** Temperature of the first developer step, °C; null for the process's own. */
  readonly developerC: number | null;
  readonly stops: number;
  /** The baths in use by the step they serve; steps without one count as fresh. */
  readonly baths: readonly {
    readonly stepKey: string;
    readonly rollsDone: number;
    readonly extension: ExtensionRule | null;
  }[];
};

/** Something to know before the first pour; it does not stop the plan. */
export type PlanWarning = {
  readonly code: 'short_development' | 'temperature_jump';
  readonly stepKey: string;
  readonly source: Source;
};

/** The sheet of a run. `developerSeconds`: time of the step that makes the picture. */
type DevelopmentPlan = {
  readonly steps: readonly PlannedStep[];
  readonly developerKey: string;
  readonly developerSeconds: number;
  readonly totalSeconds: number;
  readonly warnings: readonly PlanWarning[];
};

/** Why there is no plan: which step, why, and the temperatures that would do where that is the trouble. */
export type PlanFailure = {
  readonly code: StepRefusal | 'no_developer';
  readonly stepKey: string | null;
  readonly range: { readonly lowC: number; readonly highC: number } | null;
};

/** The plan, or why there is none. */
export type PlanAnswer =
  | { readonly ok: true; readonly plan: DevelopmentPlan }
  | { readonly ok: false; readonly failure: PlanFailure };

/** Shorter black-and-white development risks unevenness. */
const SHORT_SECONDS = 5 * 60;
const SHORT = fromMemory('Makers advise against less than 5 minutes');

/** 5 °F between successive baths. */
const JUMP_C = 2.8;
const JUMP = published(
  'Reticulation beyond 5 °F between baths, US Army Ss05098, https://armycommunications.tpub.com/Ss05098/Ss050980090.htm',
);

/** The temperatures a step may have, as far as they are known. */
function spanOf(step: PlannedStep): { readonly lowC: number; readonly highC: number } | null {
  const { temperature } = step;
  const lowC = temperature?.aimC ?? temperature?.lowC ?? null;
  const highC = temperature?.aimC ?? temperature?.highC ?? null;
  return lowC === null || highC === null ? null : { lowC, highC };
}

function warnAbout(
  family: Process['family'],
  developerKey: string,
  steps: readonly PlannedStep[],
): readonly PlanWarning[] {
  return steps.flatMap((step, i): PlanWarning[] => {
    const warnings: PlanWarning[] = [];
    if (family === 'black_and_white' && step.key === developerKey && step.seconds < SHORT_SECONDS) {
      warnings.push({ code: 'short_development', stepKey: step.key, source: SHORT });
    }
    const before = steps[i - 1];
    const here = spanOf(step);
    const there = before === undefined ? null : spanOf(before);
    // A hair of room for 37.8 − 35 = 2.7999….
    const gapC = here && there ? Math.max(here.lowC - there.highC, there.lowC - here.highC) : 0;
    if (gapC > JUMP_C + 1e-9) warnings.push({ code: 'temperature_jump', stepKey: step.key, source: JUMP });
    return warnings;
  });
}

/** The sheet of steps with every time worked out, or the first step that has none. */
export function planDevelopment(request: PlanRequest): PlanAnswer {
  const { process, developerC, stops, baths } = request;
  const developer = findDeveloperStep(process);
  if (developer === null) {
    return { ok: false, failure: { code: 'no_developer', stepKey: null, range: null } };
  }
  const steps: PlannedStep[] = [];
  for (const step of process.steps) {
    const isDeveloper = step.key === developer.key;
    const celsius = isDeveloper ? developerC : null;
    const bath = baths.find((candidate) => candidate.stepKey === step.key);
    const time = planStepTime(step, process.family, {
      celsius,
      stops: isDeveloper ? stops : 0,
      rollsDone: bath?.rollsDone ?? 0,
      extension: bath?.extension ?? null,
    });
    if (!time.ok) {
      const curve = findTimeCurve(step, process.family);
      const range = curve === null ? null : curveRange(curve);
      return { ok: false, failure: { code: time.reason, stepKey: step.key, range } };
    }
    steps.push({
      key: step.key,
      name: step.name,
      bath: step.bath,
      seconds: time.value.value,
      timing: step.timing,
      temperature:
        step.temperature === null || celsius === null
          ? step.temperature
          : moveTemperature(step.temperature, celsius),
      agitation: step.agitation,
      cautions: step.cautions,
      note: step.note,
      lines: time.value.lines,
    });
  }
  return {
    ok: true,
    plan: {
      steps,
      developerKey: developer.key,
      developerSeconds: steps.find((step) => step.key === developer.key)?.seconds ?? 0,
      totalSeconds: steps.reduce((sum, step) => sum + step.seconds, 0),
      warnings: warnAbout(process.family, developer.key, steps),
    },
  };
}
