import { CAPITAL_EM } from './font-metrics.ts';
import { drawText } from './draw-text.ts';
import type { TextReport } from './draw-text.ts';
import type { Note } from './place-items.ts';

/** Length of the ruler on the sheet, mm: 283.46 points. Never scaled: it tells what the printer did. */
const RULER_MM = 100;
/** Room for `100 mm` after the ruler, mm. */
const RULER_LABEL_MM = 11;
/** Ruler with its label, mm. */
export const RULER_ROOM_MM = RULER_MM + RULER_LABEL_MM;
/** The check box is the picture of 35 mm film, mm. Never scaled. */
export const CHECK_BOX = { widthMm: 36, heightMm: 24 } as const;

const INK = '#101010';
const LINE_MM = 0.15;

function stroke(points: [number, number][], closed = false): Note {
  return { kind: 'line', points, closed, cap: 'butt', widthMm: LINE_MM, colour: INK };
}

/**
 * A ruler of 100 mm from the origin to the right, its ticks rising from the line by up to `tickMm`: each 5 mm, longer
 * each 10, longest at 0, 50 and 100. The line is 100 mm from end to end, the end ticks stand on its ends.
 */
export function drawRuler(tickMm: number, report: TextReport): Note[] {
  const ticks = Array.from({ length: RULER_MM / 5 + 1 }, (_, index) => {
    const x = index * 5;
    const share = x % 50 === 0 ? 1 : x % 10 === 0 ? 0.7 : 0.4;
    return stroke([
      [x, 0],
      [x, -tickMm * share],
    ]);
  });
  const sizeMm = 2.4;
  const label = drawText(
    `${RULER_MM} mm`,
    { xMm: RULER_MM + 1.2, yMm: 0, sizeMm, weight: 'regular', colour: INK, roomMm: RULER_LABEL_MM },
    report,
  );
  return [
    stroke([
      [0, 0],
      [RULER_MM, 0],
    ]),
    ...ticks,
    ...label,
  ];
}

/** A box of 36 × 24 mm with its top left at the origin, its size written inside. */
export function drawCheckBox(report: TextReport): Note[] {
  const { widthMm, heightMm } = CHECK_BOX;
  const sizeMm = 2.4;
  return [
    stroke(
      [
        [0, 0],
        [widthMm, 0],
        [widthMm, heightMm],
        [0, heightMm],
      ],
      true,
    ),
    ...drawText(
      `${widthMm} × ${heightMm} mm`,
      {
        xMm: widthMm / 2,
        yMm: (heightMm + CAPITAL_EM * sizeMm) / 2,
        sizeMm,
        weight: 'regular',
        colour: INK,
        roomMm: widthMm,
        align: 'middle',
      },
      report,
    ),
  ];
}
