import { CAPITAL_EM, measureLine } from './font-metrics.ts';
import { drawText } from './draw-text.ts';
import type { TextReport } from './draw-text.ts';
import type { Note } from './place-items.ts';

/** What the heading of one sheet says. */
export interface Heading {
  /** Empty when only the scale has to be told. */
  readonly title: string;
  readonly lines: readonly string[];
}

const INK = '#101010';
const INK_2 = '#333333';
const TITLE_MM = 4.4;
const LINE_MM = 2.8;
const LEADING = 1.4;
/** Size of the heading when it has to go into one line, mm. */
const SINGLE_MM = 2.5;
const BETWEEN = ' · ';

/** The words of the scale for the sheet: `Film printed at 92.9 % of its true size`; null at true size. */
export function describeScale(scale: number): string | null {
  if (scale === 1) return null;
  return `Film printed at ${(scale * 100).toFixed(1)} % of its true size`;
}

/** Lines of caption as broken to `roomMm`: parts stay whole where they can, longer ones break between words. */
function breakLines(parts: readonly string[], roomMm: number): readonly string[] {
  const lines: string[] = [];
  for (const part of parts) {
    const last = lines.at(-1);
    const joined = last === undefined ? part : `${last}${BETWEEN}${part}`;
    if (last !== undefined && fits(joined, roomMm)) {
      lines[lines.length - 1] = joined;
      continue;
    }
    lines.push(...breakWords(part, roomMm));
  }
  return lines;
}

function breakWords(text: string, roomMm: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line === '' || fits(longer, roomMm)) {
      line = longer;
    } else {
      lines.push(line);
      line = word;
    }
  }
  return line === '' ? lines : [...lines, line];
}

function fits(text: string, roomMm: number): boolean {
  return measureLine(text, LINE_MM, 'regular').widthMm <= roomMm;
}

/** Height of the heading as a block of that width, mm; 0 when it says nothing. */
export function blockHeightMm(heading: Heading, roomMm: number): number {
  const lines = breakLines(heading.lines, roomMm).length;
  const title = heading.title === '' ? 0 : TITLE_MM * LEADING;
  return title + lines * LINE_MM * LEADING;
}

/** The heading as a block: title, then its lines. Top left at the origin. */
export function drawBlock(heading: Heading, roomMm: number, report: TextReport): Note[] {
  const notes: Note[] = [];
  let top = 0;
  const add = (text: string, sizeMm: number, weight: 'regular' | 'bold', colour: string): void => {
    const yMm = top + (sizeMm * LEADING + CAPITAL_EM * sizeMm) / 2;
    notes.push(...drawText(text, { xMm: 0, yMm, sizeMm, weight, colour, roomMm }, report));
    top += sizeMm * LEADING;
  };
  if (heading.title !== '') add(heading.title, TITLE_MM, 'bold', INK);
  for (const line of breakLines(heading.lines, roomMm)) add(line, LINE_MM, 'regular', INK_2);
  return notes;
}

/** The heading in one line, title first, cut short where it must be. The middle of its capitals lies on y = 0. */
export function drawSingleLine(heading: Heading, roomMm: number, report: TextReport): Note[] {
  const yMm = (CAPITAL_EM * SINGLE_MM) / 2;
  const title = drawText(
    heading.title,
    { xMm: 0, yMm, sizeMm: SINGLE_MM, weight: 'bold', colour: INK, roomMm },
    report,
  );
  const used = title.reduce((end, item) => Math.max(end, item.widthMm + SINGLE_MM), 0);
  const rest = drawText(
    heading.lines.join(BETWEEN),
    {
      xMm: used,
      yMm,
      sizeMm: SINGLE_MM,
      weight: 'regular',
      colour: INK_2,
      roomMm: Math.max(0, roomMm - used),
    },
    report,
  );
  return [...title, ...rest];
}
