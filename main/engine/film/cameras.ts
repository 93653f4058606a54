import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { changeRow } from '../db/change-row.ts';
import { command, query, orTaken } from '../db/query.ts';
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

export const CAMERA_HANDLERS: HandlersOf<'cameras.list' | 'cameras.add' | 'cameras.change'> = {
  'cameras.list': ({ db }) => query(db, cameraRow, `${SELECT} ORDER BY fold(name), id`).all(),

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
};
