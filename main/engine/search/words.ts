import { z } from 'zod';
import { searchText } from '../../../shared/domain/text/search-text.ts';
import { OUTING_OF_FRAME } from '../film/frame-rows.ts';
import { command, inTransaction, query, type WritableDb } from '../db/query.ts';

/** How many frames are read again in one go; bounds the memory of a first reading of a large archive. */
const AT_ONCE = 5000;

/** The same in the background, where other calls wait for it. Our choice: some 20 ms. */
const IN_BETWEEN = 400;

/**
 * Notes which frames' words changed, by triggers; the words themselves are read when somebody searches. So an import
 * of thousands of frames does no work twice, and a crash loses nothing: the note is in the same transaction.
 */
export function watchWords(db: WritableDb): void {
  db.exec(`
    ${stale('frame_added', 'INSERT ON main.frame', 'SELECT NEW.id')}
    ${stale('frame_gone', 'DELETE ON main.frame', 'SELECT OLD.id')}
    ${stale('frame_changed', 'UPDATE OF caption, place, note, outing_id, label, lens_id, filter ON main.frame', 'SELECT NEW.id')}
    ${stale('tag_added', 'INSERT ON main.frame_tag', 'SELECT NEW.frame_id')}
    ${stale('tag_gone', 'DELETE ON main.frame_tag', 'SELECT OLD.frame_id')}
    ${stale('roll_changed', 'UPDATE OF number, title, note, stock_id, camera_id ON main.roll', 'SELECT id FROM frame WHERE roll_id = NEW.id')}
    ${stale('stock_changed', 'UPDATE OF name, maker ON main.stock', 'SELECT frame.id FROM frame JOIN roll ON roll.id = frame.roll_id WHERE roll.stock_id = NEW.id')}
    ${stale('camera_changed', 'UPDATE OF name ON main.camera', 'SELECT frame.id FROM frame JOIN roll ON roll.id = frame.roll_id WHERE roll.camera_id = NEW.id')}
    ${stale('outing_changed', 'UPDATE OF title, place, note ON main.outing', 'SELECT frame.id FROM outing_roll JOIN frame ON frame.roll_id = outing_roll.roll_id WHERE outing_roll.outing_id = NEW.id')}
    ${stale('outing_on_roll', 'INSERT ON main.outing_roll', 'SELECT id FROM frame WHERE roll_id = NEW.roll_id')}
    ${stale('outing_of_roll', 'UPDATE ON main.outing_roll', 'SELECT id FROM frame WHERE roll_id = NEW.roll_id')}
    ${stale('outing_off_roll', 'DELETE ON main.outing_roll', 'SELECT id FROM frame WHERE roll_id = OLD.roll_id')}
  `);
}

function stale(name: string, event: string, frames: string): string {
  return `CREATE TEMP TRIGGER words_${name} AFTER ${event}
    BEGIN INSERT INTO stale_words SELECT * FROM (${frames}) WHERE true ON CONFLICT DO NOTHING; END;`;
}

const wordsRow = z.object({
  id: z.number(),
  caption: z.string().nullable(),
  place: z.string().nullable(),
  tags: z.string().nullable(),
  roll: z.string().nullable(),
  outing: z.string().nullable(),
  notes: z.string().nullable(),
});

/** Reads the words of every frame whose words changed since the last search. */
export function readStaleWords(db: WritableDb): void {
  while (hasStaleWords(db)) readBatch(db, AT_ONCE);
}

/** Reads the words of some of them; false when there are none. */
export function readSomeStaleWords(db: WritableDb): boolean {
  const some = hasStaleWords(db);
  if (some) readBatch(db, IN_BETWEEN);
  return some;
}

const staleRow = z.object({ frame_id: z.number() });

function hasStaleWords(db: WritableDb): boolean {
  return query(db, staleRow, `SELECT frame_id FROM stale_words LIMIT 1`).find() !== null;
}

function readBatch(db: WritableDb, frames: number): void {
  const batch = `SELECT frame_id FROM stale_words ORDER BY frame_id LIMIT ${frames}`;
  const words = query(
    db,
    wordsRow,
    `SELECT frame.id, frame.caption,
       concat_ws(' ', frame.place, outing.place) AS place,
       (SELECT group_concat(tag.name, ' ') FROM frame_tag JOIN tag ON tag.id = frame_tag.tag_id
         WHERE frame_tag.frame_id = frame.id) AS tags,
       concat_ws(' ', roll.number, roll.title, stock.name, stock.maker, camera.name, lens.name) AS roll,
       outing.title AS outing,
       concat_ws(' ', frame.note, roll.note, frame.filter, outing.note) AS notes
     FROM frame JOIN roll ON roll.id = frame.roll_id
     LEFT JOIN stock ON stock.id = roll.stock_id
     LEFT JOIN camera ON camera.id = roll.camera_id
     LEFT JOIN lens ON lens.id = frame.lens_id
     LEFT JOIN outing ON outing.id = ${OUTING_OF_FRAME}
     WHERE frame.id IN (${batch})`,
  );
  const drop = command(db, `DELETE FROM frame_words WHERE rowid IN (${batch})`);
  const add = command(
    db,
    `INSERT INTO frame_words (rowid, caption, place, tags, roll, outing, notes)
     VALUES (:id, :caption, :place, :tags, :roll, :outing, :notes)`,
  );
  const done = command(db, `DELETE FROM stale_words WHERE frame_id IN (${batch})`);
  const text = (value: string | null) => (value === null ? '' : searchText(value));
  inTransaction(db, () => {
    drop();
    for (const row of words.all()) {
      add({
        id: row.id,
        caption: text(row.caption),
        place: text(row.place),
        tags: text(row.tags),
        roll: text(row.roll),
        outing: text(row.outing),
        notes: text(row.notes),
      });
    }
    done();
  });
}
