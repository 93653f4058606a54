import { findNearestWord } from './nearest-word.ts';
import { type RawValue, readValue } from './read-value.ts';
import { FIELD_NAMES, findField } from './search-fields.ts';
import { endsWord, findFieldStart, hasLetters, isBlank, isQuote } from './search-signs.ts';
import {
  type FieldValue,
  joinParts,
  type MistakeReason,
  type SearchMistake,
  type SearchTree,
} from './search-tree.ts';

/** The longest search that is read. Our choice: more than anyone types, little enough to read at every key. */
const LONGEST_SEARCH = 1000;

/** Brackets and "not" within one another. Our choice: below what the stack takes. */
const DEEPEST = 50;

type ParsedSearch =
  { readonly ok: true; readonly tree: SearchTree } | { readonly ok: false; readonly mistake: SearchMistake };

/** Leaves the reading at the first mistake; never leaves this file. */
class Mistaken extends Error {
  readonly mistake: SearchMistake;
  constructor(mistake: SearchMistake) {
    super(mistake.reason);
    this.mistake = mistake;
  }
}

/**
 * Reads a search: words (each may go on), "phrases in quotation marks", `field:value` with `a,b` for either and
 * `a..b` for a range, `not`, `or`, brackets. Parts beside each other must all hold. Signs without a letter or figure
 * are passed over. Never throws.
 */
export function parseSearch(text: string): ParsedSearch {
  if (text.length > LONGEST_SEARCH) {
    const length = text.length - LONGEST_SEARCH;
    return { ok: false, mistake: { at: LONGEST_SEARCH, length, reason: 'search_too_long', suggestion: '' } };
  }
  try {
    return { ok: true, tree: new Reading(text).whole() };
  } catch (error) {
    if (error instanceof Mistaken) return { ok: false, mistake: error.mistake };
    throw error;
  }
}

class Reading {
  readonly #text: string;
  #at = 0;
  #depth = 0;

  constructor(text: string) {
    this.#text = text;
  }

  whole(): SearchTree {
    const tree = this.#any();
    if (this.#at < this.#text.length) this.#fail(this.#at, 1, 'bracket_not_opened', '');
    return tree ?? { kind: 'everything' };
  }

  #fail(at: number, length: number, reason: MistakeReason, suggestion: string | null = null): never {
    throw new Mistaken({ at, length, reason, suggestion });
  }

  #sign(at = this.#at): string {
    return this.#text.charAt(at);
  }

  #skipBlanks(): void {
    while (this.#at < this.#text.length && isBlank(this.#sign())) this.#at += 1;
  }

  /** The unquoted word that starts here, not taken. */
  #peekWord(): string {
    let end = this.#at;
    while (!endsWord(this.#sign(end))) end += 1;
    return this.#text.slice(this.#at, end);
  }

  #takeJoining(word: 'and' | 'or' | 'not'): boolean {
    this.#skipBlanks();
    if (this.#peekWord().toLowerCase() !== word) return false;
    this.#at += word.length;
    return true;
  }

  #any(): SearchTree | null {
    const first = this.#all();
    const parts = [first];
    for (;;) {
      this.#skipBlanks();
      const at = this.#at;
      if (!this.#takeJoining('or')) break;
      if (parts.at(-1) === null) this.#fail(at, 2, 'nothing_beside_or', '"or"');
      parts.push(this.#all());
      if (parts.at(-1) === null) this.#fail(at, 2, 'nothing_beside_or', '"or"');
    }
    if (first === null) return null;
    return joinParts(
      'any',
      parts.filter((part) => part !== null),
    );
  }

  /** Parts that must all hold; null when there is none up to "or", a closing bracket or the end. */
  #all(): SearchTree | null {
    const parts: SearchTree[] = [];
    for (;;) {
      this.#skipBlanks();
      if (this.#at >= this.#text.length || this.#sign() === ')') break;
      if (this.#peekWord().toLowerCase() === 'or') break;
      if (this.#takeJoining('and')) continue;
      const part = this.#part();
      if (part !== null) parts.push(part);
    }
    return parts.length === 0 ? null : joinParts('all', parts);
  }

  /** One part, or null for signs that say nothing. */
  #part(): SearchTree | null {
    const at = this.#at;
    if (this.#takeJoining('not')) return this.#not(at);
    if (this.#sign() === '(') return this.#bracket(at);
    if (isQuote(this.#sign())) {
      const text = this.#quotation().trim();
      return hasLetters(text) ? { kind: 'phrase', text } : null;
    }
    const name = findFieldStart(this.#peekWord());
    if (name !== null) return this.#field(name);
    const text = this.#peekWord();
    this.#at += text.length;
    return hasLetters(text) ? { kind: 'word', text } : null;
  }

  #deeper<Result>(at: number, work: () => Result): Result {
    this.#depth += 1;
    if (this.#depth > DEEPEST) this.#fail(at, this.#text.length - at, 'search_too_deep');
    const result = work();
    this.#depth -= 1;
    return result;
  }

  #not(at: number): SearchTree {
    return this.#deeper(at, () => {
      this.#skipBlanks();
      const next = this.#peekWord().toLowerCase();
      const ends = this.#at >= this.#text.length || this.#sign() === ')' || next === 'or' || next === 'and';
      const part = ends ? null : this.#part();
      if (part === null) this.#fail(at, 3, 'nothing_after_not', '"not"');
      return { kind: 'not', part };
    });
  }

  #bracket(at: number): SearchTree {
    return this.#deeper(at, () => {
      this.#at += 1;
      const inner = this.#any();
      if (this.#sign() !== ')') this.#fail(at, 1, 'bracket_not_closed', '');
      this.#at += 1;
      if (inner === null) this.#fail(at, this.#at - at, 'bracket_empty', '');
      return inner;
    });
  }

  /** What stands in quotation marks from here; takes it. Signs that can't be seen become blanks. */
  #quotation(): string {
    const start = this.#at;
    let end = start + 1;
    while (end < this.#text.length && !isQuote(this.#sign(end))) end += 1;
    if (end >= this.#text.length) {
      const rest = this.#text.slice(start);
      this.#fail(start, rest.length, 'quote_not_closed', `${rest.trimEnd()}"`);
    }
    this.#at = end + 1;
    return this.#text.slice(start + 1, end).replace(/\p{Cc}/gu, ' ');
  }

  #field(typed: string): SearchTree {
    const start = this.#at;
    const field = findField(typed);
    if (field === null) {
      const near = findNearestWord(typed, FIELD_NAMES);
      const word = this.#peekWord();
      if (near !== null) this.#fail(start, typed.length, 'field_unknown', near);
      this.#fail(start, word.length, 'field_unknown', `"${word}"`);
    }
    this.#at += typed.length + 1;
    const values: FieldValue[] = [];
    for (;;) {
      const at = this.#at;
      const read = readValue(this.#value(), field);
      if (!read.ok) {
        // Where nothing stands, the whole term is pointed at.
        const from = this.#at === at ? start : at;
        const suggestion =
          this.#at === at && read.suggestion !== null ? `${typed}:${quoteChoice(read.suggestion)}` : null;
        const instead = this.#at === at ? suggestion : read.suggestion && quoteChoice(read.suggestion);
        this.#fail(from, this.#at - from, read.reason, instead);
      }
      values.push(read.value);
      if (this.#sign() !== ',') break;
      this.#at += 1;
    }
    return { kind: 'field', field: field.name, values };
  }

  /** One value up to a comma, a blank or a bracket; takes it. */
  #value(): RawValue {
    let text = '';
    let hasQuotes = false;
    const quoted: boolean[] = [];
    for (;;) {
      const sign = this.#sign();
      const isOpening = isQuote(sign);
      if (!isOpening && (endsWord(sign) || sign === ',')) break;
      const piece = isOpening ? this.#quotation() : sign;
      if (isOpening) hasQuotes = true;
      else this.#at += 1;
      text += piece;
      for (let at = 0; at < piece.length; at += 1) quoted.push(isOpening);
    }
    return { text, quoted, hasQuotes };
  }
}

function quoteChoice(text: string): string {
  return /\s/.test(text) ? `"${text}"` : text;
}
