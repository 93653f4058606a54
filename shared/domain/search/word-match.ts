import { searchText } from '../text/search-text.ts';

/** `text` as fields compare it: folded, whatever is neither letter nor figure a blank. */
export function foldWords(text: string): string {
  return searchText(text.replaceAll('×', 'x'))
    .replace(/[^\p{L}\p{N}\p{M}\p{Co}]+/gu, ' ')
    .trim();
}

/** Whether a folded text (by `foldWords`) is `sought` when `whole`, else has it at the beginning of one of its words. */
export function hasWords(folded: string, sought: string, whole: boolean): boolean {
  return whole ? folded === sought : ` ${folded}`.includes(` ${sought}`);
}
