import { logFactorial } from './distributions.ts';

/** How a chance came about: every table with the same margins weighed, or a number of random shuffles. */
export type TableChance = {
  /** The chance of a table at least as uneven as this one if rows and columns had nothing to do with each other. */
  readonly p: number;
  /** The least chance that any table with these margins could have come to; only known where all were weighed. */
  readonly least: number | null;
  readonly method: 'exact' | 'shuffled';
};

/** Tables whose chance is equal but for rounding count as equally uneven. Source: R 4 `fisher.test`, relErr 1e-7. */
const SAME = 1 + 1e-7;

/** Beyond this many partial tables the walk is given up for shuffling. Our choice: about a tenth of a second of work. */
const WALK_LIMIT = 400_000;

/** Shuffles when the walk is too long: the error of a p of 0.01 is then about 0.0007. Our choice. */
const SHUFFLES = 20_000;

/**
 * Fisher's exact test of a 2 × 2 table [[a, b], [c, d]] of counts, two-sided: the sum of the chances of all tables
 * with the same margins that are no likelier than this one.
 * Source: Fisher, Statistical Methods for Research Workers (1934), section 21.02; two-sided as in R `fisher.test`.
 */
export function exactTest2x2(a: number, b: number, c: number, d: number): number {
  return (
    exactWalk([
      [a, b],
      [c, d],
    ])?.p ?? 1
  );
}

/**
 * The exact test of a table of counts with any number of rows and columns: all tables with the same margins where
 * that is feasible, otherwise random shuffles (`random` gives 0 ≤ x < 1).
 * Source: Freeman & Halton, Biometrika 38 (1951) 141–149; p of shuffles (r + 1)/(n + 1): Davison & Hinkley,
 * Bootstrap Methods and their Application (1997), 4.2.
 */
export function exactTest(table: readonly (readonly number[])[], random: () => number): TableChance {
  const walked = exactWalk(table);
  return walked ?? shuffledTest(table, random);
}

function sums(table: readonly (readonly number[])[]): { rows: number[]; columns: number[] } {
  const rows = table.map((row) => row.reduce((sum, value) => sum + value, 0));
  const width = Math.max(0, ...table.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, at) =>
    table.reduce((sum, row) => sum + (row[at] ?? 0), 0),
  );
  return { rows, columns };
}

/** ln n! for 0..total, counted once: the walk asks for it millions of times. */
function logFactorials(total: number): (n: number) => number {
  const list = Float64Array.from({ length: total + 1 }, (_, n) => logFactorial(n));
  return (n) => list[n] ?? 0;
}

function logWeight(table: readonly (readonly number[])[], logOf: (n: number) => number): number {
  let sum = 0;
  for (const row of table) for (const value of row) sum += logOf(value);
  return -sum;
}

function exactWalk(table: readonly (readonly number[])[]): TableChance | null {
  const { rows, columns } = sums(table);
  const total = rows.reduce((sum, value) => sum + value, 0);
  const logOf = logFactorials(total);
  const logAll = logOf(total) - [...rows, ...columns].reduce((sum, value) => sum + logOf(value), 0);
  const observed = logWeight(table, logOf);
  let steps = 0;
  let atMost = 0;
  let rarest = 0;
  let least = 0;
  // Fill cell by cell, the last row and column being forced by the margins.
  const fill = (row: number, column: number, leftInRow: number, left: number[], weight: number): boolean => {
    steps += 1;
    if (steps > WALK_LIMIT) return false;
    if (row === rows.length - 1) {
      const whole = left.reduce((sum, value) => sum - logOf(value), weight);
      const chance = Math.exp(whole - logAll);
      if (whole <= observed + Math.log(SAME)) atMost += chance;
      if (least === 0 || chance < rarest / SAME) {
        rarest = chance;
        least = chance;
      } else if (chance <= rarest * SAME) least += chance;
      return true;
    }
    const space = left[column] ?? 0;
    if (column === left.length - 1) {
      if (leftInRow > space) return true;
      const next = left.with(column, space - leftInRow);
      return fill(row + 1, 0, rows[row + 1] ?? 0, next, weight - logOf(leftInRow));
    }
    for (let value = 0; value <= Math.min(leftInRow, space); value += 1) {
      const next = left.with(column, space - value);
      if (!fill(row, column + 1, leftInRow - value, next, weight - logOf(value))) return false;
    }
    return true;
  };
  if (rows.length === 0 || columns.length === 0) return { p: 1, least: 1, method: 'exact' };
  return fill(0, 0, rows[0] ?? 0, columns, 0)
    ? { p: Math.min(1, atMost), least: Math.min(1, least), method: 'exact' }
    : null;
}

function shuffledTest(table: readonly (readonly number[])[], random: () => number): TableChance {
  const { columns } = sums(table);
  const rowOf = table.flatMap((row, at) =>
    new Array<number>(row.reduce((sum, value) => sum + value, 0)).fill(at),
  );
  const columnOf = columns.flatMap((value, at) => new Array<number>(value).fill(at));
  const logOf = logFactorials(rowOf.length);
  const observed = logWeight(table, logOf);
  let atMost = 0;
  for (let round = 0; round < SHUFFLES; round += 1) {
    for (let last = columnOf.length - 1; last > 0; last -= 1) {
      const other = Math.floor(random() * (last + 1));
      const kept = columnOf[other] ?? 0;
      columnOf[other] = columnOf[last] ?? 0;
      columnOf[last] = kept;
    }
    const cells = table.map(() => new Array<number>(columns.length).fill(0));
    for (const [at, row] of rowOf.entries()) {
      const line = cells[row];
      const column = columnOf[at] ?? 0;
      if (line !== undefined) line[column] = (line[column] ?? 0) + 1;
    }
    if (logWeight(cells, logOf) <= observed + Math.log(SAME)) atMost += 1;
  }
  return { p: (atMost + 1) / (SHUFFLES + 1), least: null, method: 'shuffled' };
}
