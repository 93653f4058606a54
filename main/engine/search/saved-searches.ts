import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { shownAs } from '../../../shared/api/methods/search-methods.ts';
import { command, query, sqliteCode } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { requireSearch } from './understand.ts';

const savedRow = z.object({ id: z.number(), name: z.string(), query: z.string(), shownAs });

export const SAVED_SEARCH_HANDLERS: HandlersOf<'searches.list' | 'searches.add' | 'searches.remove'> = {
  'searches.list': ({ db }) =>
    query(
      db,
      savedRow,
      'SELECT id, name, query, shown_as AS shownAs FROM saved_search ORDER BY fold(name), id',
    ).all(),

  'searches.add': ({ db, undo, now }, { name, query: text, shownAs: shown }) => {
    requireSearch(text);
    return undo.record(`Keep the search ${name}`, () => {
      try {
        const added = command(
          db,
          'INSERT INTO saved_search (name, query, shown_as, created_at) VALUES (:name, :text, :shown, :now)',
        )({ name, text, shown, now: now().toISOString() });
        return { id: added.id };
      } catch (error) {
        if (sqliteCode(error) === 'SQLITE_CONSTRAINT_UNIQUE')
          throw appError('search_name_taken', { name }, error);
        throw error;
      }
    });
  },

  'searches.remove': ({ db, undo }, { id }) => {
    const saved = query(
      db,
      savedRow,
      'SELECT id, name, query, shown_as AS shownAs FROM saved_search WHERE id = :id',
    ).find({ id });
    if (!saved) throw appError('search_not_found', { name: String(id) });
    undo.record(`Remove the search ${saved.name}`, () =>
      command(db, 'DELETE FROM saved_search WHERE id = :id')({ id }),
    );
    return {};
  },
};
