import { appError } from '../../../shared/api/errors.ts';
import type { Development, DevelopmentPlan } from '../../../shared/api/methods/development-methods.ts';
import { recordRun } from '../../../shared/domain/development/run-clock.ts';
import { runStateAt } from '../../../shared/domain/development/run-sheet.ts';
import type { Archive } from '../archive/archive.ts';
import { recordCorrections } from '../archive/corrections.ts';
import { dateValues } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, inTransaction } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { actualSteps } from './actual-steps.ts';
import { requireBath } from './bath-rows.ts';
import { addBathUse, weigh } from './baths.ts';
import { findPlan, requireDevelopment } from './development-rows.ts';
import { localDay } from './local-day.ts';
import { makePlan } from './make-plan.ts';
import { markDeveloped } from './mark-developed.ts';
import { addEvent, checkEvent, eventsOf } from './run-events.ts';

/** A development with the plan it runs by. @throws {AppError} development_not_found, development_not_running */
function requireRun(archive: Archive, id: number): { development: Development; plan: DevelopmentPlan } {
  const development = requireDevelopment(archive.db, id);
  const plan = findPlan(archive.db, id);
  if (plan === null) throw appError('development_not_running', { name: String(id) });
  return { development, plan };
}

/** Writes the plan down as a run that waits for its first pour. */
function insertRun(archive: Archive, plan: DevelopmentPlan, tankId: number | null): number {
  const { db } = archive;
  const developer = plan.steps.find((step) => step.key === plan.developerKey);
  const bathId = developer?.uses?.bathId ?? null;
  const { id } = command(
    db,
    `INSERT INTO development (process, process_name, tank_id, state, push_stops, developer_nominal_temp_c,
       developer_bath_id, developer_used_before_cm2, plan_json, created_at)
     VALUES (:process, :processName, :tankId, 'running', :stops, :nominalC, :bathId, :usedBeforeCm2, :plan, :at)`,
  )({
    process: plan.kind,
    processName: plan.process.name,
    tankId,
    stops: plan.stops,
    nominalC: developer?.temperature?.aimC ?? null,
    bathId,
    usedBeforeCm2: bathId === null ? null : requireBath(archive, bathId).bath.areaDoneCm2,
    plan: JSON.stringify(plan),
    at: archive.now().toISOString(),
  });
  const link = command(
    db,
    'INSERT INTO development_roll (development_id, roll_id, reel) VALUES (:id, :rollId, :reel)',
  );
  for (const [at, roll] of plan.rolls.entries()) link({ id, rollId: roll.id, reel: at + 1 });
  const addStep = command(
    db,
    `INSERT INTO development_step (development_id, ordinal, name, bath_kind, bath_id, planned_seconds,
       planned_temp_c, tolerance_c, agitation)
     VALUES (:id, :ordinal, :name, :kind, :bathId, :seconds, :aimC, :toleranceC, :agitation)`,
  );
  for (const [at, step] of plan.steps.entries()) {
    const aimC = step.temperature?.aimC ?? null;
    const highC = step.temperature?.highC ?? null;
    addStep({
      id,
      ordinal: at + 1,
      name: step.name,
      kind: step.bath,
      bathId: step.uses?.bathId ?? null,
      seconds: step.seconds,
      aimC,
      toleranceC: aimC === null || highC === null ? null : highC - aimC,
      agitation: step.agitation?.scheme ?? null,
    });
  }
  return id;
}

/** Writes what the log of a run adds up to beside its plan. */
function fillActual(archive: Archive, id: number, plan: DevelopmentPlan): void {
  const done = actualSteps(plan, eventsOf(archive.db, id));
  const fill = command(
    archive.db,
    `UPDATE development_step SET actual_seconds = :seconds, actual_temp_c = :meanC, started_at = :startedAt
     WHERE development_id = :id AND ordinal = :ordinal`,
  );
  for (const [at] of plan.steps.entries()) {
    const actual = done.find((candidate) => candidate.step === at);
    fill({
      id,
      ordinal: at + 1,
      seconds: actual?.seconds ?? null,
      meanC: actual?.meanC ?? null,
      startedAt: actual ? new Date(actual.startedMs).toISOString() : null,
    });
  }
  const developer = done.find(({ step }) => plan.steps[step]?.key === plan.developerKey);
  const columns = {
    developer_seconds: developer?.seconds ?? null,
    developer_temp_c: developer?.meanC ?? null,
  };
  recordCorrections(archive, 'development', id, columns);
  changeRow(archive.db, 'development', id, columns);
}

/** Charges the baths of the steps that were begun with the film of the load. */
function chargeBaths(archive: Archive, id: number, plan: DevelopmentPlan): void {
  for (const actual of actualSteps(plan, eventsOf(archive.db, id))) {
    const step = plan.steps[actual.step];
    if (!step?.uses) continue;
    addBathUse(archive, {
      bathId: step.uses.bathId,
      developmentId: id,
      areaCm2: plan.areaCm2,
      weightedAreaCm2: weigh(step.bath, plan),
      at: new Date(actual.startedMs).toISOString(),
      note: null,
    });
  }
}

export const RUN_HANDLERS: HandlersOf<
  | 'developments.plan'
  | 'developments.start'
  | 'developments.note'
  | 'developments.runState'
  | 'developments.finish'
> = {
  'developments.plan': (archive, request) => {
    const { plan, refused } = makePlan(archive, request);
    return { plan, refused };
  },

  // Not undoable: taking it back would take the log with it. A run is aborted instead.
  'developments.start': (archive, request) => {
    const made = makePlan(archive, request);
    if (made.plan === null) throw made.error;
    const { plan } = made;
    return inTransaction(archive.db, () => ({ id: insertRun(archive, plan, request.tankId) }));
  },

  'developments.note': (archive, { id, atMs, corrects, sure, event }) => {
    const { development, plan } = requireRun(archive, id);
    const isRunning = development.state === 'running';
    if (!isRunning && corrects === null) throw appError('development_not_running', { name: String(id) });
    const at = atMs ?? archive.now().getTime();
    checkEvent(plan, eventsOf(archive.db, id), { event, corrects, sure }, at);
    return inTransaction(archive.db, () => {
      const added = addEvent(archive.db, id, event, at, corrects);
      if (event.kind === 'step_started') {
        command(
          archive.db,
          'UPDATE development SET started_at = coalesce(started_at, :at) WHERE id = :id',
        )({ id, at: new Date(at).toISOString() });
      }
      if (!isRunning) fillActual(archive, id, plan);
      return { id: added };
    });
  },

  'developments.runState': (archive, { id }) => {
    const { plan } = requireRun(archive, id);
    const state = runStateAt(plan.steps, eventsOf(archive.db, id), archive.now().getTime());
    const { running } = state;
    const step = running?.record.step ?? null;
    return {
      phase: state.phase,
      step,
      stepName: step === null ? null : (plan.steps[step]?.name ?? null),
      elapsedSeconds: running?.elapsedSeconds ?? null,
      leftSeconds: running?.leftSeconds ?? null,
      nextStep: state.nextStep,
      readings: [...(running?.record.readings ?? [])],
      clockInDoubt: state.clockInDoubt,
    };
  },

  'developments.finish': (archive, { id, rollsDeveloped, who, place, note }) => {
    const { development, plan } = requireRun(archive, id);
    if (development.state !== 'running') throw appError('development_not_running', { name: String(id) });
    const { ending, steps, latestMs } = recordRun(plan.steps, eventsOf(archive.db, id));
    if (ending === null) throw appError('conflict', { reason: 'The run has not come to its end.' });
    const startedMs = steps[0]?.startedMs ?? latestMs ?? archive.now().getTime();
    const day = localDay(new Date(startedMs));
    archive.undo.record('File a development', () => {
      changeRow(archive.db, 'development', id, {
        state: ending === 'finished' ? 'done' : 'aborted',
        started_at: new Date(startedMs).toISOString(),
        finished_at: new Date(latestMs ?? startedMs).toISOString(),
        ...dateValues('date', day),
        who,
        place,
        note,
      });
      fillActual(archive, id, plan);
      chargeBaths(archive, id, plan);
      if (rollsDeveloped ?? ending === 'finished') {
        for (const roll of development.rolls) markDeveloped(archive, roll.id, day);
      }
    });
    return {};
  },
};
