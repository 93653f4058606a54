/**
 * Words that people, labs and scanner programs put into file names, in small letters.
 * Our choice, collected from the test names and general knowledge of the languages; no published list was found.
 */
const ROLL_WORDS = [
  'roll',
  'film',
  'filme',
  'rolle',
  'rollo',
  'rouleau',
  'pellicule',
  'pellicola',
  'rulle',
  'rolka',
  'плёнка',
  'пленка',
  'ролик',
  'フィルム',
  'ロール',
];
const FRAME_WORDS = [
  'frame',
  'frm',
  'fr',
  'exp',
  'exposure',
  'negative',
  'negativ',
  'negatif',
  'neg',
  'bild',
  'vue',
  'fotogramma',
  'fotograma',
  'klatka',
  'kader',
  'кадр',
  'コマ',
];
const STRIP_WORDS = ['strip', 'streifen', 'bande', 'striscia', 'tira', 'pasek', 'полоса', 'ストリップ'];
// Not "sheet": sheet film is numbered so.
const PAGE_WORDS = [
  'sleeve',
  'page',
  'contact',
  'contactsheet',
  'seite',
  'blatt',
  'kontakt',
  'planche',
  'лист',
];

/** Words before the running number of a camera or a scanner program. */
const COUNTER_WORDS = [
  'img',
  'image',
  'imgp',
  'mg',
  'dsc',
  'dscf',
  'dscn',
  'sdim',
  'cimg',
  'pict',
  'pic',
  'picture',
  'scan',
  'scn',
  'scanned',
  'photo',
  'foto',
  'file',
  'untitled',
  'unbenannt',
  'capture',
  'p',
];

/** What a file shows of its frame, when the name says so. */
export type VersionKind = 'scan' | 'raw' | 'positive' | 'infrared' | 'small' | 'copy' | 'rescan';

const VERSION_WORDS: Readonly<Record<string, VersionKind>> = {
  neg: 'scan',
  negative: 'scan',
  negativ: 'scan',
  raw: 'raw',
  linear: 'raw',
  pos: 'positive',
  positive: 'positive',
  positiv: 'positive',
  inverted: 'positive',
  ir: 'infrared',
  infrared: 'infrared',
  infrarot: 'infrared',
  small: 'small',
  thumb: 'small',
  thumbnail: 'small',
  preview: 'small',
  web: 'small',
  lowres: 'small',
  copy: 'copy',
  kopie: 'copy',
  copie: 'copy',
  copia: 'copy',
  копия: 'copy',
  edit: 'copy',
  edited: 'copy',
  final: 'copy',
  rescan: 'rescan',
};

/** Ends that say nothing about the frame. */
const EXTENSIONS =
  'jpe?g|jpe|jfif|tiff?|btf|png|dng|webp|avif|hei[cf]|jp2|j2k|jxl|gif|bmp|psd|psb|raw|nef|cr[23w]|arw|raf|orf|rw2|pef|fff|3fr|iiq|xmp';

/** The source of a regular expression that takes any of `words`. The longest come first, so that `fr` does not take `frame`. */
function anyOf(words: readonly string[]): string {
  return [...words].sort((a, b) => b.length - a.length).join('|');
}

const NOT_BEFORE = '(?<![\\p{L}\\p{N}])';
const NOT_AFTER = '(?![\\p{L}\\p{N}])';
const JOINED = '[\\s_.#:-]*';

/** A roll word and the number behind it: `roll_036`, `roll12`, `roll-0042`. */
export const ROLL_PATTERN = new RegExp(`${NOT_BEFORE}(?:${anyOf(ROLL_WORDS)})${JOINED}(\\d+)`, 'iu');

/** A frame word and the label behind it: `frame 7`, `frame-07A`, `кадр 03`. */
export const FRAME_PATTERN = new RegExp(
  `${NOT_BEFORE}(?:${anyOf(FRAME_WORDS)})${JOINED}(\\d{1,3}[A-Z]?)${NOT_AFTER}`,
  'iu',
);

/** The word for a strip, with its number or without. */
export const STRIP_PATTERN = new RegExp(
  `${NOT_BEFORE}(?:${anyOf(STRIP_WORDS)})${JOINED}(\\d+)?${NOT_AFTER}`,
  'iu',
);

/** A word for a sleeve page or a contact sheet, with its number or without. */
export const PAGE_PATTERN = new RegExp(
  `${NOT_BEFORE}(?:${anyOf(PAGE_WORDS)})${JOINED}(?:\\d+)?${NOT_AFTER}`,
  'iu',
);

/** A word for the version of a file, standing alone. */
export const VERSION_PATTERN = new RegExp(
  `${NOT_BEFORE}(${anyOf(Object.keys(VERSION_WORDS))})${NOT_AFTER}`,
  'iu',
);

/** What a system or a person adds when a name is taken: `(1)`, `v2`, `copy 2`. */
export const FURTHER_PATTERN = new RegExp(
  `\\((\\d{1,3})\\)|${NOT_BEFORE}(?:v|ver|version)[._-]?(\\d{1,2})${NOT_AFTER}|(?<=copy|kopie|copie|copia|копия) (\\d{1,2})$`,
  'iu',
);

/** `scan-2` behind a frame: its second scan. */
export const SCAN_NUMBER_PATTERN = new RegExp(`${NOT_BEFORE}(?:re)?scan[\\s_-]?(\\d{1,2})${NOT_AFTER}`, 'iu');

/** A holder of sheet film with its side: `h03B`, `holder 3 B`. */
export const HOLDER_PATTERN = new RegExp(
  `${NOT_BEFORE}(?:h|holder)[\\s_-]*(\\d{1,3})[\\s_-]?([AB])${NOT_AFTER}`,
  'iu',
);

/** Known file endings, several in a row too (`07.tif.tif`). */
export const EXTENSION_PATTERN = new RegExp(`(?:\\.(?:${EXTENSIONS}))+$`, 'i');

/** The kind that a version word stands for. */
export function versionOf(word: string): VersionKind {
  return VERSION_WORDS[word.toLowerCase()] ?? 'copy';
}

/** Whether the letters before a number are those of a camera's or scanner program's counter. */
export function isCounterWord(word: string): boolean {
  return COUNTER_WORDS.includes(word.toLowerCase());
}
