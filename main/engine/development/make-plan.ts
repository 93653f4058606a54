import { appError } from '../../../shared/api/errors.ts';
import type { AppError } from '../../../shared/api/errors.ts';
import type { BathEntry } from '../../../shared/api/methods/bath-methods.ts';
import type {
  DevelopmentPlan,
  PlanRefusal,
  PlanRequestInput,
} from '../../../shared/api/methods/development-methods.ts';
import { planDevelopment } from '../../../shared/domain/development/plan-development.ts';
import { findDeveloperStep, type Process, type Step } from '../../../shared/domain/development/process.ts';
import { setDeveloperTime } from '../../../shared/domain/development/set-developer-time.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { checkLoad } from '../../../shared/domain/development/tank-load.ts';
import { questionTemperature } from '../../../shared/domain/development/temperature-question.ts';
import { describeLoadRefusal, describePlanFailure } from '../../../shared/text/describe-development.ts';
import { formatTemperature, PROCESS_NAMES } from '../../../shared/text/format.ts';
import { processKind } from '../../../shared/api/values.ts';
import type { Archive } from '../archive/archive.ts';
import { requireUsableBath } from './bath-rows.ts';
import { requireLoad, sumLoad, type LoadedRoll } from './load.ts';
import { findVolume } from './plan-volume.ts';
import { warnAboutPlan } from './plan-warnings.ts';
import { chooseProcess } from './processes.ts';
import { requireTank } from './tanks.ts';

/** A plan, or why there is none; `error` is what a command that needed the plan fails with. */
export type MadePlan =
  | { readonly plan: DevelopmentPlan; readonly refused: null }
  | { readonly plan: null; readonly refused: PlanRefusal; readonly error: AppError };

function nameRoll({ id, number }: { readonly id: number; readonly number: string }) {
  return { id, number };
}

function refuseLoad(code: string, detail: string, groups: readonly (readonly LoadedRoll[])[]): MadePlan {
  const named = groups.map((rolls) => rolls.map(nameRoll));
  return {
    plan: null,
    refused: { code, detail, groups: named, meantC: null },
    error: appError('load_not_possible', {
      reason: detail,
      groups: named.map((rolls) => rolls.map((roll) => roll.number)),
    }),
  };
}

function refusePlan(code: string, reason: string): MadePlan {
  return {
    plan: null,
    refused: { code, detail: reason, groups: [], meantC: null },
    error: appError('plan_not_possible', { reason }),
  };
}

/** Rolls that cannot be developed at all: they have been, or another run has them. */
function refuseRolls(rolls: readonly LoadedRoll[]): MadePlan | null {
  const numbers = (some: readonly LoadedRoll[]) => some.map((roll) => roll.number).join(', ');
  const done = rolls.filter((roll) => roll.state === 'developed' || roll.state === 'filed');
  if (done.length > 0) {
    const others = rolls.filter((roll) => !done.includes(roll));
    const detail = `Developed already: ${numbers(done)}.`;
    return refuseLoad('roll_already_developed', detail, others.length > 0 ? [others] : []);
  }
  const busy = rolls.filter((roll) => roll.runningIn !== null);
  return busy.length > 0
    ? refuseLoad('roll_in_run', `In a run that has not ended: ${numbers(busy)}.`, [])
    : null;
}

function processName(key: string): string {
  const kind = processKind.safeParse(key);
  return kind.success ? PROCESS_NAMES[kind.data] : key;
}

/** A temperature that is probably a slip of the keyboard. */
function refuseTemperature(developerC: number | null, aimC: number | null): MadePlan | null {
  if (developerC === null || aimC === null) return null;
  const question = questionTemperature(developerC, aimC);
  if (question === null || question.suggestedC === null) return null;
  const meant = formatTemperature(question.suggestedC);
  const typed = `${developerC} °C`;
  return {
    plan: null,
    refused: {
      code: 'temperature_doubtful',
      detail: `${typed} is far from the ${formatTemperature(aimC)} of the process. Is ${meant} meant?`,
      groups: [],
      meantC: question.suggestedC,
    },
    error: appError('temperature_doubtful', { typed, meant }),
  };
}

/** Which bath serves which step: each goes to the first step of its kind that has none yet. */
function assignBaths(
  steps: readonly Step[],
  baths: readonly BathEntry[],
): { readonly byStep: ReadonlyMap<string, BathEntry>; readonly left: BathEntry | null } {
  const byStep = new Map<string, BathEntry>();
  for (const bath of baths) {
    const step = steps.find((candidate) => candidate.bath === bath.kind && !byStep.has(candidate.key));
    if (!step) return { byStep, left: bath };
    byStep.set(step.key, bath);
  }
  return { byStep, left: null };
}

/**
 * Works a development out, without writing anything.
 * @throws {AppError} roll_not_found, bath_not_found, bath_ended, tank_not_found, process_not_found
 */
export function makePlan(archive: Archive, request: PlanRequestInput): MadePlan {
  const { db } = archive;
  const rolls = requireLoad(db, request.rollIds);
  const refusedRolls = refuseRolls(rolls);
  if (refusedRolls) return refusedRolls;

  const now = archive.now().toISOString();
  const baths = [...new Set(request.bathIds)].map((id) => requireUsableBath(archive, id, now));
  const tank = request.tankId === null ? null : requireTank(db, request.tankId);
  const chosen = chooseProcess(db, request.process, { developerC: request.developerC, baths });
  const process = ownTime(chosen.process, request.developerTime);

  const load = checkLoad(
    rolls.map((roll) => ({
      id: roll.id,
      processKey: roll.process ?? chosen.kind,
      stops: roll.pushStops ?? request.stops ?? 0,
      developerSeconds: null,
      reel: roll.reel,
      filmFactor: roll.fixerFactor ?? 1,
    })),
    tank ?? { reels: null, mlPer135: null, mlPer120: null, volumeMl: null },
  );
  const [first] = load.refusals;
  if (first) {
    const groups = load.groups.map((ids) => rolls.filter((roll) => ids.includes(roll.id)));
    const words = load.refusals.map((refusal) => describeLoadRefusal(refusal, processName));
    return refuseLoad(first.code, words.join(' '), groups);
  }

  const developer = findDeveloperStep(process);
  const doubt = request.sure
    ? null
    : refuseTemperature(request.developerC, developer?.temperature?.aimC ?? null);
  if (doubt) return doubt;

  const { byStep, left } = assignBaths(process.steps, baths);
  if (left) {
    return refusePlan('bath_without_step', `${process.name} has no step for “${left.name}”.`);
  }
  const stops = request.stops ?? rolls[0]?.pushStops ?? 0;
  const answer = planDevelopment({
    process,
    developerC: request.developerC,
    stops,
    baths: process.steps.flatMap((step) => {
      const bath = byStep.get(step.key);
      const mine = step.key === developer?.key;
      const rollsDone = (mine ? request.rollsDone : null) ?? bath?.rollsDone ?? 0;
      // A bath has its own rule, or was said to have none; only without one the process speaks.
      const known = bath ? bath.extension : (step.bathFacts?.extension ?? null);
      const extension = (mine ? request.extension : null) ?? known;
      return rollsDone === 0 && extension === null ? [] : [{ stepKey: step.key, rollsDone, extension }];
    }),
  });
  if (!answer.ok) {
    const step = process.steps.find((candidate) => candidate.key === answer.failure.stepKey);
    return refusePlan(answer.failure.code, describePlanFailure(answer.failure, step?.name ?? null));
  }

  const { steps, developerKey, developerSeconds, totalSeconds } = answer.plan;
  const developerBath = byStep.get(developerKey) ?? null;
  const sums = sumLoad(rolls);
  const volume = findVolume(rolls, tank, sums.areaCm2, developerBath, request.minimumMlPerRoll);
  return {
    refused: null,
    plan: {
      process,
      kind: chosen.kind,
      chosen: chosen.why,
      stops,
      rolls: rolls.map(nameRoll),
      tank: tank === null ? null : { id: tank.id, name: tank.name },
      ...sums,
      developerKey,
      developerSeconds,
      totalSeconds,
      steps: steps.map((step) => {
        const bath = byStep.get(step.key);
        const uses = bath ? { bathId: bath.id, name: bath.name, rollsDone: bath.rollsDone } : null;
        return { ...step, uses };
      }),
      volumeMl: volume.ml,
      volumeLines: volume.lines,
      warnings: warnAboutPlan({
        archive,
        rolls,
        plan: answer.plan,
        kind: chosen.kind,
        stops,
        baths: [...byStep.values()],
        load: sums,
        volumeMl: volume.ml,
      }),
    },
  };
}

function ownTime(process: Process, time: PlanRequestInput['developerTime']): Process {
  if (time === null) return process;
  const source = yours('The time you gave for this film and developer');
  return setDeveloperTime(process, { ...time, source });
}
