import { z } from 'zod';
import type { CastOfRoll } from '../../../shared/api/methods/colour-methods.ts';
import {
  compareWithStock,
  type Comparison,
  type RollCast,
  type StockRoll,
} from '../../../shared/domain/colour/cast-roll.ts';
import { sayRoll } from '../../../shared/domain/colour/cast-words.ts';
import type { Archive } from '../archive/archive.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { measureRoll } from './measure-roll.ts';

const rollRow = z.object({
  id: z.number(),
  number: z.string(),
  expires: z.string().nullable(),
  developed: z.string().nullable(),
  tempC: z.number().nullable(),
  nominalC: z.number().nullable(),
  process: z.string().nullable(),
});

/** C-41 developer: 37.8 ± 0.15 °C. Source: Kodak Z-131, Table 4-1. A home bath is held to half a degree: our choice. */
const ON_TEMPERATURE_C = 0.5;
const C41_TEMP_C = 37.8;

/** Every roll of a stock with what decides whether it serves as a measure. */
function rollsOfStock(db: ReadableDb, stockId: number): z.output<typeof rollRow>[] {
  return query(
    db,
    rollRow,
    `SELECT roll.id, roll.number, coalesce(roll.expires_latest, batch.expires_latest) AS expires,
       development.date_earliest AS developed, development.developer_temp_c AS tempC,
       development.developer_nominal_temp_c AS nominalC, development.process
     FROM roll LEFT JOIN batch ON batch.id = roll.batch_id
     LEFT JOIN development ON development.id = (SELECT max(development_id) FROM development_roll
       JOIN development AS done ON done.id = development_id AND done.state = 'done' WHERE roll_id = roll.id)
     WHERE roll.stock_id = :stockId AND EXISTS (SELECT 1 FROM frame JOIN frame_scan ON frame_scan.frame_id = frame.id
       WHERE frame.roll_id = roll.id) ORDER BY roll.number_sort`,
  ).all({ stockId });
}

function nominalOf(row: z.output<typeof rollRow>): number | null {
  return row.nominalC ?? (row.process === 'c41' ? C41_TEMP_C : null);
}

/** The casts of the rolls of a stock, each with what speaks for or against it as a measure. */
export async function castsOfStock(
  archive: Archive,
  stockId: number,
  signal: AbortSignal,
): Promise<(StockRoll & { id: number })[]> {
  const rolls: (StockRoll & { id: number })[] = [];
  for (const row of rollsOfStock(archive.db, stockId)) {
    const { cast } = await measureRoll(archive, row.id, signal);
    if (cast === null) continue;
    const nominal = nominalOf(row);
    rolls.push({
      id: row.id,
      roll: row.number,
      cast,
      inDate: row.expires === null || row.developed === null ? null : row.developed <= row.expires,
      onTemperature:
        row.tempC === null || nominal === null ? null : Math.abs(row.tempC - nominal) <= ON_TEMPERATURE_C,
    });
  }
  return rolls;
}

/** A roll's cast in the form of the contract. */
export function castToWire(cast: RollCast | null, comparison: Comparison | null): CastOfRoll['roll'] {
  const { crossover } = comparison ?? { crossover: null };
  return {
    a: cast?.a ?? null,
    b: cast?.b ?? null,
    spread: cast === null ? null : Math.hypot(cast.spread.across, cast.spread.along),
    frames: cast?.frames ?? 0,
    against: comparison && {
      rolls: comparison.rolls,
      deltaA: comparison.deltaA,
      deltaB: comparison.deltaB,
      deltaE00: comparison.deltaE00,
      direction: comparison.direction,
      stands: comparison.stands,
      chance: comparison.p,
    },
    crossover:
      crossover?.stands === true
        ? { shadows: crossover.shadows, highlights: crossover.highlights, deltaE00: crossover.deltaE00 }
        : null,
    say: sayRoll(cast, comparison),
  };
}

/** The comparison of one roll with the others of its stock; null where there are not enough. */
export function compareRoll(number: string, rolls: readonly StockRoll[]): Comparison | null {
  return compareWithStock(number, rolls);
}
