import type { WritableDb } from '../db/query.ts';
import { readAhead, watchColumns } from './frame-columns.ts';
import { readSomeStaleWords, watchWords } from './words.ts';

/** Time between looks for frames whose words changed. Our choice: soon after an import, and no load at rest. */
const LOOK_EVERY_MS = 1000;

/**
 * Keeps what searches need up to date: notes changes by triggers, and reads words and columns in the background in
 * short slices, so that a first search over a large archive need not wait for all of it. Answers what stops it.
 */
export function watchSearch(db: WritableDb): () => void {
  watchWords(db);
  watchColumns(db);
  let timer: NodeJS.Timeout;
  const later = (ms: number) => {
    timer = setTimeout(look, ms);
    timer.unref();
  };
  const look = () => {
    const more = db.open && !db.inTransaction && (readSomeStaleWords(db) || readAhead(db));
    later(more ? 5 : LOOK_EVERY_MS);
  };
  later(LOOK_EVERY_MS);
  return () => clearTimeout(timer);
}
