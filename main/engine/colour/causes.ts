import type { Causes } from '../../../shared/api/methods/causes-methods.ts';
import { findTrends, type CastGroups, type CastTrend } from '../../../shared/domain/colour/cast-trends.ts';
import type { FaultFinding } from '../../../shared/domain/colour/faults.ts';
import { perDevelopment, type LoggedRoll, type Per } from '../../../shared/domain/colour/logged-roll.ts';
import { sayGroups, sayTrend } from '../../../shared/text/describe-trend.ts';
import type { Archive } from '../archive/archive.ts';
import type { HandlersOf } from '../handler.ts';
import { faultFindings } from './count-faults.ts';
import { factsOf, rollLogs, type RollLog } from './logged-rolls.ts';
import { castsOfStock, compareRoll } from './say-cast.ts';

type WireRoll = Causes['rolls'][number];

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

/** What is measured of rolls, by their ids: casts and fog against the others of their stock. */
async function measuresOf(
  archive: Archive,
  logs: readonly RollLog[],
  signal: AbortSignal,
): Promise<Map<number, Pick<WireRoll, 'a' | 'b' | 'deltaA' | 'deltaB' | 'deltaE00' | 'fog' | 'stands'>>> {
  const stockIds = new Set(logs.flatMap((log) => (log.scans > 0 ? (log.stockId ?? []) : [])));
  const measured = new Map<
    number,
    Pick<WireRoll, 'a' | 'b' | 'deltaA' | 'deltaB' | 'deltaE00' | 'fog' | 'stands'>
  >();
  for (const stockId of stockIds) {
    const rolls = await castsOfStock(archive, stockId, signal);
    for (const { id, roll, cast, fog } of rolls) {
      const against = compareRoll(roll, rolls);
      measured.set(id, {
        a: cast?.a ?? null,
        b: cast?.b ?? null,
        deltaA: against?.deltaA ?? null,
        deltaB: against?.deltaB ?? null,
        deltaE00: against?.deltaE00 ?? null,
        fog: fog?.visual ?? null,
        stands: against?.stands ?? false,
      });
    }
  }
  return measured;
}

const NOT_MEASURED = {
  a: null,
  b: null,
  deltaA: null,
  deltaB: null,
  deltaE00: null,
  fog: null,
  stands: false,
} as const;

function trendToWire({ line, rank, corrected, ...trend }: CastTrend, per: Per): Causes['trends'][number] {
  return {
    ...trend,
    outliers: [...trend.outliers],
    slope: line?.slope ?? null,
    slopeLow: line?.low ?? null,
    slopeHigh: line?.high ?? null,
    intercept: line?.intercept ?? null,
    correlation: rank?.rho ?? null,
    correlationLow: rank?.interval?.low ?? null,
    correlationHigh: rank?.interval?.high ?? null,
    chance: rank?.p ?? null,
    corrected,
    say: sayTrend({ line, rank, corrected, ...trend }, per),
  };
}

function groupsToWire({ test, corrected, ...found }: CastGroups, per: Per): Causes['groups'][number] {
  return {
    ...found,
    groups: [...found.groups],
    outliers: [...found.outliers],
    chance: test?.p ?? null,
    method: test?.method ?? null,
    corrected,
    say: sayGroups({ test, corrected, ...found }, per),
  };
}

function faultToWire({ unknown, p, ...finding }: FaultFinding, ids: ReadonlyMap<string, number>) {
  return {
    ...finding,
    unknown,
    chance: p,
    there: finding.there.flatMap((name) => {
      const id = ids.get(name);
      return id === undefined ? [] : [{ id, name }];
    }),
  };
}

export const CAUSES_HANDLERS: HandlersOf<'colour.causes'> = {
  'colour.causes': async (archive, { fault, stockId, per }, { signal }) => {
    const logs = rollLogs(archive.db, stockId);
    const random = seededRandom();
    const faults = faultFindings(archive.db, logs, fault, random);
    const measured = await measuresOf(archive, logs, signal);
    const rolls = logs.map((log): LoggedRoll & WireRoll => ({
      ...factsOf(log),
      ...(measured.get(log.rollId) ?? NOT_MEASURED),
      stock: log.stock,
      process: log.process,
    }));
    const { trends, groups } = findTrends(per === 'development' ? perDevelopment(rolls) : rolls, random);
    const ids = new Map(logs.map((log) => [log.roll, log.rollId]));
    return {
      rolls,
      trends: trends.map((trend) => trendToWire(trend, per)),
      groups: groups.map((found) => groupsToWire(found, per)),
      faults: faults.map((finding) => faultToWire(finding, ids)),
    };
  },
};
