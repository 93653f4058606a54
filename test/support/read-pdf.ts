import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { ptToMm } from '../../shared/units/length.ts';

/** Something on a page, as pdfjs-dist reads it back. Millimetres, origin top left. */
export interface ReadBox {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface ReadText {
  readonly text: string;
  readonly xMm: number;
  readonly baselineMm: number;
  readonly widthMm: number;
}

export interface ReadPage {
  readonly mediaBoxPt: readonly number[];
  readonly images: readonly (ReadBox & { readonly widthPx: number; readonly heightPx: number })[];
  /** Outer bounds of every stroked path, without its width. */
  readonly strokes: readonly ReadBox[];
  readonly texts: readonly ReadText[];
}

export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly printScaling: unknown;
  readonly title: unknown;
}

type Matrix = readonly [number, number, number, number, number, number];
const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** Matrix `inner` seen through `outer`. */
function multiply(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

function toMatrix(values: readonly unknown[]): Matrix {
  const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = values.map(Number);
  return [a, b, c, d, e, f];
}

/** The box of `x0, y0` to `x1, y1` under a matrix, on a page `heightPt` high. */
function toBox(matrix: Matrix, corners: readonly number[], heightPt: number): ReadBox {
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = corners;
  const [a, b, c, d, e, f] = matrix;
  const xs = [x0, x1].flatMap((x) => [y0, y1].map((y) => a * x + c * y + e));
  const ys = [x0, x1].flatMap((x) => [y0, y1].map((y) => b * x + d * y + f));
  return {
    xMm: ptToMm(Math.min(...xs)),
    yMm: ptToMm(heightPt - Math.max(...ys)),
    widthMm: ptToMm(Math.max(...xs) - Math.min(...xs)),
    heightMm: ptToMm(Math.max(...ys) - Math.min(...ys)),
  };
}

/** Reads a PDF back with pdfjs-dist, which shares nothing with what wrote it. */
export async function readPdf(content: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(content), verbosity: 0 });
  const document = await task.promise;
  try {
    const preferences: unknown = await document.getViewerPreferences();
    const { info } = await document.getMetadata();
    const pages: ReadPage[] = [];
    for (let number = 1; number <= document.numPages; number += 1) {
      const page = await document.getPage(number);
      const [, , , heightPt = 0] = page.view;
      const { fnArray, argsArray } = await page.getOperatorList();
      const images: (ReadBox & { widthPx: number; heightPx: number })[] = [];
      const strokes: ReadBox[] = [];
      const stack: Matrix[] = [];
      let matrix = IDENTITY;
      for (const [index, operator] of fnArray.entries()) {
        const args: unknown = argsArray[index];
        const values: readonly unknown[] = Array.isArray(args) ? args : [];
        if (operator === OPS.save) stack.push(matrix);
        else if (operator === OPS.restore) matrix = stack.pop() ?? IDENTITY;
        else if (operator === OPS.transform) matrix = multiply(matrix, toMatrix(values));
        else if (operator === OPS.paintImageXObject) {
          const box = toBox(matrix, [0, 0, 1, 1], heightPt);
          images.push({ ...box, widthPx: Number(values[1]), heightPx: Number(values[2]) });
        } else if (operator === OPS.constructPath) {
          const bounds = values[2];
          const paints = values[0];
          const isStroke = paints === OPS.stroke || paints === OPS.closeStroke;
          if (isStroke && bounds instanceof Float32Array) strokes.push(toBox(matrix, [...bounds], heightPt));
        }
      }
      const content = await page.getTextContent();
      const texts = content.items.flatMap((item) => {
        if (!('str' in item) || item.str === '') return [];
        const [, , , , x, y] = toMatrix(item.transform);
        return [
          { text: item.str, xMm: ptToMm(x), baselineMm: ptToMm(heightPt - y), widthMm: ptToMm(item.width) },
        ];
      });
      pages.push({ mediaBoxPt: page.view, images, strokes, texts });
    }
    const title = isObject(info) && 'Title' in info ? info.Title : null;
    return { pages, printScaling: findPreference(preferences, 'PrintScaling'), title };
  } finally {
    await task.destroy();
  }
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

function findPreference(preferences: unknown, name: string): unknown {
  return preferences instanceof Map ? preferences.get(name) : null;
}
