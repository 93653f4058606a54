import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import {
  countFaults,
  type FaultFactor,
  type FaultFinding,
  type FaultRoll,
} from '../../../shared/domain/colour/faults.ts';
import { query, type ReadableDb } from '../db/query.ts';
import type { RollLog } from './logged-rolls.ts';

/** How the faults that the archive offers read after “rolls with”; others are named in quotes. */
const FAULT_PHRASES: Readonly<Record<string, string>> = {
  'light leak': 'a light leak',
  scratch: 'a scratch',
  dust: 'dust',
  fog: 'fog',
  'uneven development': 'uneven development',
  cast: 'a cast',
  blank: 'a blank frame',
  overlap: 'frames that overlap',
};

const FACTORS: readonly (FaultFactor & { readonly of: (log: RollLog) => string | null })[] = [
  { name: 'camera', phrase: (value) => `on camera ${value}`, of: (log) => log.camera },
  { name: 'cassette', phrase: (value) => `from cassette ${value}`, of: (log) => log.cassette },
  { name: 'holder', phrase: (value) => `in holder ${value}`, of: (log) => log.holder },
  { name: 'bath', phrase: (value) => `through bath ${value}`, of: (log) => log.bath },
  { name: 'scanner', phrase: (value) => `scanned on ${value}`, of: (log) => log.scanner },
  { name: 'lab', phrase: (value) => `from lab ${value}`, of: (log) => log.lab },
  { name: 'stock', phrase: (value) => `of stock ${value}`, of: (log) => log.stock },
];

const repairRow = z.object({
  id: z.number(),
  cameraId: z.number(),
  camera: z.string(),
  typed: z.string(),
  earliest: z.string().nullable(),
  latest: z.string().nullable(),
  what: z.string(),
});
type Repair = z.output<typeof repairRow>;

const REPAIRS = `SELECT camera_service.id, camera_id AS cameraId, camera.name AS camera,
  coalesce(done_typed, done_edtf) AS typed, done_earliest AS earliest, done_latest AS latest, what
FROM camera_service JOIN camera ON camera.id = camera_service.camera_id ORDER BY done_earliest, camera_service.id`;

/**
 * Whether a roll was exposed before or after a repair; null where the log does not say, or where it was in the camera
 * at the time.
 */
function sideOf(log: RollLog, { earliest, latest }: Repair): 'before' | 'after' | null {
  const ended = [log.exposedTo, log.developed].filter((day) => day !== null).toSorted()[0];
  const begun = [log.loaded, log.exposedFrom].filter((day) => day !== null).toSorted()[0];
  if (ended !== undefined && earliest !== null && ended < earliest) return 'before';
  if (begun !== undefined && latest !== null && begun > latest) return 'after';
  return null;
}

/** What a count of faults is narrowed to: all faults, or those whose name holds these words. */
function faultsNamed(logs: readonly RollLog[], words: string | null): string[] {
  const there = [...new Set(logs.flatMap(faultsOfRoll))].sort();
  if (words === null) return there;
  const wanted = words.trim().toLocaleLowerCase();
  const found = there.filter((kind) => kind.toLocaleLowerCase().includes(wanted));
  if (found.length === 0) throw appError('fault_not_found', { name: words, known: there });
  return found;
}

function faultsOfRoll(log: RollLog): string[] {
  return z.array(z.string()).parse(JSON.parse(log.faults));
}

/**
 * Counts faults by everything the log knows of rolls, and by every repair of a camera, before and after.
 * @throws {AppError} fault_not_found when no fault of that name is noted
 */
export function faultFindings(
  db: ReadableDb,
  logs: readonly RollLog[],
  only: string | null,
  random: () => number,
): FaultFinding[] {
  const repairs = query(db, repairRow, REPAIRS).all();
  const rolls: FaultRoll[] = logs.map((log) => ({
    roll: log.roll,
    faults: faultsOfRoll(log),
    factors: Object.fromEntries([
      ...FACTORS.map(({ name, of }) => [name, of(log)] as const),
      ...repairs
        .filter(({ cameraId }) => cameraId === log.cameraId)
        .map((repair) => [`repair ${repair.id}`, sideOf(log, repair)] as const),
    ]),
  }));
  const factors: FaultFactor[] = [
    ...FACTORS,
    ...repairs.map(({ id, camera, typed, what }) => ({
      name: `repair ${id}`,
      phrase: (value: string) => `from ${value} ${typed} (${what})`,
      among: `of camera ${camera}`,
    })),
  ];
  const faults = faultsNamed(logs, only).map((name) => ({
    name,
    phrase: FAULT_PHRASES[name] ?? `“${name}”`,
  }));
  return countFaults(rolls, faults, factors, random);
}
