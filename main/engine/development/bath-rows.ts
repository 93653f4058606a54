import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { bathUse, BathEntry } from '../../../shared/api/methods/bath-methods.ts';
import { bathKind, extensionRule } from '../../../shared/api/process-values.ts';
import { findBathAge, findDaysPastShelf } from '../../../shared/domain/development/bath-age.ts';
import { findUsesAfterEnd, reckonBath, type Bath } from '../../../shared/domain/development/bath-ledger.ts';
import { describeBath } from '../../../shared/domain/development/bath-state.ts';
import { planStepTime } from '../../../shared/domain/development/plan-step.ts';
import type { WorkingLine } from '../../../shared/domain/development/working.ts';
import { isAppError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { dateColumns, dateFromRow } from '../db/calendar-date.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { judgeTests, testsOfBath } from './clearing.ts';
import { localDay } from './local-day.ts';
import { chooseProcess } from './processes.ts';

const bathRow = z.object({
  id: z.number(),
  name: z.string(),
  kind: bathKind,
  process: z.string().nullable(),
  volumeMl: z.number().nullable(),
  dilution: z.string().nullable(),
  capacityCm2: z.number().nullable(),
  shelfDays: z.number().nullable(),
  oneShot: z.number(),
  extension: z.string().nullable(),
  usedBeforeCm2: z.number(),
  state: z.enum(['in use', 'discarded', 'spoilt']),
  endedAt: z.string().nullable(),
  endedReason: z.string().nullable(),
  note: z.string().nullable(),
  ...dateColumns('mixed'),
});

const SELECT = `SELECT id, name, kind, process, mixed_edtf, mixed_typed, mixed_earliest, mixed_latest,
  volume_ml AS volumeMl, dilution, capacity_cm2 AS capacityCm2, shelf_days AS shelfDays, one_shot AS oneShot,
  added_time_json AS extension, used_before_cm2 AS usedBeforeCm2, state, ended_at AS endedAt,
  ended_reason AS endedReason, note FROM bath`;

const useRow = z.object({
  id: z.number(),
  developmentId: z.number().nullable(),
  areaCm2: z.number(),
  weightedAreaCm2: z.number(),
  usedAt: z.string(),
  note: z.string().nullable(),
});

/** The ledger of a bath, oldest first. */
export function usesOfBath(db: ReadableDb, bath: BathEntry): z.output<typeof bathUse>[] {
  const uses = findUses(db, bath.id);
  const after = new Set(findUsesAfterEnd(bath, uses));
  return uses.map((use) => ({ ...use, afterEnd: after.has(use) }));
}

function findUses(db: ReadableDb, bathId: number): z.output<typeof useRow>[] {
  return query(
    db,
    useRow,
    `SELECT id, development_id AS developmentId, area_cm2 AS areaCm2, weighted_area_cm2 AS weightedAreaCm2,
       used_at AS usedAt, note FROM bath_use WHERE bath_id = :bathId ORDER BY used_at, id`,
  ).all({ bathId });
}

/** What the next roll needs in a bath, s; null where its process does not say. */
function nextSeconds(db: ReadableDb, row: z.output<typeof bathRow>, rollsDone: number): number | null {
  if (row.process === null) return null;
  try {
    const { process } = chooseProcess(db, row.process, { developerC: null, baths: [row] });
    const step = process.steps.find((candidate) => candidate.bath === row.kind);
    if (!step) return null;
    const time = planStepTime(step, process.family, {
      celsius: null,
      stops: 0,
      rollsDone,
      extension: readExtension(row.extension),
    });
    return time.ok ? time.value.value : null;
  } catch (error) {
    // A process of the user's may have been removed since the bath was mixed; then nothing is known.
    if (isAppError(error, 'process_not_found')) return null;
    throw error;
  }
}

function readExtension(json: string | null): BathEntry['extension'] {
  return json === null ? null : extensionRule.parse(JSON.parse(json));
}

interface ReckonedBath {
  readonly bath: BathEntry;
  readonly lines: readonly WorkingLine[];
}

function reckon(archive: Archive, row: z.output<typeof bathRow>): ReckonedBath {
  const { db, now } = archive;
  const mixed = dateFromRow(row, 'mixed');
  const known: Bath = {
    mixedFirstDay: mixed?.earliest ?? null,
    mixedLastDay: mixed?.latest ?? null,
    capacityCm2: row.capacityCm2,
    shelfDays: row.shelfDays,
    usedBeforeCm2: row.usedBeforeCm2,
    state: row.state,
    endedAt: row.endedAt,
  };
  // The ledger keeps the weighted area, so the factor is in it already.
  const uses = findUses(db, row.id).map((use) => ({
    areaCm2: use.weightedAreaCm2,
    filmFactor: 1,
    usedAt: use.usedAt,
  }));
  const reckoned = reckonBath(known, uses);
  if (!reckoned.ok) throw new Error(`A bath that was never checked: ${row.name}, ${reckoned.reason}`);
  const { value, lines } = reckoned.value;
  const today = localDay(now());
  const next = nextSeconds(db, row, value.rollsDone);
  const spent =
    row.state === 'in use' &&
    row.kind === 'fixer' &&
    judgeTests(testsOfBath(db, row.id)).some((verdict) => verdict.spent);
  const endedDay = row.endedAt === null ? null : localDay(new Date(row.endedAt));
  return {
    lines,
    bath: {
      id: row.id,
      name: row.name,
      kind: row.kind,
      process: row.process,
      mixed,
      volumeMl: row.volumeMl,
      dilution: row.dilution,
      capacityCm2: row.capacityCm2,
      shelfDays: row.shelfDays,
      oneShot: row.oneShot === 1,
      extension: readExtension(row.extension),
      usedBeforeCm2: row.usedBeforeCm2,
      condition: row.state,
      endedAt: row.endedAt,
      endedReason: row.endedReason,
      note: row.note,
      ...value,
      days: findBathAge(known, today)?.mostDays ?? null,
      daysPastShelf: findDaysPastShelf(known, today),
      nextSeconds: next,
      spent,
      words: describeBath(known, value, today, endedDay, next, spent),
    },
  };
}

/** Every bath: those in use first, each by name. */
export function listBaths(archive: Archive): BathEntry[] {
  return query(archive.db, bathRow, `${SELECT} ORDER BY state <> 'in use', fold(name), id`)
    .all()
    .map((row) => reckon(archive, row).bath);
}

/** A bath with the sum behind what is left of it. @throws {AppError} bath_not_found */
export function requireBath(archive: Archive, id: number): ReckonedBath {
  const row = query(archive.db, bathRow, `${SELECT} WHERE id = :id`).find({ id });
  if (!row) throw appError('bath_not_found', { name: String(id) });
  return reckon(archive, row);
}

/**
 * A bath that may be poured at `at` (ISO 8601): in use, or ended only later.
 * @throws {AppError} bath_not_found, bath_ended
 */
export function requireUsableBath(archive: Archive, id: number, at: string): BathEntry {
  const { bath } = requireBath(archive, id);
  const ended = findUsesAfterEnd(bath, [{ usedAt: at }]).length > 0;
  if (bath.condition !== 'in use' && ended) {
    const since = bath.endedAt === null ? 'an unknown day' : localDay(new Date(bath.endedAt));
    throw appError('bath_ended', { name: bath.name, state: bath.condition, since });
  }
  return bath;
}
