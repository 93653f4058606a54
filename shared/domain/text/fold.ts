/**
 * Letters that have no decomposition in Unicode but that people type without their stroke or ligature.
 * Source: CLDR transform Latin-ASCII (the rows for these letters; from memory, not looked up); Greek final sigma
 * as in Unicode CaseFolding.txt (03C2 folds to 03C3; from memory).
 */
const PLAIN_LETTERS: Readonly<Record<string, string>> = {
  æ: 'ae',
  ð: 'd',
  ø: 'o',
  þ: 'th',
  ß: 'ss',
  đ: 'd',
  ħ: 'h',
  ı: 'i',
  ĸ: 'q',
  ł: 'l',
  ŋ: 'n',
  œ: 'oe',
  ŧ: 't',
  ƀ: 'b',
  ɓ: 'b',
  ƈ: 'c',
  ɖ: 'd',
  ɗ: 'd',
  ƒ: 'f',
  ɠ: 'g',
  ɨ: 'i',
  ɩ: 'i',
  ƙ: 'k',
  ƚ: 'l',
  ɲ: 'n',
  ƞ: 'n',
  ƥ: 'p',
  ƭ: 't',
  ʈ: 't',
  ʋ: 'v',
  ƴ: 'y',
  ƶ: 'z',
  ǥ: 'g',
  ɑ: 'a',
  ς: 'σ',
};

/** Signs that keyboards and word processors exchange for one another. Our choice: a search should not care. */
const PLAIN_SIGNS: Readonly<Record<string, string>> = {
  '‘': "'",
  '’': "'",
  ʼ: "'",
  '“': '"',
  '”': '"',
  '‐': '-',
  '‑': '-',
  '‒': '-',
  '–': '-',
  '—': '-',
  '−': '-',
};

/**
 * Accents of the European scripts, the vowel points of Hebrew and Arabic, and signs that have no width.
 * Marks of other scripts stay: there they are letters (Japanese voicing marks, Indic vowels).
 */
const DROPPED_MARKS =
  /[\u0300-\u036f\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20ff\ufe20-\ufe2f\u0591-\u05bd\u05bf\u05c1\u05c2\u05c4\u05c5\u05c7\u0610-\u061a\u0640\u064b-\u0655\u0670\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufe00-\ufe0f\ufeff]/gu;

/** Letters and signs of the two tables, as one search. */
const EXCHANGED = new RegExp(`[${Object.keys({ ...PLAIN_LETTERS, ...PLAIN_SIGNS }).join('')}]`, 'gu');

/**
 * `text` as a search compares it: both the sought and the stored text go through this. Small letters, no accents,
 * strokes and ligatures opened, full-width forms narrow, runs of blanks one blank, ends trimmed. The same on every
 * system and in every language setting. Folding twice changes nothing.
 */
export function foldText(text: string): string {
  let folded = text;
  // A capital may hide a letter that only decomposes once it is small, so the passes run until nothing moves.
  for (;;) {
    const next = foldOnce(folded);
    if (next === folded) return folded;
    folded = next;
  }
}

function foldOnce(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .normalize('NFKD')
    .replace(DROPPED_MARKS, '')
    .replace(EXCHANGED, (sign) => PLAIN_LETTERS[sign] ?? PLAIN_SIGNS[sign] ?? sign)
    .replace(/\s+/gu, ' ')
    .trim()
    .normalize('NFC');
}
