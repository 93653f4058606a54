import type { WritableDb } from '../db/query.ts';

/** A named thing that facets count. */
type Names = ReadonlyMap<number, string>;

interface OutingFacts {
  readonly title: string;
  readonly place: string | null;
  /** Days as numbers such as 19980712; 0 when the outing has no date, see `OPEN_START` and `OPEN_END` for open ends. */
  readonly earliest: number;
  readonly latest: number;
}

/** One roll as order and facets need it. Ids and days are 0 where there is none. */
export interface RollFact {
  readonly id: number;
  readonly number: string;
  readonly stock: number;
  readonly camera: number;
  readonly state: string;
  readonly process: string;
  readonly format: string;
  readonly expiresEarliest: number;
  readonly expiresLatest: number;
  /** The outing that the whole roll was on, when there is just one. */
  readonly outing: number;
}

/** The rolls in natural order of their numbers, and the names of what belongs to them. */
export interface RollFacts {
  readonly ordered: readonly RollFact[];
  /** Place in `ordered` plus 1 by roll id; 0 where there is no such roll. */
  readonly rankOf: Int32Array;
  /** First and last day of the outing of the whole roll, by roll id; 0 for none. */
  readonly firstOf: Int32Array;
  readonly lastOf: Int32Array;
  readonly outings: ReadonlyMap<number, OutingFacts>;
  readonly stocks: Names;
  readonly cameras: Names;
  readonly tags: Names;
}

type RollTuple = [
  id: number,
  number: string,
  stock: number | null,
  camera: number | null,
  state: string,
  process: string | null,
  format: string,
  expires: number,
  expiresEarliest: number | null,
  expiresLatest: number | null,
  outing: number | null,
];

/** The process a roll went through: of its last development, else what its stock is made for. */
const PROCESS_OF_ROLL = `coalesce((SELECT done.process FROM development_roll
    JOIN development AS done ON done.id = development_roll.development_id AND done.state = 'done'
    WHERE development_roll.roll_id = roll.id ORDER BY done.id DESC LIMIT 1),
  (SELECT stock.process FROM stock WHERE stock.id = roll.stock_id))`;

const day = (column: string) => `CAST(replace(${column}, '-', '') AS INTEGER)`;

const ROLLS = `
SELECT roll.id, roll.number, roll.stock_id, roll.camera_id, roll.state, ${PROCESS_OF_ROLL}, roll.film_format,
  coalesce(roll.expires_edtf, batch.expires_edtf) IS NOT NULL,
  ${day('iif(roll.expires_edtf IS NOT NULL, roll.expires_earliest, batch.expires_earliest)')},
  ${day('iif(roll.expires_edtf IS NOT NULL, roll.expires_latest, batch.expires_latest)')},
  (SELECT max(outing_id) FROM outing_roll WHERE outing_roll.roll_id = roll.id AND whole = 1
    GROUP BY roll_id HAVING count(*) = 1)
FROM roll LEFT JOIN batch ON batch.id = roll.batch_id ORDER BY roll.number_sort, roll.id`;

type OutingTuple = [
  id: number,
  title: string,
  place: string | null,
  dated: number,
  earliest: number | null,
  latest: number | null,
];

const OUTINGS = `SELECT id, title, nullif(place, ''), date_edtf IS NOT NULL, ${day('date_earliest')}, ${day('date_latest')}
FROM outing`;

function readNames(db: WritableDb, sql: string): Names {
  return new Map(db.prepare<[], [number, string]>(sql).raw().all());
}

/** Reads the facts of every roll; some ten thousand rows in the largest archives. */
export function readRollFacts(db: WritableDb): RollFacts {
  const ordered = db
    .prepare<[], RollTuple>(ROLLS)
    .raw()
    .all()
    .map(([id, number, stock, camera, state, process, format, expires, earliest, latest, outing]) => ({
      id,
      number,
      stock: stock ?? 0,
      camera: camera ?? 0,
      state,
      process: process ?? '',
      format,
      expiresEarliest: expires ? (earliest ?? 1) : 0,
      expiresLatest: expires ? (latest ?? 99_999_999) : 0,
      outing: outing ?? 0,
    }));
  const highest = ordered.reduce((most, roll) => Math.max(most, roll.id), 0);
  const rankOf = new Int32Array(highest + 1);
  for (const [at, roll] of ordered.entries()) rankOf[roll.id] = at + 1;
  const outings = db
    .prepare<[], OutingTuple>(OUTINGS)
    .raw()
    .all()
    .map(([id, title, place, dated, earliest, latest]): [number, OutingFacts] => [
      id,
      { title, place, earliest: dated ? (earliest ?? 1) : 0, latest: dated ? (latest ?? 99_999_999) : 0 },
    ]);
  const outingById = new Map(outings);
  const firstOf = new Int32Array(highest + 1);
  const lastOf = new Int32Array(highest + 1);
  for (const roll of ordered) {
    firstOf[roll.id] = outingById.get(roll.outing)?.earliest ?? 0;
    lastOf[roll.id] = outingById.get(roll.outing)?.latest ?? 0;
  }
  return {
    ordered,
    rankOf,
    firstOf,
    lastOf,
    outings: outingById,
    stocks: readNames(db, 'SELECT id, name FROM stock'),
    cameras: readNames(db, 'SELECT id, name FROM camera'),
    tags: readNames(db, 'SELECT id, name FROM tag'),
  };
}
