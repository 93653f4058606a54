import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Repair } from '../../../shared/api/methods/film-methods.ts';
import { dateColumns, dateFromRow, readDate } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, query, orTaken, type ReadableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';

const cameraRow = z.object({
  id: z.number(),
  name: z.string(),
  filmFormat: z.string().nullable(),
  frameFormat: z.string().nullable(),
  note: z.string().nullable(),
  rolls: z.number(),
});

const SELECT = `SELECT id, name, film_format AS filmFormat, frame_format AS frameFormat, note,
  (SELECT count(*) FROM roll WHERE camera_id = camera.id) AS rolls FROM camera`;

const repairRow = z.object({ id: z.number(), camera: z.string(), what: z.string(), ...dateColumns('done') });

const REPAIRS = `SELECT camera_service.id, camera.name AS camera, what, done_edtf, done_typed, done_earliest, done_latest
  FROM camera_service JOIN camera ON camera.id = camera_service.camera_id`;

/** The repairs of a camera, earliest first. */
function repairsOf(db: ReadableDb, cameraId: number): Repair[] {
  return query(
    db,
    repairRow,
    `${REPAIRS} WHERE camera_id = :cameraId ORDER BY done_earliest, camera_service.id`,
  )
    .all({ cameraId })
    .flatMap((row) => {
      const done = dateFromRow(row, 'done');
      return done === null ? [] : [{ id: row.id, done, what: row.what }];
    });
}

export const CAMERA_HANDLERS: HandlersOf<
  'cameras.list' | 'cameras.add' | 'cameras.change' | 'cameras.noteRepair' | 'cameras.removeRepair'
> = {
  'cameras.list': ({ db }) =>
    query(db, cameraRow, `${SELECT} ORDER BY fold(name), id`)
      .all()
      .map((camera) => ({ ...camera, repairs: repairsOf(db, camera.id) })),

  'cameras.add': (archive, camera) =>
    archive.undo.record(`Add camera ${camera.name}`, () =>
      orTaken('camera_name_taken', camera.name, () => {
        const { id } = command(
          archive.db,
          `INSERT INTO camera (name, film_format, frame_format, note, created_at)
           VALUES (:name, :filmFormat, :frameFormat, :note, :at)`,
        )({
          name: camera.name,
          filmFormat: camera.filmFormat ?? null,
          frameFormat: camera.frameFormat ?? null,
          note: camera.note ?? null,
          at: archive.now().toISOString(),
        });
        return { id };
      }),
    ),

  'cameras.change': (archive, { id, change }) => {
    const before = query(archive.db, cameraRow, `${SELECT} WHERE id = :id`).find({ id });
    if (!before) throw appError('camera_not_found', { name: String(id) });
    archive.undo.record(`Change camera ${before.name}`, () =>
      orTaken('camera_name_taken', change.name ?? before.name, () =>
        changeRow(archive.db, 'camera', id, {
          name: change.name,
          film_format: change.filmFormat,
          frame_format: change.frameFormat,
          note: change.note,
        }),
      ),
    );
    return {};
  },

  'cameras.noteRepair': (archive, { cameraId, done, what }) => {
    const camera = query(archive.db, cameraRow, `${SELECT} WHERE id = :id`).find({ id: cameraId });
    if (!camera) throw appError('camera_not_found', { name: String(cameraId) });
    const date = readDate(done, 'date of the repair');
    return archive.undo.record(`Note a repair of camera ${camera.name}`, () => {
      const { id } = command(
        archive.db,
        `INSERT INTO camera_service (camera_id, done_edtf, done_typed, done_earliest, done_latest, what)
         VALUES (:cameraId, :edtf, :typed, :earliest, :latest, :what)`,
      )({ cameraId, ...date, what });
      return { id };
    });
  },

  'cameras.removeRepair': (archive, { id }) => {
    const found = query(archive.db, repairRow, `${REPAIRS} WHERE camera_service.id = :id`).find({ id });
    if (!found) throw appError('repair_not_found', { name: String(id) });
    archive.undo.record(`Remove a repair of camera ${found.camera}`, () => {
      command(archive.db, 'DELETE FROM camera_service WHERE id = :id')({ id });
    });
    return {};
  },
};
