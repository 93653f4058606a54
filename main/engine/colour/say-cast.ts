import { z } from 'zod';
import type { CastOfRoll } from '../../../shared/api/methods/colour-methods.ts';
import { type Balance, balanceOfStock, USUAL_BALANCE } from '../../../shared/domain/colour/balance.ts';
import {
  type BaseDensity,
  type FogAgainstStock,
  fogAgainstStock,
  sayFog,
} from '../../../shared/domain/colour/base-fog.ts';
import type { FrameCast } from '../../../shared/domain/colour/cast-frame.ts';
import { castOfRoll, type RollCast } from '../../../shared/domain/colour/cast-roll.ts';
import { sayRoll } from '../../../shared/domain/colour/cast-words.ts';
import {
  compareWithStock,
  type Comparison,
  type StockRoll,
} from '../../../shared/domain/colour/compare-with-stock.ts';
import { meantTemperature } from '../../../shared/domain/development/meant-temperature.ts';
import type { RollKind } from '../../../shared/domain/colour/polarity.ts';
import type { Archive } from '../archive/archive.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { castsUnder } from './cast-under.ts';
import type { MeasuredRoll } from './measured-roll.ts';
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

/** A roll beside the others of its stock. */
export interface StockCast {
  readonly id: number;
  readonly roll: string;
  readonly polarity: RollKind['polarity'];
  /** Under the balance of the stock for negatives, as shown for positives; null where nothing speaks for the roll. */
  readonly cast: RollCast | null;
  readonly frames: readonly FrameCast[];
  readonly base: BaseDensity | null;
  /** The base over that of the stock's others; null for positives, or where there are not enough rolls. */
  readonly fog: FogAgainstStock | null;
  /** Developed before its expiry, and its developer within tolerance; null where the log does not say. */
  readonly inDate: boolean | null;
  readonly onTemperature: boolean | null;
}

/** Rolls whose balances make one of the stock. Our choice: as many as make a measure for casts. */
const LEAST_BALANCES = 3;

/** The balance that a stock's negatives are measured under: its rolls' middle, the usual one where there are too few. */
function stockBalance(rolls: readonly MeasuredRoll[]): Balance {
  const balances = rolls.flatMap(({ measuredUnder }) => measuredUnder ?? []);
  return (balances.length < LEAST_BALANCES ? null : balanceOfStock(balances)) ?? USUAL_BALANCE;
}

/** The casts of the rolls of a stock, each with what speaks for or against it as a measure. */
export async function castsOfStock(
  archive: Archive,
  stockId: number,
  signal: AbortSignal,
): Promise<StockCast[]> {
  const rows = rollsOfStock(archive.db, stockId);
  const measured: { row: (typeof rows)[number]; roll: MeasuredRoll }[] = [];
  for (const row of rows) measured.push({ row, roll: await measureRoll(archive, row.id, signal) });
  const balance = stockBalance(measured.map(({ roll }) => roll));
  return measured.map(({ row, roll }) => {
    const nominal = meantTemperature(row.nominalC, row.process);
    const frames = castsUnder(roll, balance);
    const bases = measured.flatMap((other) =>
      other.row.id !== row.id && other.roll.base !== null && other.roll.kind.colour === roll.kind.colour
        ? [other.roll.base.density]
        : [],
    );
    return {
      id: row.id,
      roll: row.number,
      polarity: roll.kind.polarity,
      cast: roll.kind.colour === 'monochrome' ? null : castOfRoll(frames),
      frames,
      base: roll.base,
      fog: roll.base === null ? null : fogAgainstStock(roll.base.density, bases),
      inDate: row.expires === null || row.developed === null ? null : row.developed <= row.expires,
      onTemperature:
        row.tempC === null || nominal === null ? null : Math.abs(row.tempC - nominal) <= ON_TEMPERATURE_C,
    };
  });
}

/** The film base of a roll in the form of the contract; null for positives. */
export function baseToWire(base: BaseDensity | null, fog: FogAgainstStock | null): CastOfRoll['base'] {
  const [red, green, blue] = base?.density ?? [0, 0, 0];
  return (
    base && {
      red,
      green,
      blue,
      from: base.from,
      frames: base.frames,
      confidence: base.confidence,
      against: fog,
      say: sayFog(base, fog),
    }
  );
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

/** The comparison of one roll with the others of its stock that were scanned alike; null where there are not enough. */
export function compareRoll(number: string, rolls: readonly StockCast[]): Comparison | null {
  const own = rolls.find(({ roll }) => roll === number);
  const alike = rolls.flatMap(({ cast, polarity, roll, inDate, onTemperature }): StockRoll[] =>
    cast === null || polarity !== own?.polarity ? [] : [{ roll, cast, inDate, onTemperature }],
  );
  return compareWithStock(number, alike);
}
