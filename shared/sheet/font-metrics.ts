import type { Face, TextItem } from './display-list.ts';
import { PACKED_FACES } from './font-advances.ts';

/** Stands where no face has a character; one of the faces has it, which a test checks. */
const STAND_IN = '□';
const ELLIPSIS = '…';

type Weight = 'regular' | 'bold';
type Run = TextItem['runs'][number];

/** Which faces are asked for a character, in this order. The fillers come in one weight only. */
const FALLBACK: Readonly<Record<Weight, readonly Face[]>> = {
  regular: ['sans', 'japanese', 'chinese', 'korean'],
  bold: ['sans-bold', 'japanese', 'chinese', 'korean'],
};

/** A finished line: its runs, how wide it is at this size, and the characters that no face has. */
export interface MeasuredLine {
  readonly text: string;
  readonly runs: Run[];
  readonly widthMm: number;
  readonly missing: readonly string[];
}

type Advances = (codePoint: number) => number | null;

const opened = new Map<Face, Advances>();

/** Advance of a character in `face`, in ems, or null where the face lacks it. */
export function advanceEm(face: Face, codePoint: number): number | null {
  const packed = PACKED_FACES[face];
  let advances = opened.get(face);
  if (!advances) {
    advances = unpackAdvances(packed.advances);
    opened.set(face, advances);
  }
  const advance = advances(codePoint);
  return advance === null ? null : advance / packed.unitsPerEm;
}

function unpackAdvances(text: string): Advances {
  const starts: number[] = [];
  const ends: number[] = [];
  const advances: number[] = [];
  let at = 0;
  for (const run of text.split(' ')) {
    const [gap = 0, length = 0, advance = 0] = run.split(',').map((part) => Number.parseInt(part, 36));
    starts.push(at + gap);
    at += gap + length;
    ends.push(at);
    advances.push(advance);
  }
  return (codePoint) => {
    let low = 0;
    let high = starts.length - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      if (codePoint < (starts[middle] ?? 0)) high = middle - 1;
      else if (codePoint >= (ends[middle] ?? 0)) low = middle + 1;
      else return advances[middle] ?? null;
    }
    return null;
  };
}

/** Height of a capital letter over the font size, in the face of the look. */
export const CAPITAL_EM = PACKED_FACES.sans.capHeight / PACKED_FACES.sans.unitsPerEm;

/**
 * A line of text at `sizeMm`, composed (NFC) and with control characters and line breaks as spaces. Each character
 * goes to the first face that has it, which keeps a line in as few runs as its scripts need.
 */
export function measureLine(text: string, sizeMm: number, weight: Weight): MeasuredLine {
  const tidy = tidyText(text);
  const runs: { face: Face; text: string; widthMm: number }[] = [];
  const missing = new Set<string>();
  let widthMm = 0;
  for (const character of tidy) {
    const found = findFace(character, weight);
    if (!found) missing.add(character);
    const drawn = found ?? standIn(weight);
    const width = drawn.advance * sizeMm;
    const last = runs.at(-1);
    if (last?.face === drawn.face) {
      last.text += drawn.text;
      last.widthMm += width;
    } else {
      runs.push({ face: drawn.face, text: drawn.text, widthMm: width });
    }
    widthMm += width;
  }
  return { text: tidy, runs, widthMm, missing: [...missing] };
}

interface Drawn {
  readonly face: Face;
  readonly text: string;
  readonly advance: number;
}

function findFace(character: string, weight: Weight): Drawn | null {
  const codePoint = character.codePointAt(0) ?? 0;
  for (const face of FALLBACK[weight]) {
    const advance = advanceEm(face, codePoint);
    if (advance !== null) return { face, text: character, advance };
  }
  return null;
}

function standIn(weight: Weight): Drawn {
  const found = findFace(STAND_IN, weight);
  if (!found) throw new Error('The bundled faces lack the character that stands for missing ones');
  return found;
}

/** Characters that show nothing and change only how others are drawn: joiners, directions, variation selectors. */
const INVISIBLE = /\p{Default_Ignorable_Code_Point}/gu;

function tidyText(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Zs}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(INVISIBLE, '')
    .trim();
}

/** The line, or as much of it as `roomMm` holds with `…` after it; `shortened` says which. */
export function fitLine(
  text: string,
  sizeMm: number,
  weight: Weight,
  roomMm: number,
): MeasuredLine & { readonly shortened: boolean } {
  const whole = measureLine(text, sizeMm, weight);
  if (whole.widthMm <= roomMm) return { ...whole, shortened: false };
  const cut = longestPrefix(whole, roomMm - measureLine(ELLIPSIS, sizeMm, weight).widthMm, sizeMm, weight);
  const line = measureLine(`${cut.trimEnd()}${ELLIPSIS}`, sizeMm, weight);
  return { ...line, missing: whole.missing, shortened: true };
}

/** As many characters of the line as `roomMm` holds. */
function longestPrefix(line: MeasuredLine, roomMm: number, sizeMm: number, weight: Weight): string {
  let widthMm = 0;
  let prefix = '';
  for (const character of line.text) {
    widthMm += (findFace(character, weight) ?? standIn(weight)).advance * sizeMm;
    if (widthMm > roomMm) break;
    prefix += character;
  }
  return prefix;
}
