import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { tank as tankEntry, type TankEntry } from '../../../shared/api/methods/bath-methods.ts';
import { changeRow } from '../db/change-row.ts';
import { command, orTaken, query, type ReadableDb } from '../db/query.ts';
import { countRow } from '../db/rows.ts';
import type { HandlersOf } from '../handler.ts';

const SELECT = `SELECT id, name, kind, reels, ml_per_135 AS mlPer135, ml_per_120 AS mlPer120,
  volume_ml AS volumeMl, cooling_per_minute AS coolingPerMinute, note FROM tank`;

/** A tank by id. @throws {AppError} tank_not_found */
export function requireTank(db: ReadableDb, id: number): TankEntry {
  const found = query(db, z.object(tankEntry.shape), `${SELECT} WHERE id = :id`).find({ id });
  if (!found) throw appError('tank_not_found', { name: String(id) });
  return found;
}

export const TANK_HANDLERS: HandlersOf<'tanks.list' | 'tanks.add' | 'tanks.change' | 'tanks.remove'> = {
  'tanks.list': ({ db }) => query(db, z.object(tankEntry.shape), `${SELECT} ORDER BY fold(name), id`).all(),

  'tanks.add': (archive, tank) =>
    archive.undo.record(`Add tank ${tank.name}`, () =>
      orTaken('tank_name_taken', tank.name, () => {
        const { id } = command(
          archive.db,
          `INSERT INTO tank (name, kind, reels, ml_per_135, ml_per_120, volume_ml, cooling_per_minute, note)
           VALUES (:name, :kind, :reels, :mlPer135, :mlPer120, :volumeMl, :coolingPerMinute, :note)`,
        )(tank);
        return { id };
      }),
    ),

  'tanks.change': (archive, { id, tank }) => {
    const { name } = requireTank(archive.db, id);
    archive.undo.record(`Change tank ${name}`, () =>
      orTaken('tank_name_taken', tank.name, () => {
        changeRow(archive.db, 'tank', id, {
          name: tank.name,
          kind: tank.kind,
          reels: tank.reels,
          ml_per_135: tank.mlPer135,
          ml_per_120: tank.mlPer120,
          volume_ml: tank.volumeMl,
          cooling_per_minute: tank.coolingPerMinute,
          note: tank.note,
        });
      }),
    );
    return {};
  },

  'tanks.remove': (archive, { id }) => {
    const { name } = requireTank(archive.db, id);
    const used = query(
      archive.db,
      countRow,
      'SELECT count(*) AS count FROM development WHERE tank_id = :id',
    ).find({ id });
    if (used !== null && used.count > 0) {
      throw appError('conflict', { reason: `Developments were made in “${name}”; it stays for them.` });
    }
    archive.undo.record(`Remove tank ${name}`, () => {
      command(archive.db, 'DELETE FROM tank WHERE id = :id')({ id });
    });
    return {};
  },
};
