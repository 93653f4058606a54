import type Database from 'better-sqlite3';
import type { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';

/** A connection used for reading only, by its signature. */
export type ReadableDb = Pick<Database.Database, 'prepare' | 'name'>;
/** A connection that may write. */
export type WritableDb = Database.Database;

/** What can be bound to a named parameter. Booleans are stored as 0 and 1 and never bound as such. */
export type Value = string | number | bigint | Buffer | null;
export type Values = Readonly<Record<string, Value>>;

export interface Query<Row> {
  /** Every row, parsed. */
  all(values?: Values): Row[];
  /** The first row, or null. */
  find(values?: Values): Row | null;
}

/** Statements by connection and text, so that plain functions can name their SQL where they use it. */
const prepared = new WeakMap<object, Map<string, Database.Statement<[Values], unknown>>>();

function prepare(db: ReadableDb, sql: string): Database.Statement<[Values], unknown> {
  const known = prepared.get(db) ?? new Map<string, Database.Statement<[Values], unknown>>();
  prepared.set(db, known);
  const found = known.get(sql);
  if (found) return found;
  const statement = db.prepare<[Values], unknown>(sql);
  known.set(sql, statement);
  return statement;
}

/** A prepared SELECT whose rows are parsed by `row` as they come out. Named parameters: `:name`. */
export function query<Row>(db: ReadableDb, row: z.ZodType<Row>, sql: string): Query<Row> {
  const statement = prepare(db, sql);
  return {
    all: (values = {}) => statement.all(values).map((found) => row.parse(found)),
    find: (values = {}) => {
      const found = statement.get(values);
      return found === undefined ? null : row.parse(found);
    },
  };
}

export interface Written {
  readonly id: number;
  readonly changed: number;
}

/** A prepared INSERT, UPDATE or DELETE. Failures of the disk come out as `AppError`. */
export function command(db: WritableDb, sql: string): (values?: Values) => Written {
  const statement = prepare(db, sql);
  return (values = {}) => {
    const { lastInsertRowid, changes } = translate(db.name, () => statement.run(values));
    return { id: Number(lastInsertRowid), changed: changes };
  };
}

/** The code of a SQLite failure (`SQLITE_CONSTRAINT_UNIQUE`), or null for anything else. */
export function sqliteCode(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error)) return null;
  return typeof error.code === 'string' && error.code.startsWith('SQLITE_') ? error.code : null;
}

/**
 * Runs `work`, turning failures of disk and file into the user's words.
 * @throws {AppError} disk_full, archive_damaged, archive_read_only
 */
export function translate<Result>(path: string, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    const code = sqliteCode(error);
    if (code === 'SQLITE_FULL') throw appError('disk_full', { path }, error);
    if (code === 'SQLITE_IOERR_WRITE') throw appError('disk_full', { path }, error);
    if (code === 'SQLITE_CORRUPT' || code === 'SQLITE_NOTADB') {
      throw appError('archive_damaged', { path, reason: 'the file is not a whole database' }, error);
    }
    if (code?.startsWith('SQLITE_READONLY')) throw appError('archive_read_only', { path }, error);
    throw error;
  }
}

/** Runs `work` in one transaction: all of it is written, or nothing. */
export function inTransaction<Result>(db: WritableDb, work: () => Result): Result {
  return translate(db.name, () => db.transaction(work).immediate());
}

/**
 * Runs `work`; when a UNIQUE rule refuses it, that becomes the error `code` naming the thing.
 * @throws {AppError} `code`
 */
export function orTaken<Result>(
  code:
    | 'stock_name_taken'
    | 'camera_name_taken'
    | 'roll_number_taken'
    | 'binder_name_taken'
    | 'process_name_taken'
    | 'tank_name_taken'
    | 'bath_name_taken',
  name: string,
  work: () => Result,
): Result {
  try {
    return work();
  } catch (error) {
    if (sqliteCode(error) === 'SQLITE_CONSTRAINT_UNIQUE') throw appError(code, { name }, error);
    throw error;
  }
}
