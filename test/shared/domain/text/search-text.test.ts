import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { matchQuery, searchText } from '../../../../shared/domain/text/search-text.ts';

/** Whether a text is found by words, by the real full-text index. */
function finds(text: string, words: string): boolean {
  const db = new Database(':memory:');
  db.exec(`CREATE VIRTUAL TABLE words USING fts5 (text, tokenize = 'unicode61 remove_diacritics 2')`);
  db.prepare('INSERT INTO words VALUES (?)').run(searchText(text));
  const query = matchQuery(words);
  const found =
    query === null ? 0 : db.prepare('SELECT count(*) FROM words WHERE words MATCH ?').pluck().get(query);
  db.close();
  return found === 1;
}

describe('words of a search', () => {
  it.each([
    ['Łódź', 'lodz'],
    ['Straße', 'strasse'],
    ['Øresund', 'oresund'],
    ['Übung', 'ÜBUNG'],
    ['zu\u0308rich', 'Zürich'],
    ['京都の秋', '京都'],
    ['京都の秋', 'の秋'],
    ['第12巻', '12'],
    ['Москва зимой', 'москва'],
    ['Ελλάδα', 'ελλαδα'],
    ['Harbour at dusk', 'harb'],
    ['2026-001', '2026-001'],
    ['roll C-123/A07', 'c-123/a07'],
    ["it's late", "it's"],
  ])('finds %s by %s', (text, words) => {
    expect(finds(text, words)).toBe(true);
  });

  it.each([
    ['Harbour at dusk', 'dusk harbour snow'],
    ['Harbour at dusk', '"harb"'],
    ['京都の秋', '都京'],
    ['Harbour', 'NOT'],
  ])('does not find %s by %s', (text, words) => {
    expect(finds(text, words)).toBe(false);
  });

  it.each([
    '"',
    '""',
    '*',
    'a AND',
    'NEAR(',
    'caption:',
    '-x',
    '^',
    '{a b}',
    '\u0000',
    '"""a',
    "'; DROP TABLE words",
  ])('takes %j as words, never as a command of the index', (words) => {
    expect(() => finds('anything', words)).not.toThrow();
  });

  it('is no query when there is no word in it', () => {
    expect(matchQuery('  -- "" ')).toBe(null);
  });
});
