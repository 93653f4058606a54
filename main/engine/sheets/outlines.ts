import type { LineItem, RectItem, TextItem } from '../../../shared/sheet/display-list.ts';
import type { FontShelf } from './font-file.ts';
import type { Outline } from './path-coverage.ts';

/** Steps of a curve per glyph contour segment and of a round corner: finer than a pixel at the sizes of a sheet. */
const CURVE_STEPS = 6;
const CORNER_STEPS = 6;
const ROUND_STEPS = 20;

type Point = readonly [number, number];

/** A rectangle with rounded corners as one outline. `perMm` pixels to a millimetre. */
export function outlineRect(item: RectItem, perMm: number): Outline[] {
  const left = item.xMm * perMm;
  const top = item.yMm * perMm;
  const right = (item.xMm + item.widthMm) * perMm;
  const foot = (item.yMm + item.heightMm) * perMm;
  const radius = Math.min(item.radiusMm, item.widthMm / 2, item.heightMm / 2) * perMm;
  if (radius === 0) return [[left, top, right, top, right, foot, left, foot]];
  const corners: readonly (readonly [number, number, number])[] = [
    [right - radius, top + radius, -Math.PI / 2],
    [right - radius, foot - radius, 0],
    [left + radius, foot - radius, Math.PI / 2],
    [left + radius, top + radius, Math.PI],
  ];
  return [
    corners.flatMap(([x, y, from]) =>
      Array.from({ length: CORNER_STEPS + 1 }, (_, step) => {
        const angle = from + (step / CORNER_STEPS) * (Math.PI / 2);
        return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
      }).flat(),
    ),
  ];
}

/** A stroked line as outlines of one direction: a bar per piece, a disc at each joint and, where round, each end. */
export function outlineLine(item: LineItem, perMm: number): Outline[] {
  const points = item.points.map(([x, y]): Point => [x * perMm, y * perMm]);
  const half = (item.widthMm * perMm) / 2;
  const last = points.length - 1;
  const outlines: Outline[] = [];
  const pieces = item.closed ? points.length : last;
  for (let index = 0; index < pieces; index += 1) {
    const from = points[index];
    const to = points[(index + 1) % points.length];
    if (from && to) outlines.push(...bar(from, to, half));
  }
  const joints = points.filter((point, index) => {
    if (!item.closed && (index === 0 || index === last)) return item.cap === 'round';
    const before = points[(index + last) % points.length];
    const after = points[(index + 1) % points.length];
    return !before || !after || bends(before, point, after);
  });
  outlines.push(...joints.map((point) => disc(point, half)));
  return outlines;
}

function bar([x0, y0]: Point, [x1, y1]: Point, half: number): Outline[] {
  const length = Math.hypot(x1 - x0, y1 - y0);
  if (length === 0) return [];
  const ax = (-(y1 - y0) / length) * half;
  const ay = ((x1 - x0) / length) * half;
  return [[x0 - ax, y0 - ay, x1 - ax, y1 - ay, x1 + ax, y1 + ay, x0 + ax, y0 + ay]];
}

/** Below this cosine (10 degrees) a joint shows: bars alone leave a notch of 0.4 % of the line's half width. */
const STRAIGHT_COSINE = Math.cos(Math.PI / 18);

function bends([x0, y0]: Point, [x1, y1]: Point, [x2, y2]: Point): boolean {
  const lengths = Math.hypot(x1 - x0, y1 - y0) * Math.hypot(x2 - x1, y2 - y1);
  const cosine = ((x1 - x0) * (x2 - x1) + (y1 - y0) * (y2 - y1)) / lengths;
  return !(cosine > STRAIGHT_COSINE);
}

function disc([x, y]: Point, radius: number): Outline {
  return Array.from({ length: ROUND_STEPS }, (_, step) => {
    const angle = (step / ROUND_STEPS) * 2 * Math.PI;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  }).flat();
}

/** The glyphs of a text, one group of outlines each (glyphs may overlap; their pixels must not cancel out). */
export function outlineText(item: TextItem, perMm: number, shelf: FontShelf): Outline[][] {
  const [cos, sin] = TURNS[item.turned];
  const glyphs: Outline[][] = [];
  let alongMm = 0;
  for (const run of item.runs) {
    const font = shelf.font(run.face);
    const scale = item.sizeMm / font.unitsPerEm;
    let runMm = alongMm;
    for (const character of run.text) {
      const glyph = font.glyphForCodePoint(character.codePointAt(0) ?? 0);
      const place = (x: number, y: number): Point => {
        const along = runMm + x * scale;
        const up = -y * scale;
        return [(item.xMm + along * cos - up * sin) * perMm, (item.yMm + along * sin + up * cos) * perMm];
      };
      const outlines = outlineGlyph(glyph.path.commands, place);
      if (outlines.length > 0) glyphs.push(outlines);
      runMm += glyph.advanceWidth * scale;
    }
    alongMm += run.widthMm;
  }
  return glyphs;
}

const TURNS: Readonly<Record<TextItem['turned'], readonly [number, number]>> = {
  0: [1, 0],
  90: [0, 1],
  180: [-1, 0],
  270: [0, -1],
};

type Command = {
  readonly command: 'moveTo' | 'lineTo' | 'quadraticCurveTo' | 'bezierCurveTo' | 'closePath';
  readonly args: readonly number[];
};

function outlineGlyph(commands: readonly Command[], place: (x: number, y: number) => Point): Outline[] {
  const outlines: number[][] = [];
  let [fromX, fromY] = [0, 0];
  for (const { command, args } of commands) {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = args;
    const current = outlines.at(-1);
    if (command === 'moveTo') {
      outlines.push([...place(a, b)]);
      [fromX, fromY] = [a, b];
    } else if (command === 'lineTo') {
      current?.push(...place(a, b));
      [fromX, fromY] = [a, b];
    } else if (command === 'quadraticCurveTo') {
      for (let step = 1; step <= CURVE_STEPS; step += 1) {
        const t = step / CURVE_STEPS;
        const u = 1 - t;
        current?.push(
          ...place(u * u * fromX + 2 * u * t * a + t * t * c, u * u * fromY + 2 * u * t * b + t * t * d),
        );
      }
      [fromX, fromY] = [c, d];
    } else if (command === 'bezierCurveTo') {
      for (let step = 1; step <= CURVE_STEPS; step += 1) {
        const t = step / CURVE_STEPS;
        const u = 1 - t;
        current?.push(
          ...place(
            u ** 3 * fromX + 3 * u * u * t * a + 3 * u * t * t * c + t ** 3 * e,
            u ** 3 * fromY + 3 * u * u * t * b + 3 * u * t * t * d + t ** 3 * f,
          ),
        );
      }
      [fromX, fromY] = [e, f];
    }
  }
  return outlines.filter((outline) => outline.length >= 6);
}
