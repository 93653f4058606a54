/** The kinds of file a sheet is saved as. */
export const FORMATS = {
  pdf: { label: 'PDF', ending: 'pdf' },
  png: { label: 'PNG', ending: 'png' },
  tiff: { label: 'TIFF', ending: 'tif' },
} as const;
export type SheetFormat = keyof typeof FORMATS;

/** Names of files end well below what any system takes, so that a number and an ending still go in. Our choice. */
const LONGEST_NAME = 80;

/** A name for the file of a sheet that every system takes: `2024-027.pdf`, `Binder 7, 12 rolls.png`. */
export function suggestName(words: string, format: SheetFormat): string {
  const plain = words
    // Signs that one system or another forbids in names, or gives a meaning.
    .replace(/[\p{Cc}<>:"/\\|?*]+/gu, '-')
    .replace(/^[.\s]+|[.\s]+$/g, '')
    .slice(0, LONGEST_NAME);
  return `${plain === '' ? 'contact sheet' : plain}.${FORMATS[format].ending}`;
}
