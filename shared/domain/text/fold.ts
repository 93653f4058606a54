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
 * First and last code point of what a search leaves out: accents of the European scripts, the vowel points of Hebrew
 * and Arabic, and signs that have no width. Marks of other scripts stay: there they are letters (Japanese voicing
 * marks, Indic vowels). Source: Unicode block and code charts; from memory.
 */
const DROPPED_RANGES: readonly (readonly [number, number])[] = [
  [0x0300, 0x036f],
  [0x1ab0, 0x1aff],
  [0x1dc0, 0x1dff],
  [0x20d0, 0x20ff],
  [0xfe20, 0xfe2f],
  [0x0591, 0x05bd],
  [0x05bf, 0x05bf],
  [0x05c1, 0x05c2],
  [0x05c4, 0x05c5],
  [0x05c7, 0x05c7],
  [0x0610, 0x061a],
  [0x0640, 0x0640],
  [0x064b, 0x0655],
  [0x0670, 0x0670],
  [0x00ad, 0x00ad],
  [0x061c, 0x061c],
  [0x180e, 0x180e],
  [0x200b, 0x200f],
  [0x202a, 0x202e],
  [0x2060, 0x2064],
  [0x2066, 0x2069],
  [0xfe00, 0xfe0f],
  [0xfeff, 0xfeff],
];

const DROPPED_MARKS = new RegExp(
  `[${DROPPED_RANGES.map(([first, last]) => `\\u{${first.toString(16)}}-\\u{${last.toString(16)}}`).join('')}]`,
  'gu',
);

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
