import { z } from 'zod';
import { command, inTransaction, query, type WritableDb } from './query.ts';

/** What the user catalogues. Facts about files, caches and logs are not taken back by undo. */
const CATALOGUE_TABLES = [
  'stock', 'stock_format', 'batch', 'batch_storage', 'camera', 'camera_service', 'lens', 'roll', 'roll_state_date',
  'outing', 'outing_roll', 'frame', 'tag', 'frame_tag', 'pencil_mark', 'fault', 'process', 'tank', 'bath',
  'development', 'development_roll', 'development_step', 'bath_use', 'clearing_test', 'control_reading',
  'page_layout', 'binder', 'page', 'strip', 'frame_scan', 'saved_search', 'correction',
] as const; // prettier-ignore

/** How many actions are kept. Our choice: more than anyone takes back, little enough to stay small. */
const KEPT_ACTIONS = 500;

const actionRow = z.object({ id: z.number(), label: z.string() });
const stepRow = z.object({ sql: z.string() });
const columnRow = z.object({ name: z.string(), pk: z.number() });

export interface Undo {
  /** Runs `work` in one transaction as one action that can be taken back under `label`. */
  record<Result>(label: string, work: () => Result): Result;
  /** Takes the last action back; answers its label, or null when there is none. */
  undo(): string | null;
  /** Does the last action taken back again; answers its label, or null. */
  redo(): string | null;
  /** The labels of what undo and redo would do next. */
  next(): { undo: string | null; redo: string | null };
}

/** Undo through triggers that write down the inverse of every change of a catalogued row. */
export function createUndo(db: WritableDb, now: () => Date): Undo {
  db.exec('CREATE TEMP TABLE undo_recording (action_id INTEGER)');
  for (const table of CATALOGUE_TABLES) db.exec(recordingTriggers(db, table));

  const start = command(db, 'INSERT INTO temp.undo_recording VALUES (:action)');
  const stop = command(db, 'DELETE FROM temp.undo_recording');
  const addAction = command(
    db,
    'INSERT INTO undo_action (label, stack, made_at) VALUES (:label, :stack, :at)',
  );
  const last = query(
    db,
    actionRow,
    'SELECT id, label FROM undo_action WHERE stack = :stack ORDER BY id DESC LIMIT 1',
  );
  const stepsBackwards = query(
    db,
    stepRow,
    'SELECT sql FROM undo_step WHERE action_id = :action ORDER BY id DESC',
  );
  const dropAction = command(db, 'DELETE FROM undo_action WHERE id = :action');
  const dropEmpty = command(
    db,
    'DELETE FROM undo_action WHERE id = :action AND NOT EXISTS (SELECT 1 FROM undo_step WHERE action_id = :action)',
  );
  const dropRedo = command(db, `DELETE FROM undo_action WHERE stack = 'redo'`);
  const dropOld = command(
    db,
    `DELETE FROM undo_action WHERE stack = 'undo' AND id <=
       (SELECT id FROM undo_action WHERE stack = 'undo' ORDER BY id DESC LIMIT 1 OFFSET ${KEPT_ACTIONS})`,
  );

  let recording = false;

  function recordTo<Result>(stack: 'undo' | 'redo', label: string, work: () => Result): Result {
    return inTransaction(db, () => {
      const action = addAction({ label, stack, at: now().toISOString() }).id;
      start({ action });
      recording = true;
      try {
        return work();
      } finally {
        recording = false;
        stop();
        dropEmpty({ action });
      }
    });
  }

  function takeBack(from: 'undo' | 'redo'): string | null {
    const action = last.find({ stack: from });
    if (!action) return null;
    recordTo(from === 'undo' ? 'redo' : 'undo', action.label, () => {
      // Rows come back in the reverse order of their going: parents may follow children within the transaction.
      db.pragma('defer_foreign_keys = ON');
      for (const step of stepsBackwards.all({ action: action.id })) db.exec(step.sql);
      dropAction({ action: action.id });
    });
    return action.label;
  }

  return {
    record: (label, work) => {
      // An action inside an action belongs to it.
      if (recording) return work();
      const result = recordTo('undo', label, work);
      dropRedo();
      dropOld();
      return result;
    },
    undo: () => takeBack('undo'),
    redo: () => takeBack('redo'),
    next: () => ({
      undo: last.find({ stack: 'undo' })?.label ?? null,
      redo: last.find({ stack: 'redo' })?.label ?? null,
    }),
  };
}

function recordingTriggers(db: WritableDb, table: string): string {
  const columns = query(db, columnRow, `SELECT name, pk FROM pragma_table_info('${table}')`).all();
  const keys = columns.filter((column) => column.pk > 0).map((column) => column.name);
  const quoted = (row: 'OLD' | 'NEW', name: string) => `quote(${row}.${name})`;
  const where = (row: 'OLD' | 'NEW') =>
    keys.map((key) => `'${key} = ' || ${quoted(row, key)}`).join(` || ' AND ' || `);
  const list = columns.map((column) => column.name).join(', ');
  const oldValues = columns.map((column) => quoted('OLD', column.name)).join(` || ', ' || `);
  const assignments = columns
    .map((column) => `'${column.name} = ' || ${quoted('OLD', column.name)}`)
    .join(` || ', ' || `);
  const write = (sql: string) =>
    `INSERT INTO undo_step (action_id, sql) SELECT action_id, ${sql} FROM temp.undo_recording`;
  return `
    CREATE TEMP TRIGGER undo_insert_${table} AFTER INSERT ON main.${table}
    BEGIN ${write(`'DELETE FROM ${table} WHERE ' || ${where('NEW')}`)}; END;
    CREATE TEMP TRIGGER undo_update_${table} AFTER UPDATE ON main.${table}
    BEGIN ${write(`'UPDATE ${table} SET ' || ${assignments} || ' WHERE ' || ${where('NEW')}`)}; END;
    CREATE TEMP TRIGGER undo_delete_${table} AFTER DELETE ON main.${table}
    BEGIN ${write(`'INSERT INTO ${table} (${list}) VALUES (' || ${oldValues} || ')'`)}; END;`;
}
