import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import {
  developmentPlan,
  type Development,
  type DevelopmentDetails,
  type DevelopmentPlan,
  type DoneStep,
} from '../../../shared/api/methods/development-methods.ts';
import { bathKind } from '../../../shared/api/process-values.ts';
import { processKind } from '../../../shared/api/values.ts';
import { findUsesAfterEnd } from '../../../shared/domain/development/bath-ledger.ts';
import { comparePlannedAndActual } from '../../../shared/domain/development/planned-and-actual.ts';
import { dateColumns, dateFromRow } from '../db/calendar-date.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { actualSteps, type ActualStep } from './actual-steps.ts';
import { eventsOf } from './run-events.ts';

const developmentRow = z.object({
  id: z.number(),
  process: processKind,
  processName: z.string().nullable(),
  state: z.enum(['planned', 'running', 'done', 'aborted']),
  pushStops: z.number(),
  developerSeconds: z.number().nullable(),
  developerTempC: z.number().nullable(),
  developerNominalTempC: z.number().nullable(),
  bath_id: z.number().nullable(),
  bath_name: z.string().nullable(),
  note: z.string().nullable(),
  rolls: z.string(),
  ...dateColumns('date'),
});

const rollsJson = z.array(z.strictObject({ id: z.number(), number: z.string() }));

const SELECT = `SELECT development.id, development.process, process_name AS processName, development.state,
  push_stops AS pushStops, developer_seconds AS developerSeconds, developer_temp_c AS developerTempC,
  developer_nominal_temp_c AS developerNominalTempC, bath.id AS bath_id, bath.name AS bath_name, development.note,
  date_edtf, date_typed, date_earliest, date_latest,
  (SELECT json_group_array(json_object('id', roll.id, 'number', roll.number) ORDER BY roll.number_sort)
    FROM development_roll JOIN roll ON roll.id = development_roll.roll_id
    WHERE development_roll.development_id = development.id) AS rolls
  FROM development LEFT JOIN bath ON bath.id = development.developer_bath_id`;

const endedUseRow = z.object({
  developmentId: z.number(),
  bathId: z.number(),
  name: z.string(),
  endedAt: z.string(),
  reason: z.string().nullable(),
  usedAt: z.string(),
});

/** What is to be doubted, by development: the baths that were spoilt or discarded before it used them. */
function findDoubts(db: ReadableDb): ReadonlyMap<number, Development['doubts']> {
  const doubts = new Map<number, Development['doubts']>();
  const uses = query(
    db,
    endedUseRow,
    `SELECT development_id AS developmentId, bath.id AS bathId, bath.name, ended_at AS endedAt,
       ended_reason AS reason, used_at AS usedAt
     FROM bath JOIN bath_use ON bath_use.bath_id = bath.id
     WHERE bath.state <> 'in use' AND ended_at IS NOT NULL AND development_id IS NOT NULL ORDER BY bath_use.id`,
  ).all();
  for (const use of uses) {
    if (findUsesAfterEnd(use, [use]).length === 0) continue;
    const known = doubts.get(use.developmentId) ?? [];
    if (known.some(({ bath }) => bath.id === use.bathId)) continue;
    const doubt = { bath: { id: use.bathId, name: use.name }, since: use.endedAt, reason: use.reason };
    doubts.set(use.developmentId, [...known, doubt]);
  }
  return doubts;
}

function developmentFromRow(
  row: z.output<typeof developmentRow>,
  doubts: ReadonlyMap<number, Development['doubts']>,
): Development {
  return {
    id: row.id,
    process: row.process,
    processName: row.processName,
    state: row.state,
    date: dateFromRow(row, 'date'),
    pushStops: row.pushStops,
    developerSeconds: row.developerSeconds,
    developerTempC: row.developerTempC,
    developerNominalTempC: row.developerNominalTempC,
    bath: row.bath_id === null || row.bath_name === null ? null : { id: row.bath_id, name: row.bath_name },
    note: row.note,
    rolls: rollsJson.parse(JSON.parse(row.rolls)),
    doubts: doubts.get(row.id) ?? [],
  };
}

/** Every development: those under way first, then the latest first. */
export function listDevelopments(db: ReadableDb): Development[] {
  const doubts = findDoubts(db);
  return query(
    db,
    developmentRow,
    `${SELECT} ORDER BY development.state <> 'running', date_earliest DESC NULLS LAST, development.id DESC`,
  )
    .all()
    .map((row) => developmentFromRow(row, doubts));
}

/** One development. @throws {AppError} development_not_found */
export function requireDevelopment(db: ReadableDb, id: number): Development {
  const row = query(db, developmentRow, `${SELECT} WHERE development.id = :id`).find({ id });
  if (!row) throw appError('development_not_found', { name: String(id) });
  return developmentFromRow(row, findDoubts(db));
}

const keptRow = z.object({
  who: z.string().nullable(),
  place: z.string().nullable(),
  startedAt: z.string().nullable(),
  finishedAt: z.string().nullable(),
  plan: z.string().nullable(),
});

function findKept(db: ReadableDb, id: number): z.output<typeof keptRow> | null {
  return query(
    db,
    keptRow,
    `SELECT who, place, started_at AS startedAt, finished_at AS finishedAt, plan_json AS plan
     FROM development WHERE id = :id`,
  ).find({ id });
}

function readPlan(json: string | null): DevelopmentPlan | null {
  return json === null ? null : developmentPlan.parse(JSON.parse(json));
}

/** The plan a development was started by, as it was then; null when it was recorded afterwards. */
export function findPlan(db: ReadableDb, id: number): DevelopmentPlan | null {
  return readPlan(findKept(db, id)?.plan ?? null);
}

const stepRow = z.object({
  ordinal: z.number(),
  name: z.string(),
  bathKind: bathKind.nullable(),
  bathId: z.number().nullable(),
  bathName: z.string().nullable(),
  plannedSeconds: z.number().nullable(),
  plannedC: z.number().nullable(),
  actualSeconds: z.number().nullable(),
  actualC: z.number().nullable(),
  startedAt: z.string().nullable(),
});

function stepsOf(
  db: ReadableDb,
  id: number,
  plan: DevelopmentPlan | null,
  done: readonly ActualStep[],
): DoneStep[] {
  return query(
    db,
    stepRow,
    `SELECT ordinal, development_step.name, bath_kind AS bathKind, bath.id AS bathId, bath.name AS bathName,
       planned_seconds AS plannedSeconds, planned_temp_c AS plannedC, actual_seconds AS actualSeconds,
       actual_temp_c AS actualC, started_at AS startedAt
     FROM development_step LEFT JOIN bath ON bath.id = bath_id WHERE development_id = :id ORDER BY ordinal`,
  )
    .all({ id })
    .map(({ bathId, bathName, ...step }) => {
      const planned = plan?.steps[step.ordinal - 1];
      const actual = done.find((candidate) => candidate.step === step.ordinal - 1);
      return {
        ...step,
        bath: bathId === null || bathName === null ? null : { id: bathId, name: bathName },
        actualSeconds: step.actualSeconds ?? actual?.seconds ?? null,
        actualC: step.actualC ?? actual?.meanC ?? null,
        startedAt: step.startedAt ?? (actual ? new Date(actual.startedMs).toISOString() : null),
        readings: [...(actual?.readings ?? [])],
        comparison: planned && actual ? comparePlannedAndActual(planned, actual) : null,
      };
    });
}

const useRow = z.object({
  id: z.number(),
  name: z.string(),
  areaCm2: z.number(),
  weightedAreaCm2: z.number(),
});

const correctionRow = z.object({
  column: z.string(),
  before: z.string().nullable(),
  after: z.string().nullable(),
  madeAt: z.string(),
});

/** Everything that is known of a development. @throws {AppError} development_not_found */
export function requireDetails(db: ReadableDb, id: number): DevelopmentDetails {
  const known = requireDevelopment(db, id);
  const kept = findKept(db, id);
  const plan = readPlan(kept?.plan ?? null);
  const events = eventsOf(db, id);
  return {
    ...known,
    who: kept?.who ?? null,
    place: kept?.place ?? null,
    startedAt: kept?.startedAt ?? null,
    finishedAt: kept?.finishedAt ?? null,
    plan,
    events,
    steps: stepsOf(db, id, plan, plan === null ? [] : actualSteps(plan, events)),
    uses: query(
      db,
      useRow,
      `SELECT bath.id, bath.name, area_cm2 AS areaCm2, weighted_area_cm2 AS weightedAreaCm2
       FROM bath_use JOIN bath ON bath.id = bath_id WHERE development_id = :id ORDER BY bath_use.id`,
    )
      .all({ id })
      .map(({ id: bathId, name, ...areas }) => ({ bath: { id: bathId, name }, ...areas })),
    corrections: query(
      db,
      correctionRow,
      `SELECT of_column AS column, before, after, made_at AS madeAt FROM correction
       WHERE of_table = 'development' AND of_id = :id ORDER BY id`,
    ).all({ id }),
  };
}
