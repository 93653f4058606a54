import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { ptToMm } from '../../../shared/units/length.ts';
import type { Shape } from './shapes.ts';

type Matrix = readonly [number, number, number, number, number, number];

/** Matrix `inner` seen through `outer`. Source: ISO 32000-1:2008, 8.3.4. */
function multiply(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

function toMatrix(values: readonly unknown[]): Matrix {
  const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = values.map(Number);
  return [a, b, c, d, e, f];
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

function numbersOf(value: unknown): number[] {
  return value instanceof Float32Array ? [...value] : Array.isArray(value) ? value.map(Number) : [];
}

/** Coordinates that follow each step of a path as pdfjs-dist packs it: move, line, curve, quadratic, close. */
const STEP_NUMBERS = [2, 2, 6, 4, 0];

/** Where the pen goes in a packed path (the ends of its curves), and whether it is closed. */
function readPath(packed: readonly number[]): { points: [number, number][]; closed: boolean } {
  const points: [number, number][] = [];
  let closed = false;
  for (let at = 0; at < packed.length;) {
    const count = STEP_NUMBERS[packed[at] ?? 4] ?? 0;
    if (count === 0) closed = true;
    else points.push([packed[at + count - 1] ?? 0, packed[at + count] ?? 0]);
    at += 1 + count;
  }
  return { points, closed };
}

/** The shapes of a page of a PDF in the order they are painted, read by pdfjs-dist. Millimetres, origin top left. */
export async function readPdfShapes(content: Uint8Array, number: number): Promise<Shape[]> {
  const task = getDocument({ data: new Uint8Array(content), verbosity: 0 });
  try {
    const document = await task.promise;
    const page = await document.getPage(number);
    const [, , , heightPt = 0] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    const shapes: Shape[] = [];
    const stack: Matrix[] = [];
    let matrix: Matrix = [1, 0, 0, 1, 0, 0];
    let textMatrix: Matrix = [1, 0, 0, 1, 0, 0];
    let [fill, stroke, sizePt, lineWidthPt, cap] = ['', '', 0, 0, 0];
    const place = (by: Matrix, x: number, y: number): [number, number] => {
      const [a, b, c, d, e, f] = by;
      return [ptToMm(a * x + c * y + e), ptToMm(heightPt - (b * x + d * y + f))];
    };
    for (const [index, operator] of fnArray.entries()) {
      const args: unknown = argsArray[index];
      const values: readonly unknown[] = Array.isArray(args) ? args : [];
      if (operator === OPS.save) stack.push(matrix);
      else if (operator === OPS.restore) matrix = stack.pop() ?? [1, 0, 0, 1, 0, 0];
      else if (operator === OPS.transform) matrix = multiply(matrix, toMatrix(values));
      else if (operator === OPS.setFillRGBColor) fill = String(values[0]);
      else if (operator === OPS.setStrokeRGBColor) stroke = String(values[0]);
      else if (operator === OPS.setLineWidth) lineWidthPt = Number(values[0]);
      else if (operator === OPS.setLineCap) cap = Number(values[0]);
      else if (operator === OPS.setFont) sizePt = Number(values[1]);
      else if (operator === OPS.setTextMatrix) textMatrix = toMatrix(numbersOf(values[0]));
      else if (operator === OPS.paintImageXObject) {
        shapes.push({ kind: 'image', corners: [place(matrix, 0, 1), place(matrix, 1, 0)] });
      } else if (operator === OPS.constructPath) {
        const packed: unknown = values[1];
        const { points, closed } = readPath(numbersOf(Array.isArray(packed) ? packed[0] : packed));
        const placed = points.map(([x, y]) => place(matrix, x, y));
        if (values[0] === OPS.fill || values[0] === OPS.eoFill) {
          const xs = placed.map(([x]) => x);
          const ys = placed.map(([, y]) => y);
          const corners: [number, number][] = [
            [Math.min(...xs), Math.min(...ys)],
            [Math.max(...xs), Math.max(...ys)],
          ];
          // A rounded corner begins where its straight edge does.
          const radiusMm = points.length > 4 ? (placed[0]?.[0] ?? 0) - Math.min(...xs) : 0;
          shapes.push({ kind: 'rect', colour: fill, corners, radiusMm });
        } else {
          const widthMm = ptToMm(lineWidthPt);
          shapes.push({
            kind: 'line',
            colour: stroke,
            points: placed,
            closed,
            widthMm,
            cap: cap === 1 ? 'round' : 'butt',
          });
        }
      } else if (operator === OPS.showText) {
        const glyphs = (Array.isArray(values[0]) ? values[0] : []).filter(isObject);
        const widthPt = glyphs.reduce((sum, glyph) => sum + Number(Reflect.get(glyph, 'width')), 0);
        const text = glyphs.map((glyph) => String(Reflect.get(glyph, 'unicode'))).join('');
        const whole = multiply(matrix, textMatrix);
        const start = place(whole, 0, 0);
        const end = place(whole, (widthPt / 1000) * sizePt, 0);
        shapes.push({ kind: 'text', colour: fill, text, start, end, sizeMm: ptToMm(sizePt) });
      }
    }
    return shapes;
  } finally {
    await task.destroy();
  }
}
