import { z } from 'zod';
import { command, query, type WritableDb } from '../db/query.ts';
import { FrameSet } from './frame-set.ts';
import { readRollFacts, type RollFacts } from './roll-facts.ts';

/** How many frames are read in one slice, so that other calls get their turn in between. Our choice: some 20 ms. */
const SLICE = 10_000;

/** An end of a date that is open. Days are numbers such as 19980712. */
export const OPEN_START = 1;
export const OPEN_END = 99_999_999;

/**
 * What order and facets need of every frame, by frame id: a cache in memory, since a broad search would spend most of
 * its time fetching this row by row. `rollOf` 0: no such frame. `earliest` 0: the frame has no date of its own;
 * `outingOf` 0: no outing of its own; `placeOf` 0: no place of its own, else a place of `places`.
 */
export interface FrameColumns {
  size: number;
  rollOf: Int32Array;
  ordinal: Int32Array;
  earliest: Int32Array;
  latest: Int32Array;
  outingOf: Int32Array;
  placeOf: Int32Array;
  /** The first tag link of a frame in `tagLinks`, 0 for none: pairs of a tag's id and the next link. */
  tagHead: Int32Array;
  tagLinks: Int32Array;
  /** Where the next link goes. */
  tagEnd: number;
  places: string[];
  all: FrameSet;
  rolls: RollFacts;
}

interface Kept {
  readonly columns: FrameColumns;
  readonly placeNumbers: Map<string, number>;
  /** The last frame id read by slices; null once all are read. */
  readTo: number | null;
}

const kept = new WeakMap<WritableDb, Kept>();

/**
 * Notes which frames changed and whether facts of rolls did, by triggers in memory. The notes take part in
 * transactions, so that what is rolled back is read again as it was.
 */
export function watchColumns(db: WritableDb): void {
  db.exec(`
    CREATE TEMP TABLE stale_frames (frame_id INTEGER NOT NULL PRIMARY KEY);
    CREATE TEMP TABLE stale_facts (one INTEGER NOT NULL PRIMARY KEY);
    ${note('frame_added', 'INSERT ON main.frame', 'stale_frames', 'NEW.id')}
    ${note('frame_gone', 'DELETE ON main.frame', 'stale_frames', 'OLD.id')}
    ${note('frame_changed', 'UPDATE ON main.frame', 'stale_frames', 'NEW.id')}
    ${note('tag_added', 'INSERT ON main.frame_tag', 'stale_frames', 'NEW.frame_id')}
    ${note('tag_gone', 'DELETE ON main.frame_tag', 'stale_frames', 'OLD.frame_id')}
    ${FACT_TABLES.flatMap((table) =>
      ['INSERT', 'UPDATE', 'DELETE'].map((event) =>
        note(`${table}_${event}`, `${event} ON main.${table}`, 'stale_facts', '1'),
      ),
    ).join('\n')}
    INSERT INTO stale_facts VALUES (1);
  `);
}

const FACT_TABLES = [
  'roll', 'batch', 'stock', 'camera', 'tag', 'outing', 'outing_roll', 'development', 'development_roll',
] as const; // prettier-ignore

function note(name: string, event: string, table: string, value: string): string {
  return `CREATE TEMP TRIGGER columns_${name} AFTER ${event}
    BEGIN INSERT INTO ${table} VALUES (${value}) ON CONFLICT DO NOTHING; END;`;
}

/** The columns as they are now: reads what is not read yet, and what changed since. */
export function freshColumns(db: WritableDb): FrameColumns {
  const state = kept.get(db) ?? begin(db);
  while (state.readTo !== null) readSlice(db, state);
  readStale(db, state);
  return state.columns;
}

/** Reads one slice ahead of the first search. False when there is nothing left to read. */
export function readAhead(db: WritableDb): boolean {
  const state = kept.get(db) ?? begin(db);
  if (state.readTo === null) return false;
  readSlice(db, state);
  return true;
}

function begin(db: WritableDb): Kept {
  const size = highest(db) + 1;
  const column = () => new Int32Array(size);
  const columns: FrameColumns = {
    size,
    rollOf: column(),
    ordinal: column(),
    earliest: column(),
    latest: column(),
    outingOf: column(),
    placeOf: column(),
    tagHead: column(),
    tagLinks: new Int32Array(2 * size + 64),
    tagEnd: 2,
    places: [''],
    all: new FrameSet(size),
    rolls: readRollFacts(db),
  };
  command(db, 'DELETE FROM temp.stale_facts')();
  const state = { columns, placeNumbers: new Map<string, number>(), readTo: 0 };
  kept.set(db, state);
  return state;
}

const countRow = z.object({ highest: z.number().nullable() });

function highest(db: WritableDb): number {
  return query(db, countRow, 'SELECT max(id) AS highest FROM frame').find()?.highest ?? 0;
}

const WANTED = `frame.id, frame.roll_id, frame.ordinal, frame.taken_edtf IS NOT NULL,
  CAST(replace(frame.taken_earliest, '-', '') AS INTEGER), CAST(replace(frame.taken_latest, '-', '') AS INTEGER),
  frame.outing_id, nullif(frame.place, '')`;

type FrameTuple = [
  id: number,
  rollId: number | null,
  ordinal: number,
  dated: number,
  earliest: number | null,
  latest: number | null,
  outing: number | null,
  place: string | null,
];

function readSlice(db: WritableDb, state: Kept): void {
  const after = state.readTo ?? 0;
  const rows = db
    .prepare<[number], FrameTuple>(`SELECT ${WANTED} FROM frame WHERE id > ? ORDER BY id LIMIT ${SLICE}`)
    .raw()
    .all(after);
  for (const row of rows) take(state, row);
  const last = rows.at(-1)?.[0] ?? Number.MAX_SAFE_INTEGER;
  const tags = db
    .prepare<[number, number], [number, number]>(
      'SELECT frame_id, tag_id FROM frame_tag WHERE frame_id > ? AND frame_id <= ?',
    )
    .raw()
    .all(after, last);
  for (const [frameId, tagId] of tags) linkTag(state.columns, frameId, tagId);
  state.readTo = rows.length < SLICE ? null : last;
}

function readStale(db: WritableDb, state: Kept): void {
  const facts = db.prepare('SELECT one FROM temp.stale_facts').pluck().get();
  if (facts !== undefined) {
    state.columns.rolls = readRollFacts(db);
    command(db, 'DELETE FROM temp.stale_facts')();
  }
  const rows = db
    .prepare<[], FrameTuple>(
      `SELECT stale_frames.frame_id, ${WANTED.slice(WANTED.indexOf(',') + 1)}
       FROM temp.stale_frames LEFT JOIN frame ON frame.id = stale_frames.frame_id`,
    )
    .raw()
    .all();
  if (rows.length === 0) return;
  for (const row of rows) take(state, row);
  const tags = db
    .prepare<[], [number, number]>(
      `SELECT frame_tag.frame_id, frame_tag.tag_id FROM temp.stale_frames
       JOIN frame_tag ON frame_tag.frame_id = stale_frames.frame_id`,
    )
    .raw()
    .all();
  for (const [frameId, tagId] of tags) linkTag(state.columns, frameId, tagId);
  command(db, 'DELETE FROM temp.stale_frames')();
}

function take({ columns, placeNumbers }: Kept, row: FrameTuple): void {
  const [id, rollId, ordinal, dated, earliest, latest, outing, place] = row;
  if (id >= columns.size) grow(columns, id);
  columns.rollOf[id] = rollId ?? 0;
  columns.ordinal[id] = ordinal ?? 0;
  columns.earliest[id] = dated ? (earliest ?? OPEN_START) : 0;
  columns.latest[id] = dated ? (latest ?? OPEN_END) : 0;
  columns.outingOf[id] = outing ?? 0;
  columns.placeOf[id] = place === null ? 0 : numberOfPlace(columns, placeNumbers, place);
  columns.tagHead[id] = 0;
  if (rollId === null) columns.all.remove(id);
  else columns.all.add(id);
}

function numberOfPlace(columns: FrameColumns, numbers: Map<string, number>, place: string): number {
  const known = numbers.get(place);
  if (known !== undefined) return known;
  const number = columns.places.push(place) - 1;
  numbers.set(place, number);
  return number;
}

function linkTag(columns: FrameColumns, frameId: number, tagId: number): void {
  if (frameId >= columns.size) return;
  const link = columns.tagEnd;
  if (link + 2 > columns.tagLinks.length) {
    const longer = new Int32Array(columns.tagLinks.length * 2);
    longer.set(columns.tagLinks);
    columns.tagLinks = longer;
  }
  columns.tagLinks[link] = tagId;
  columns.tagLinks[link + 1] = columns.tagHead[frameId] ?? 0;
  columns.tagEnd = link + 2;
  columns.tagHead[frameId] = link;
}

function grow(columns: FrameColumns, id: number): void {
  const size = Math.ceil((id + 1) * 1.25) + 64;
  const longer = (column: Int32Array) => {
    const made = new Int32Array(size);
    made.set(column);
    return made;
  };
  columns.rollOf = longer(columns.rollOf);
  columns.ordinal = longer(columns.ordinal);
  columns.earliest = longer(columns.earliest);
  columns.latest = longer(columns.latest);
  columns.outingOf = longer(columns.outingOf);
  columns.placeOf = longer(columns.placeOf);
  columns.tagHead = longer(columns.tagHead);
  const all = new FrameSet(size);
  all.words.set(columns.all.words);
  columns.all = all;
  columns.size = size;
}
