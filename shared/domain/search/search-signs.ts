/** Signs that open or close a quotation, whatever the keyboard makes of it. */
const QUOTES = '"“”„';

/** Words that join parts and so can't be sought without quotation marks. */
export const JOINING_WORDS: readonly string[] = ['and', 'or', 'not'];

/** What ends a word: blanks, signs that can't be seen (they have no place in an index), brackets and quotation marks. */
const ENDS_WORD = new RegExp(`[\\s\\p{Cc}()${QUOTES}]`, 'u');

/** A name and a colon at the start of a word make a field term. */
const FIELD_START = /^([\p{L}][\p{L}-]*):/u;

/** Whether a sign parts words. */
export function isBlank(sign: string): boolean {
  return /[\s\p{Cc}]/u.test(sign);
}

export function isQuote(sign: string): boolean {
  return sign !== '' && QUOTES.includes(sign);
}

export function endsWord(sign: string): boolean {
  return sign === '' || ENDS_WORD.test(sign);
}

/** The name before the colon when `text` starts a field term; null when it is a plain word. */
export function findFieldStart(text: string): string | null {
  return FIELD_START.exec(text)?.[1] ?? null;
}

/** Whether something of `text` stands in a word index. */
export function hasLetters(text: string): boolean {
  return /[\p{L}\p{N}]/u.test(text);
}
