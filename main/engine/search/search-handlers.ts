import { readDate } from '../db/calendar-date.ts';
import type { WritableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { findFrameSet, type Searched } from './evaluate.ts';
import { facetsOf } from './facets.ts';
import { freshColumns } from './frame-columns.ts';
import { stretchOfFrames, stretchOfPages, stretchOfRolls } from './result-pages.ts';
import { SAVED_SEARCH_HANDLERS } from './saved-searches.ts';
import { tallyFrames } from './tally.ts';
import { requireSearch, understandSearch } from './understand.ts';
import { readStaleWords } from './words.ts';

function ready(db: WritableDb): Searched {
  readStaleWords(db);
  return { db, columns: freshColumns(db) };
}

export const SEARCH_HANDLERS: HandlersOf<
  'search.frames' | 'search.find' | 'search.understand' | 'searches.list' | 'searches.add' | 'searches.remove'
> = {
  'search.frames': ({ db }, { words, cameraId, stockId, from, to, limit, after }) => {
    const tree = requireSearch(words);
    const on = ready(db);
    const found = findFrameSet(on, tree, {
      cameraId,
      stockId,
      from: from === undefined ? null : readDate(from, 'from').earliest,
      to: to === undefined ? null : readDate(to, 'to').latest,
    });
    const { total, items, next } = stretchOfFrames(on, tallyFrames(on.columns, found, []), limit, after);
    return { total, hits: items, next };
  },

  'search.find': ({ db }, { query, shownAs, facets, limit, after }) => {
    const tree = requireSearch(query);
    const on = ready(db);
    const found = findFrameSet(on, tree);
    const tally = tallyFrames(on.columns, found, facets);
    const answer = { frames: tally.ids.length, facets: facetsOf(tally), hits: [], rolls: [], pages: [] };
    switch (shownAs) {
      case 'frames': {
        const { total, items, next } = stretchOfFrames(on, tally, limit, after);
        return { ...answer, total, hits: items, next };
      }
      case 'rolls': {
        const { total, items, next } = stretchOfRolls(on, tally, limit, after);
        return { ...answer, total, rolls: items, next };
      }
      case 'pages': {
        const { total, items, next } = stretchOfPages(on, tally, limit, after);
        return { ...answer, total, pages: items, next };
      }
    }
  },

  'search.understand': ({ db }, { query }) => understandSearch(db, query),

  ...SAVED_SEARCH_HANDLERS,
};
