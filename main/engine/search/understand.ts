import { appError } from '../../../shared/api/errors.ts';
import type { Output } from '../../../shared/api/contract.ts';
import { findNearestWord } from '../../../shared/domain/search/nearest-word.ts';
import { parseSearch } from '../../../shared/domain/search/parse-search.ts';
import { printSearch } from '../../../shared/domain/search/print-search.ts';
import type { SearchTree } from '../../../shared/domain/search/search-tree.ts';
import { foldWords, hasWords } from '../../../shared/domain/search/word-match.ts';
import { describeSearch, describeSearchMistake } from '../../../shared/text/describe-search.ts';
import type { ReadableDb } from '../db/query.ts';
import { TEXT_TERMS } from './term-sql.ts';

/** The tree of a search. @throws {AppError} search_not_understood, pointing at the mistake */
export function requireSearch(query: string): SearchTree {
  const parsed = parseSearch(query);
  if (parsed.ok) return parsed.tree;
  const { at, length, reason, suggestion } = parsed.mistake;
  const details = { query: query.slice(0, 1000), at, length, reason: describeSearchMistake(reason) };
  throw appError('search_not_understood', { ...details, suggestion });
}

/** Fields whose values are few names, so that one that is not there is likely mistyped. */
const NAMED_FIELDS = ['stock', 'maker', 'camera', 'lens', 'tag', 'bath', 'binder', 'fault'] as const;

type UnknownName = Output<'search.understand'>['unknownNames'][number];

function unknownNames(db: ReadableDb, tree: SearchTree): UnknownName[] {
  if (tree.kind === 'not') return unknownNames(db, tree.part);
  if (tree.kind === 'all' || tree.kind === 'any') return tree.parts.flatMap((part) => unknownNames(db, part));
  if (tree.kind !== 'field') return [];
  const field = NAMED_FIELDS.find((name) => name === tree.field);
  if (field === undefined) return [];
  const names = db.prepare<[], string>(TEXT_TERMS[field].texts).pluck().all();
  return tree.values.flatMap((value) => {
    if (value.kind !== 'text') return [];
    const sought = foldWords(value.text);
    if (names.some((name) => hasWords(foldWords(name), sought, value.whole))) return [];
    return [{ field, name: value.text, suggestion: findNearestWord(value.text, names) }];
  });
}

/** How a search is understood: in words and as filters, or where it is not. */
export function understandSearch(db: ReadableDb, query: string): Output<'search.understand'> {
  const parsed = parseSearch(query);
  if (!parsed.ok) {
    const mistake = { ...parsed.mistake, reason: describeSearchMistake(parsed.mistake.reason) };
    return { mistake, words: null, printed: null, filters: [], unknownNames: [] };
  }
  const { tree } = parsed;
  const parts = tree.kind === 'all' ? tree.parts : tree.kind === 'everything' ? [] : [tree];
  return {
    mistake: null,
    words: describeSearch(tree),
    printed: printSearch(tree),
    filters: parts.map((part) => ({ text: printSearch(part), words: describeSearch(part) })),
    unknownNames: unknownNames(db, tree),
  };
}
