import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Outing } from '../../../shared/api/methods/film-methods.ts';
import type { Archive } from '../archive/archive.ts';
import { dateColumns, dateFromRow, dateValues } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, query, type ReadableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { ensureFrames } from './frames.ts';
import { requireRollFacts } from './roll-rows.ts';

const outingRow = z.object({
  id: z.number(),
  title: z.string(),
  place: z.string().nullable(),
  note: z.string().nullable(),
  ...dateColumns('date'),
  rolls: z.string(),
});

const rollsJson = z.array(
  z.strictObject({ id: z.number(), number: z.string(), labels: z.array(z.string()) }),
);

const SELECT = `SELECT id, title, place, note, date_edtf, date_typed, date_earliest, date_latest,
  (SELECT json_group_array(json_object('id', roll.id, 'number', roll.number, 'labels',
      (SELECT json_group_array(label ORDER BY ordinal) FROM frame
        WHERE frame.roll_id = roll.id AND frame.outing_id = outing.id)) ORDER BY roll.number_sort)
    FROM outing_roll JOIN roll ON roll.id = outing_roll.roll_id WHERE outing_roll.outing_id = outing.id) AS rolls
  FROM outing`;

function outingFromRow(row: z.output<typeof outingRow>): Outing {
  return {
    id: row.id,
    title: row.title,
    place: row.place,
    note: row.note,
    date: dateFromRow(row, 'date'),
    rolls: rollsJson.parse(
      z
        .array(
          z.object({
            id: z.number(),
            number: z.string(),
            labels: z.union([z.string(), z.array(z.string())]),
          }),
        )
        .parse(JSON.parse(row.rolls))
        .map((roll) => ({
          ...roll,
          labels:
            typeof roll.labels === 'string'
              ? z.array(z.string()).parse(JSON.parse(roll.labels))
              : roll.labels,
        })),
    ),
  };
}

/** One outing. @throws {AppError} outing_not_found */
export function requireOuting(db: ReadableDb, id: number): Outing {
  const row = query(db, outingRow, `${SELECT} WHERE id = :id`).find({ id });
  if (!row) throw appError('outing_not_found', { name: String(id) });
  return outingFromRow(row);
}

/** Puts a roll (all of it, or these frames, made when missing) on an outing. */
function putRollOnOuting(
  archive: Archive,
  outingId: number,
  rollId: number,
  labels: readonly string[] | null,
): void {
  requireRollFacts(archive.db, rollId);
  command(
    archive.db,
    `INSERT INTO outing_roll (outing_id, roll_id, whole) VALUES (:outingId, :rollId, :whole)
     ON CONFLICT (outing_id, roll_id) DO UPDATE SET whole = max(whole, excluded.whole)`,
  )({ outingId, rollId, whole: Number(labels === null) });
  if (!labels) return;
  const set = command(archive.db, 'UPDATE frame SET outing_id = :outingId WHERE id = :frameId');
  for (const frameId of ensureFrames(archive.db, rollId, labels).entries()) {
    if (labels.includes(frameId[0])) set({ outingId, frameId: frameId[1] });
  }
}

export const OUTING_HANDLERS: HandlersOf<'outings.list' | 'outings.get' | 'outings.add' | 'outings.change'> =
  {
    'outings.list': ({ db }) =>
      query(db, outingRow, `${SELECT} ORDER BY date_earliest DESC NULLS LAST, id DESC`)
        .all()
        .map(outingFromRow),
    'outings.get': ({ db }, { id }) => requireOuting(db, id),

    'outings.add': (archive, outing) =>
      archive.undo.record(`Add outing ${outing.title}`, () => {
        const { id } = command(
          archive.db,
          `INSERT INTO outing (title, place, note, date_edtf, date_typed, date_earliest, date_latest, created_at)
         VALUES (:title, :place, :note, :date_edtf, :date_typed, :date_earliest, :date_latest, :at)`,
        )({
          title: outing.title,
          place: outing.place ?? null,
          note: outing.note ?? null,
          ...dateValues('date', outing.date),
          at: archive.now().toISOString(),
        });
        for (const { rollId, labels } of outing.rolls) putRollOnOuting(archive, id, rollId, labels);
        return { id };
      }),

    'outings.change': (archive, { id, change }) => {
      const before = requireOuting(archive.db, id);
      archive.undo.record(`Change outing ${before.title}`, () =>
        changeRow(archive.db, 'outing', id, {
          title: change.title,
          place: change.place,
          note: change.note,
          ...(change.date === undefined ? {} : dateValues('date', change.date)),
        }),
      );
      return {};
    },
  };
