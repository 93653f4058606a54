import { command, type Value, type WritableDb } from './query.ts';

/**
 * Changes the given columns of one row by id. Column names come from our own code, never from outside; they are
 * checked all the same.
 */
export function changeRow(
  db: WritableDb,
  table: string,
  rowId: number,
  columns: Readonly<Record<string, Value | undefined>>,
): void {
  const given = Object.entries(columns).filter((entry): entry is [string, Value] => entry[1] !== undefined);
  if (given.length === 0) return;
  const names = given.map(([name]) => name);
  if (![table, ...names].every((name) => /^[a-z_0-9]+$/.test(name)))
    throw new Error(`Not a column: ${names.join()}`);
  const assignments = names.map((name) => `${name} = :${name}`).join(', ');
  command(
    db,
    `UPDATE ${table} SET ${assignments} WHERE id = :row_id`,
  )({
    ...Object.fromEntries(given),
    row_id: rowId,
  });
}
