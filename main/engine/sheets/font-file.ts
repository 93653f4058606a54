import { readFileSync } from 'node:fs';
import { brotliDecompressSync } from 'node:zlib';
import { create } from 'fontkit';
import type { Font } from 'fontkit';
import type { Face } from '../../../shared/sheet/display-list.ts';

/** Files of the faces in assets/fonts; where they come from stands in its SOURCES.md. */
const FILES: Readonly<Record<Face, string>> = {
  sans: 'SofiaSans-Regular-cut.ttf',
  'sans-bold': 'SofiaSans-SemiBold-cut.ttf',
  japanese: 'NotoSansJP-Regular-cut.ttf.br',
  chinese: 'NotoSansSC-Regular-cut.ttf.br',
  korean: 'NotoSansKR-Regular-cut.ttf.br',
};

/** Reads faces when they are first wanted and keeps them: the large ones are rarely needed. */
export interface FontShelf {
  /** The TrueType file of a face, unpacked. */
  file(face: Face): Buffer;
  /** The face, opened. */
  font(face: Face): Font;
}

/** A shelf of the bundled faces; `fontFolder` is assets/fonts, wherever the package put it. */
export function createFontShelf(fontFolder: URL): FontShelf {
  const files = new Map<Face, Buffer>();
  const fonts = new Map<Face, Font>();
  const file = (face: Face): Buffer => {
    const kept = files.get(face);
    if (kept) return kept;
    const name = FILES[face];
    const packed = readFileSync(new URL(name, fontFolder));
    const content = name.endsWith('.br') ? brotliDecompressSync(packed) : packed;
    files.set(face, content);
    return content;
  };
  return {
    file,
    font: (face) => {
      const kept = fonts.get(face);
      if (kept) return kept;
      const font = create(file(face));
      fonts.set(face, font);
      return font;
    },
  };
}
