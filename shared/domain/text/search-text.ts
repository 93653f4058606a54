import { foldText } from './fold.ts';

/**
 * Scripts that write words without blanks between them. Each sign of theirs is a word to the index, and a run of them
 * in a query is a phrase, so that any part of a Japanese or Chinese name is found.
 */
const UNSPACED = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}ー々〆]/gu;

/** `text` as the word index keeps it: folded, signs of unspaced scripts each a word. */
export function searchText(text: string): string {
  return foldText(text).replace(UNSPACED, ' $& ').replace(/\s+/g, ' ').trim();
}

/**
 * The words of a person as a query of the full-text index (FTS5): every word must be there, each may go on
 * (`harb` finds harbour), words in quotation marks must stand together as they are. Null when there is no word in it.
 */
export function matchQuery(words: string): string | null {
  const terms = [...foldText(words).matchAll(/"([^"]*)"?|[^\s"]+/gu)].flatMap((match) => {
    const quoted = match[1];
    const term = searchText(quoted ?? match[0]).replaceAll('"', ' ');
    if (!/[\p{L}\p{N}]/u.test(term)) return [];
    return [quoted === undefined ? `"${term}"*` : `"${term}"`];
  });
  return terms.length === 0 ? null : terms.join(' AND ');
}
