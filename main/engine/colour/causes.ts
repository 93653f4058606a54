import { z } from 'zod';
import type { PlottedRoll, Trend } from '../../../shared/api/methods/colour-methods.ts';
import {
  countFaults,
  sayChance,
  type FaultFinding,
  type FaultRoll,
} from '../../../shared/domain/colour/faults.ts';
import { rankCorrelation } from '../../../shared/domain/statistics/rank-correlation.ts';
import { robustSlope } from '../../../shared/domain/statistics/robust-slope.ts';
import type { Archive } from '../archive/archive.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { measureRoll } from './measure-roll.ts';

const rollRow = z.object({
  rollId: z.number(),
  roll: z.string(),
  stock: z.string().nullable(),
  camera: z.string().nullable(),
  bath: z.string().nullable(),
  lab: z.string().nullable(),
  scanner: z.string().nullable(),
  expires: z.string().nullable(),
  developed: z.string().nullable(),
  tempC: z.number().nullable(),
  nominalC: z.number().nullable(),
  process: z.string().nullable(),
  seconds: z.number().nullable(),
  used: z.number().nullable(),
  scans: z.number(),
  faults: z.string(),
});
type RollRow = z.output<typeof rollRow>;

const ROLLS = `SELECT roll.id AS rollId, roll.number AS roll, stock.name AS stock, camera.name AS camera, bath.name AS bath,
  roll.lab, (SELECT scan.model FROM scan JOIN frame_scan ON frame_scan.scan_id = scan.id
    JOIN frame ON frame.id = frame_scan.frame_id WHERE frame.roll_id = roll.id AND scan.model IS NOT NULL
    GROUP BY scan.model ORDER BY count(*) DESC LIMIT 1) AS scanner,
  coalesce(roll.expires_latest, batch.expires_latest) AS expires, development.date_earliest AS developed,
  development.developer_temp_c AS tempC, development.developer_nominal_temp_c AS nominalC, development.process,
  development.developer_seconds AS seconds, development.developer_used_before_cm2 AS used,
  (SELECT count(*) FROM frame JOIN frame_scan ON frame_scan.frame_id = frame.id WHERE frame.roll_id = roll.id) AS scans,
  (SELECT json_group_array(DISTINCT fault.kind) FROM fault JOIN frame ON frame.id = fault.frame_id
    WHERE frame.roll_id = roll.id) AS faults
FROM roll LEFT JOIN stock ON stock.id = roll.stock_id LEFT JOIN camera ON camera.id = roll.camera_id
LEFT JOIN batch ON batch.id = roll.batch_id
LEFT JOIN development ON development.id = (SELECT max(development_id) FROM development_roll
  JOIN development AS done ON done.id = development_id AND done.state = 'done' WHERE roll_id = roll.id)
LEFT JOIN bath ON bath.id = development.developer_bath_id
WHERE (:stockId IS NULL OR roll.stock_id = :stockId) ORDER BY roll.number_sort`;

/** Source: Kodak Z-131, Table 4-1. */
const C41_TEMP_C = 37.8;

function monthsBetween(from: string, to: string): number {
  const [fromYear = 0, fromMonth = 0] = from.split('-').map(Number);
  const [toYear = 0, toMonth = 0] = to.split('-').map(Number);
  return (toYear - fromYear) * 12 + toMonth - fromMonth;
}

async function plot(archive: Archive, row: RollRow, signal: AbortSignal): Promise<PlottedRoll> {
  const { cast } = row.scans > 0 ? await measureRoll(archive, row.rollId, signal) : { cast: null };
  const nominal = row.nominalC ?? (row.process === 'c41' ? C41_TEMP_C : null);
  return {
    rollId: row.rollId,
    roll: row.roll,
    stock: row.stock,
    a: cast?.a ?? null,
    b: cast?.b ?? null,
    temperatureErrorC:
      row.tempC === null || nominal === null ? null : Math.round((row.tempC - nominal) * 100) / 100,
    monthsPastExpiry:
      row.expires === null || row.developed === null ? null : monthsBetween(row.expires, row.developed),
    bathUsedCm2: row.used,
    developerSeconds: row.seconds,
    camera: row.camera,
    bath: row.bath,
  };
}

const AXES = { a: 'Green to magenta (a*)', b: 'Blue to yellow (b*)' } as const;
const AGAINST = {
  temperatureErrorC: { words: 'developer temperature error', unit: '°C' },
  monthsPastExpiry: { words: 'months past expiry', unit: 'month' },
  bathUsedCm2: { words: 'film area through the bath before', unit: 'cm²' },
  developerSeconds: { words: 'developer time', unit: 's' },
} as const;

/** Fewer rolls than this give no line. Our choice: the interval of three points says nothing. */
const LEAST_ROLLS = 4;

function trendOf(rolls: readonly PlottedRoll[], of: 'a' | 'b', against: keyof typeof AGAINST): Trend {
  const pairs = rolls.flatMap((roll) => {
    const x = roll[against];
    const y = roll[of];
    return x === null || y === null ? [] : [{ x, y }];
  });
  const xs = pairs.map((pair) => pair.x);
  const ys = pairs.map((pair) => pair.y);
  const line = pairs.length < LEAST_ROLLS ? null : robustSlope(xs, ys);
  const rank = pairs.length < LEAST_ROLLS ? null : rankCorrelation(xs, ys);
  return {
    of,
    against,
    rolls: pairs.length,
    slope: line?.slope ?? null,
    slopeLow: line?.low ?? null,
    slopeHigh: line?.high ?? null,
    correlation: rank?.rho ?? null,
    correlationLow: rank?.interval?.low ?? null,
    correlationHigh: rank?.interval?.high ?? null,
    chance: rank?.p ?? null,
    say: sayTrend(of, against, pairs.length, line, rank),
  };
}

function signed(value: number): string {
  return `${value < 0 ? '−' : '+'}${Math.abs(value).toPrecision(2)}`;
}

function sayTrend(
  of: 'a' | 'b',
  against: keyof typeof AGAINST,
  count: number,
  line: ReturnType<typeof robustSlope>,
  rank: ReturnType<typeof rankCorrelation>,
): string {
  const { words, unit } = AGAINST[against];
  if (count < LEAST_ROLLS) {
    const few = count === 1 ? '1 roll is' : `${count === 0 ? 'no' : count} rolls are`;
    return `${AXES[of]} against ${words}: ${few} not enough to say.`;
  }
  if (line === null || rank === null)
    return `${AXES[of]} against ${words}: one of them is the same on all ${count} rolls, so there is nothing to see.`;
  return (
    `${AXES[of]} moves by ${signed(line.slope)} per ${unit} of ${words} (95 %: ${signed(line.low)} to ${signed(line.high)}) ` +
    `over ${count} rolls; rank correlation ${signed(rank.rho)}. Chance alone would do the like ${sayChance(rank.p)}. ` +
    'What else varied with it is not ruled out.'
  );
}

function faultsOf(rows: readonly RollRow[], only: string | null): FaultFinding[] {
  const rolls: FaultRoll[] = rows.map((row) => ({
    roll: row.roll,
    faults: z.array(z.string()).parse(JSON.parse(row.faults)),
    factors: { camera: row.camera, bath: row.bath, scanner: row.scanner, lab: row.lab, stock: row.stock },
  }));
  const names = only === null ? [...new Set(rolls.flatMap((roll) => roll.faults))].sort() : [only];
  const phrases: Readonly<Record<string, (value: string) => string>> = {
    camera: (value) => `camera ${value}`,
    bath: (value) => `bath ${value}`,
    scanner: (value) => `scanner ${value}`,
    lab: (value) => `lab ${value}`,
    stock: (value) => `stock ${value}`,
  };
  const factors = Object.entries(phrases).map(([name, phrase]) => ({ name, phrase }));
  return countFaults(
    rolls,
    names.map((name) => ({ name, phrase: name })),
    factors,
    seededRandom(),
  );
}

/** The same numbers each time, so that the same archive gives the same answer. Source: mulberry32 (from memory). */
function seededRandom(): () => number {
  let state = 0x9e3779b9;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** What casts and faults have in common with what the log knows. */
export async function findCauses(
  archive: Archive,
  { fault, stockId }: { readonly fault: string | null; readonly stockId: number | null },
  signal: AbortSignal,
): Promise<{ rolls: PlottedRoll[]; trends: Trend[]; faults: FaultFinding[] }> {
  const rows = rollRows(archive.db, stockId);
  const rolls: PlottedRoll[] = [];
  for (const row of rows) rolls.push(await plot(archive, row, signal));
  const trends = (['a', 'b'] as const).flatMap((of) =>
    (['temperatureErrorC', 'monthsPastExpiry', 'bathUsedCm2', 'developerSeconds'] as const).map((against) =>
      trendOf(rolls, of, against),
    ),
  );
  return { rolls, trends, faults: faultsOf(rows, fault) };
}

function rollRows(db: ReadableDb, stockId: number | null): RollRow[] {
  return query(db, rollRow, ROLLS).all({ stockId });
}
