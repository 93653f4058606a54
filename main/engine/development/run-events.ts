import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Input } from '../../../shared/api/contract.ts';
import {
  runEvent,
  type DevelopmentPlan,
  type RunEventValue,
} from '../../../shared/api/methods/development-methods.ts';
import { runStateAt } from '../../../shared/domain/development/run-sheet.ts';
import { command, query, type ReadableDb, type WritableDb } from '../db/query.ts';
import { checkTemperature } from './doubtful-temperature.ts';

const eventRow = z.object({
  id: z.number(),
  at: z.string(),
  kind: z.string(),
  step: z.number().nullable(),
  temp_c: z.number().nullable(),
  seconds: z.number().nullable(),
  corrects: z.number().nullable(),
});

function eventFromRow(row: z.output<typeof eventRow>): RunEventValue {
  const known = { id: row.id, atMs: Date.parse(row.at), corrects: row.corrects, kind: row.kind };
  return runEvent.parse({
    ...known,
    ...(row.step === null ? {} : { step: row.step }),
    ...(row.temp_c === null ? {} : { celsius: row.temp_c }),
    ...(row.seconds === null ? {} : { seconds: row.seconds }),
  });
}

/** What happened in a run, in the order it was recorded. */
export function eventsOf(db: ReadableDb, developmentId: number): RunEventValue[] {
  return query(
    db,
    eventRow,
    `SELECT id, at, kind, step, temp_c, seconds, corrects FROM development_event
     WHERE development_id = :developmentId ORDER BY id`,
  )
    .all({ developmentId })
    .map(eventFromRow);
}

type Happening = Input<'developments.note'>['event'];

/** Adds to the log of a run. It is never changed, only added to, and undo does not reach it. */
export function addEvent(
  db: WritableDb,
  developmentId: number,
  event: Happening,
  atMs: number,
  corrects: number | null,
): number {
  return command(
    db,
    `INSERT INTO development_event (development_id, at, kind, step, temp_c, seconds, corrects)
     VALUES (:developmentId, :at, :kind, :step, :celsius, :seconds, :corrects)`,
  )({
    developmentId,
    at: new Date(atMs).toISOString(),
    kind: event.kind,
    step: event.kind === 'step_started' ? event.step : null,
    celsius: event.kind === 'temperature_read' ? event.celsius : null,
    seconds: event.kind === 'time_added' || event.kind === 'clock_shifted' ? event.seconds : null,
    corrects,
  }).id;
}

/** The temperature a run is at or comes to next, °C; null where the step says nothing. */
function expectedC(plan: DevelopmentPlan, events: readonly RunEventValue[], atMs: number): number | null {
  const { running, nextStep } = runStateAt(plan.steps, events, atMs);
  const temperature = plan.steps[running?.record.step ?? nextStep ?? 0]?.temperature ?? null;
  if (temperature === null) return null;
  const { aimC, lowC, highC } = temperature;
  return aimC ?? (lowC === null || highC === null ? null : (lowC + highC) / 2);
}

/**
 * Checks an event against the plan it belongs to.
 * @throws {AppError} value_not_valid, temperature_doubtful, conflict
 */
export function checkEvent(
  plan: DevelopmentPlan,
  events: readonly RunEventValue[],
  { event, corrects, sure }: Pick<Input<'developments.note'>, 'event' | 'corrects' | 'sure'>,
  atMs: number,
): void {
  if (corrects !== null && !events.some((known) => known.id === corrects)) {
    throw appError('conflict', { reason: 'What is to be corrected is not in the log of this run.' });
  }
  if (event.kind === 'taken_back' && corrects === null) {
    throw appError('conflict', { reason: 'It was not said what is to be taken back.' });
  }
  if (event.kind === 'step_started' && event.step >= plan.steps.length) {
    const reason = `the plan has ${plan.steps.length} steps`;
    throw appError('value_not_valid', { field: 'step', value: String(event.step + 1), reason });
  }
  if (event.kind !== 'temperature_read') return;
  checkTemperature(event.celsius, expectedC(plan, events, atMs), sure);
}
