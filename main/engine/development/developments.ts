import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Development } from '../../../shared/api/methods/development-methods.ts';
import { processKind } from '../../../shared/api/values.ts';
import { dateColumns, dateFromRow, dateValues } from '../db/calendar-date.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import { requireRollFacts } from '../film/roll-rows.ts';
import { setRollState } from '../film/rolls.ts';
import type { HandlersOf } from '../handler.ts';

const developmentRow = z.object({
  id: z.number(),
  process: processKind,
  processName: z.string().nullable(),
  state: z.enum(['planned', 'running', 'done', 'aborted']),
  pushStops: z.number(),
  developerSeconds: z.number().nullable(),
  developerTempC: z.number().nullable(),
  developerNominalTempC: z.number().nullable(),
  bath_id: z.number().nullable(),
  bath_name: z.string().nullable(),
  note: z.string().nullable(),
  rolls: z.string(),
  ...dateColumns('date'),
});

const rollsJson = z.array(z.strictObject({ id: z.number(), number: z.string() }));

const SELECT = `SELECT development.id, development.process, process_name AS processName, development.state,
  push_stops AS pushStops, developer_seconds AS developerSeconds, developer_temp_c AS developerTempC,
  developer_nominal_temp_c AS developerNominalTempC, bath.id AS bath_id, bath.name AS bath_name, development.note,
  date_edtf, date_typed, date_earliest, date_latest,
  (SELECT json_group_array(json_object('id', roll.id, 'number', roll.number) ORDER BY roll.number_sort)
    FROM development_roll JOIN roll ON roll.id = development_roll.roll_id
    WHERE development_roll.development_id = development.id) AS rolls
  FROM development LEFT JOIN bath ON bath.id = development.developer_bath_id`;

function developmentFromRow(row: z.output<typeof developmentRow>): Development {
  return {
    id: row.id,
    process: row.process,
    processName: row.processName,
    state: row.state,
    date: dateFromRow(row, 'date'),
    pushStops: row.pushStops,
    developerSeconds: row.developerSeconds,
    developerTempC: row.developerTempC,
    developerNominalTempC: row.developerNominalTempC,
    bath: row.bath_id === null || row.bath_name === null ? null : { id: row.bath_id, name: row.bath_name },
    note: row.note,
    rolls: rollsJson.parse(JSON.parse(row.rolls)),
  };
}

/** One development. @throws {AppError} development_not_found */
function requireDevelopment(db: ReadableDb, id: number): Development {
  const row = query(db, developmentRow, `${SELECT} WHERE development.id = :id`).find({ id });
  if (!row) throw appError('development_not_found', { name: String(id) });
  return developmentFromRow(row);
}

export const DEVELOPMENT_HANDLERS: HandlersOf<
  'developments.list' | 'developments.get' | 'developments.record'
> = {
  'developments.list': ({ db }) =>
    query(db, developmentRow, `${SELECT} ORDER BY date_earliest DESC NULLS LAST, development.id DESC`)
      .all()
      .map(developmentFromRow),
  'developments.get': ({ db }, { id }) => requireDevelopment(db, id),

  'developments.record': (archive, development) =>
    archive.undo.record('Record a development', () => {
      for (const rollId of development.rollIds) requireRollFacts(archive.db, rollId);
      const { id } = command(
        archive.db,
        `INSERT INTO development (process, state, date_edtf, date_typed, date_earliest, date_latest, push_stops,
           developer_seconds, developer_temp_c, note, created_at)
         VALUES (:process, 'done', :date_edtf, :date_typed, :date_earliest, :date_latest, :pushStops,
           :developerSeconds, :developerTempC, :note, :at)`,
      )({
        process: development.process,
        ...dateValues('date', development.date),
        pushStops: development.pushStops,
        developerSeconds: development.developerSeconds,
        developerTempC: development.developerTempC,
        note: development.note,
        at: archive.now().toISOString(),
      });
      const link = command(
        archive.db,
        'INSERT INTO development_roll (development_id, roll_id) VALUES (:id, :rollId) ON CONFLICT DO NOTHING',
      );
      for (const rollId of development.rollIds) {
        link({ id, rollId });
        markDeveloped(archive, rollId, development.date);
      }
      return { id };
    }),
};

/** A roll that was still waiting becomes developed; one already filed stays filed, its day noted. */
function markDeveloped(archive: Parameters<typeof setRollState>[0], rollId: number, date: string): void {
  const filed = query(
    archive.db,
    z.object({ state: z.string() }),
    'SELECT state FROM roll WHERE id = :rollId',
  ).find({
    rollId,
  });
  setRollState(archive, rollId, 'developed', date);
  if (filed?.state === 'filed') setRollState(archive, rollId, 'filed', null);
}
