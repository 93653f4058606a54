import type { LineItem, QuarterTurn, RectItem, TextItem } from './display-list.ts';

/** Things that can be turned as a whole; pictures never are. */
export type Note = RectItem | LineItem | TextItem;

type Point = [number, number];

/** Turns `[x, y]` clockwise about the origin (y runs down). */
function turnPoint([x, y]: Point, turned: QuarterTurn): Point {
  if (turned === 0) return [x, y];
  if (turned === 90) return [-y, x];
  if (turned === 180) return [-x, -y];
  return [y, -x];
}

function addTurns(one: QuarterTurn, other: QuarterTurn): QuarterTurn {
  const sum = (one + other) % 360;
  return sum === 90 || sum === 180 || sum === 270 ? sum : 0;
}

/** Notes drawn about the origin, turned clockwise about it and then moved so that it lies at `xMm`, `yMm`. */
export function placeNotes(
  notes: readonly Note[],
  place: { readonly xMm: number; readonly yMm: number; readonly turned: QuarterTurn },
): Note[] {
  const move = (point: Point): Point => {
    const [x, y] = turnPoint(point, place.turned);
    return [x + place.xMm, y + place.yMm];
  };
  return notes.map((note): Note => {
    if (note.kind === 'line') return { ...note, points: note.points.map(move) };
    if (note.kind === 'text') {
      const [xMm, yMm] = move([note.xMm, note.yMm]);
      return { ...note, xMm, yMm, turned: addTurns(note.turned, place.turned) };
    }
    const [x1, y1] = move([note.xMm, note.yMm]);
    const [x2, y2] = move([note.xMm + note.widthMm, note.yMm + note.heightMm]);
    return {
      ...note,
      xMm: Math.min(x1, x2),
      yMm: Math.min(y1, y2),
      widthMm: Math.abs(x2 - x1),
      heightMm: Math.abs(y2 - y1),
    };
  });
}
