import { z } from 'zod';
import type { Input } from '../../../shared/api/contract.ts';
import { query, type ReadableDb, type Value } from '../db/query.ts';

type RollOrder = Input<'rolls.order'>;

/** What a list of rolls can be sorted by; the number settles ties. */
const SORTS: Readonly<Record<RollOrder['sort'], string>> = {
  number: 'roll.number_sort',
  title: 'fold(roll.title)',
  stock: '(SELECT fold(name) FROM stock WHERE stock.id = roll.stock_id)',
  camera: '(SELECT fold(name) FROM camera WHERE camera.id = roll.camera_id)',
  shot: `(SELECT min(date_earliest) FROM outing_roll JOIN outing ON outing.id = outing_id WHERE roll_id = roll.id)`,
  developed: `(SELECT max(date_earliest) FROM development_roll JOIN development ON development.id = development_id
    WHERE roll_id = roll.id)`,
  state: `instr('on hand,in camera,to develop,developed,filed', roll.state)`,
  frames: '(SELECT count(*) FROM frame WHERE frame.roll_id = roll.id)',
  page: `(SELECT min(binder.name_sort || char(31) || printf('%09d', page.number)) FROM strip
    JOIN page ON page.id = strip.page_id JOIN binder ON binder.id = page.binder_id WHERE strip.roll_id = roll.id)`,
};

/** The ids of the rolls that a list shows, in its order. Rolls without the sorted fact come last. */
export function orderRolls(db: ReadableDb, { sort, descending, filter }: RollOrder): number[] {
  const conditions: string[] = [];
  const values: Record<string, Value> = {};
  const where = (condition: string, name: string, value: Value | undefined) => {
    if (value === undefined) return;
    conditions.push(condition);
    values[name] = value;
  };
  where('roll.stock_id = :stockId', 'stockId', filter.stockId);
  where('roll.camera_id = :cameraId', 'cameraId', filter.cameraId);
  where('roll.film_format = :filmFormat', 'filmFormat', filter.filmFormat);
  where(
    'roll.id IN (SELECT roll_id FROM outing_roll WHERE outing_id = :outingId)',
    'outingId',
    filter.outingId,
  );
  where(
    'roll.id IN (SELECT roll_id FROM development_roll WHERE development_id = :developmentId)',
    'developmentId',
    filter.developmentId,
  );
  if (filter.states && filter.states.length > 0) {
    where('roll.state IN (SELECT value FROM json_each(:states))', 'states', JSON.stringify(filter.states));
  }
  for (const [at, word] of (filter.words ?? '').trim().split(/\s+/).filter(Boolean).entries()) {
    where(
      `instr(fold(concat_ws(' ', roll.number, roll.title, roll.note, roll.film_format, roll.frame_format,
         (SELECT concat_ws(' ', name, maker) FROM stock WHERE stock.id = roll.stock_id),
         (SELECT name FROM camera WHERE camera.id = roll.camera_id),
         (SELECT group_concat(concat_ws(' ', title, place), ' ') FROM outing_roll
            JOIN outing ON outing.id = outing_id WHERE roll_id = roll.id))), fold(:word${at})) > 0`,
      `word${at}`,
      word,
    );
  }
  const direction = descending ? 'DESC' : 'ASC';
  const sql = `SELECT roll.id FROM roll ${conditions.length > 0 ? `WHERE ${conditions.join(' AND ')}` : ''}
    ORDER BY ${SORTS[sort]} ${direction} NULLS LAST, roll.number_sort ${direction}, roll.id`;
  return query(db, z.object({ id: z.number() }), sql)
    .all(values)
    .map((row) => row.id);
}
