import type { TextItem } from './display-list.ts';
import { fitLine } from './font-metrics.ts';

/** Collects what the layout has to tell about its texts. */
export interface TextReport {
  readonly missing: Set<string>;
  readonly shortened: Set<string>;
}

/** A report with nothing in it yet. */
export function startTextReport(): TextReport {
  return { missing: new Set(), shortened: new Set() };
}

export interface TextPlace {
  readonly xMm: number;
  /** Of the baseline. */
  readonly yMm: number;
  readonly sizeMm: number;
  readonly weight: 'regular' | 'bold';
  readonly colour: string;
  /** What the line may take; longer text is cut short with `…`. */
  readonly roomMm: number;
  readonly align?: 'start' | 'middle' | 'end';
}

/** One line of text, or nothing for an empty one; what is missing or cut goes into `report`. */
export function drawText(text: string, place: TextPlace, report: TextReport): TextItem[] {
  const line = fitLine(text, place.sizeMm, place.weight, place.roomMm);
  for (const character of line.missing) report.missing.add(character);
  if (line.shortened) report.shortened.add(text);
  if (line.runs.length === 0 || line.widthMm > place.roomMm + 1e-9) return [];
  const share = place.align === 'end' ? 1 : place.align === 'middle' ? 0.5 : 0;
  return [
    {
      kind: 'text',
      xMm: place.xMm - share * line.widthMm,
      yMm: place.yMm,
      widthMm: line.widthMm,
      sizeMm: place.sizeMm,
      turned: 0,
      colour: place.colour,
      runs: line.runs,
    },
  ];
}
