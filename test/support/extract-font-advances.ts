import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createFontShelf } from '../../main/engine/sheets/font-file.ts';
import { FACES } from '../../shared/sheet/display-list.ts';
import type { Face } from '../../shared/sheet/display-list.ts';

const shelf = createFontShelf(new URL('../../assets/fonts/', import.meta.url));

/** What the file of a face says, read by fontkit: its measures and the advance of every character, in font units. */
export function readFace(face: Face): {
  readonly unitsPerEm: number;
  readonly capHeight: number;
  readonly ascent: number;
  readonly descent: number;
  readonly advances: ReadonlyMap<number, number>;
} {
  const font = shelf.font(face);
  const codes = [...font.characterSet].sort((a, b) => a - b);
  return {
    unitsPerEm: font.unitsPerEm,
    capHeight: font.capHeight,
    ascent: font.ascent,
    descent: font.descent,
    advances: new Map(codes.map((code) => [code, font.glyphForCodePoint(code).advanceWidth])),
  };
}

/** Runs of neighbouring characters of one advance: `gap since the last run,length,advance` in base 36. */
function packAdvances(advances: ReadonlyMap<number, number>): string {
  const runs: string[] = [];
  let end = 0;
  let open: { start: number; length: number; advance: number } | null = null;
  const close = (): void => {
    if (!open) return;
    runs.push([open.start - end, open.length, open.advance].map((n) => n.toString(36)).join(','));
    end = open.start + open.length;
  };
  for (const [code, advance] of advances) {
    if (open && code === open.start + open.length && advance === open.advance) {
      open.length += 1;
    } else {
      close();
      open = { start: code, length: 1, advance };
    }
  }
  close();
  return runs.join(' ');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const faces = FACES.map((face) => {
    const { unitsPerEm, capHeight, ascent, descent, advances } = readFace(face);
    return `  ${JSON.stringify(face)}: { unitsPerEm: ${unitsPerEm}, capHeight: ${capHeight}, ascent: ${ascent}, descent: ${descent}, advances: '${packAdvances(advances)}' },`;
  });
  const text = `import type { Face } from './display-list.ts';

/** A face in font units; \`advances\` are runs \`gap,length,advance\` in base 36 over the code points. */
export interface PackedFace {
  readonly unitsPerEm: number;
  readonly capHeight: number;
  readonly ascent: number;
  readonly descent: number;
  readonly advances: string;
}

/**
 * The bundled faces, as their files say.
 * Source: the files in assets/fonts, written by test/support/extract-font-advances.ts and checked against them by its test.
 */
export const PACKED_FACES: Readonly<Record<Face, PackedFace>> = {
${faces.join('\n')}
};
`;
  writeFileSync(new URL('../../shared/sheet/font-advances.ts', import.meta.url), text);
}
