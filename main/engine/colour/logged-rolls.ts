import { z } from 'zod';
import { meantTemperature } from '../../../shared/domain/development/meant-temperature.ts';
import { processKind } from '../../../shared/api/values.ts';
import type { LoggedRoll } from '../../../shared/domain/colour/logged-roll.ts';
import { periodsPastDate, type StorageMove } from '../../../shared/domain/exposure/storage-periods.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { effectiveSeconds } from './effective-time.ts';

const rollRow = z.object({
  rollId: z.number(),
  roll: z.string(),
  stockId: z.number().nullable(),
  stock: z.string().nullable(),
  process: processKind.nullable(),
  cameraId: z.number().nullable(),
  camera: z.string().nullable(),
  bath: z.string().nullable(),
  lab: z.string().nullable(),
  holder: z.string().nullable(),
  cassette: z.string().nullable(),
  scanner: z.string().nullable(),
  expires: z.string().nullable(),
  developmentId: z.number().nullable(),
  developed: z.string().nullable(),
  tempC: z.number().nullable(),
  plannedC: z.number().nullable(),
  kind: processKind.nullable(),
  seconds: z.number().nullable(),
  used: z.number().nullable(),
  plan: z.string().nullable(),
  moves: z.string(),
  scans: z.number(),
  loaded: z.string().nullable(),
  exposedFrom: z.string().nullable(),
  exposedTo: z.string().nullable(),
  faults: z.string(),
});

/** One roll with everything the log knows of it that a cast or a fault may go with. */
export type RollLog = z.output<typeof rollRow>;

const ROLLS = `SELECT roll.id AS rollId, roll.number AS roll, roll.stock_id AS stockId, stock.name AS stock,
  stock.process, roll.camera_id AS cameraId, camera.name AS camera, bath.name AS bath, roll.lab, roll.holder, roll.cassette,
  (SELECT scan.model FROM scan JOIN frame_scan ON frame_scan.scan_id = scan.id
    JOIN frame ON frame.id = frame_scan.frame_id WHERE frame.roll_id = roll.id AND scan.model IS NOT NULL
    GROUP BY scan.model ORDER BY count(*) DESC, scan.model LIMIT 1) AS scanner,
  coalesce(roll.expires_latest, batch.expires_latest) AS expires, development.id AS developmentId,
  development.date_earliest AS developed, development.developer_temp_c AS tempC,
  development.developer_nominal_temp_c AS plannedC, development.process AS kind,
  development.developer_seconds AS seconds, development.developer_used_before_cm2 AS used, development.plan_json AS plan,
  (SELECT json_group_array(json_object('place', place, 'since', since_earliest)) FROM batch_storage
    WHERE batch_storage.batch_id = roll.batch_id) AS moves,
  (SELECT count(*) FROM frame JOIN frame_scan ON frame_scan.frame_id = frame.id WHERE frame.roll_id = roll.id) AS scans,
  (SELECT since_earliest FROM roll_state_date WHERE roll_id = roll.id AND state = 'in camera') AS loaded,
  nullif(min(
    coalesce((SELECT min(taken_earliest) FROM frame WHERE frame.roll_id = roll.id), '9999'),
    coalesce((SELECT min(date_earliest) FROM outing_roll JOIN outing ON outing.id = outing_roll.outing_id
      WHERE outing_roll.roll_id = roll.id), '9999')), '9999') AS exposedFrom,
  nullif(max(
    coalesce((SELECT max(taken_latest) FROM frame WHERE frame.roll_id = roll.id), ''),
    coalesce((SELECT max(date_latest) FROM outing_roll JOIN outing ON outing.id = outing_roll.outing_id
      WHERE outing_roll.roll_id = roll.id), '')), '') AS exposedTo,
  (SELECT json_group_array(DISTINCT fault.kind) FROM fault JOIN frame ON frame.id = fault.frame_id
    WHERE frame.roll_id = roll.id) AS faults
FROM roll LEFT JOIN stock ON stock.id = roll.stock_id LEFT JOIN camera ON camera.id = roll.camera_id
LEFT JOIN batch ON batch.id = roll.batch_id
LEFT JOIN development ON development.id = (SELECT max(development_id) FROM development_roll
  JOIN development AS done ON done.id = development_id AND done.state = 'done' WHERE roll_id = roll.id)
LEFT JOIN bath ON bath.id = development.developer_bath_id
WHERE (:stockId IS NULL OR roll.stock_id = :stockId) ORDER BY roll.number_sort`;

/** What the log knows of the rolls of a stock, or of all, in natural order. */
export function rollLogs(db: ReadableDb, stockId: number | null): RollLog[] {
  return query(db, rollRow, ROLLS).all({ stockId });
}

/** What the log says of a roll as numbers and kinds. */
type LoggedFacts = Omit<LoggedRoll, 'deltaA' | 'deltaB' | 'deltaE00' | 'fog'>;

/** The numbers and kinds that a roll's cast is held against. */
export function factsOf(log: RollLog): LoggedFacts {
  const meantC = meantTemperature(log.plannedC, log.kind);
  const moves = movesOf(log);
  return {
    id: log.rollId,
    name: log.roll,
    development:
      log.developmentId === null
        ? null
        : { id: log.developmentId, name: log.developed ?? `development ${log.developmentId}` },
    temperatureErrorC: log.tempC === null || meantC === null ? null : hundredths(log.tempC - meantC),
    effectiveSeconds: effectiveSeconds({ ...log, measuredC: log.tempC }),
    bathRolls: log.used === null ? null : log.used / ROLL_AREA_CM2,
    monthsPastExpiry:
      log.expires === null || log.developed === null ? null : monthsBetween(log.expires, log.developed),
    warmMonths: warmMonths(log, moves),
    storage: log.developed === null ? null : longestPlace(moves, log.developed),
    camera: log.camera,
    scanner: log.scanner,
  };
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}

function monthsBetween(from: string, to: string): number {
  const [fromYear = 0, fromMonth = 0] = from.split('-').map(Number);
  const [toYear = 0, toMonth = 0] = to.split('-').map(Number);
  return (toYear - fromYear) * 12 + toMonth - fromMonth;
}

const moveRow = z.array(
  z.object({ place: z.enum(['room', 'fridge', 'freezer']), since: z.string().nullable() }),
);

function movesOf(log: RollLog): StorageMove[] {
  return moveRow.parse(JSON.parse(log.moves));
}

/** Months past expiry in a room; null where nobody noted where the film lay. */
function warmMonths(log: RollLog, moves: readonly StorageMove[]): number | null {
  if (log.expires === null || log.developed === null || moves.length === 0) return null;
  const years = periodsPastDate(log.expires, log.developed, moves)
    .filter(({ place }) => place === 'room')
    .reduce((sum, period) => sum + period.years, 0);
  return Math.round(years * 12 * 10) / 10;
}

/** Where the film lay longest until it was developed; the place of an unknown beginning counts from the next move. */
function longestPlace(moves: readonly StorageMove[], until: string): StorageMove['place'] | null {
  const sorted = moves.toSorted((one, other) => (one.since ?? '').localeCompare(other.since ?? ''));
  const days = new Map<StorageMove['place'], number>();
  for (const [at, { place, since }] of sorted.entries()) {
    const end = sorted[at + 1]?.since ?? until;
    const lay =
      since === null ? Number.POSITIVE_INFINITY : Date.parse(end < until ? end : until) - Date.parse(since);
    days.set(place, (days.get(place) ?? 0) + Math.max(0, lay));
  }
  const [longest] = [...days].toSorted(([, one], [, other]) => other - one);
  return longest === undefined || longest[1] === 0 ? null : longest[0];
}
