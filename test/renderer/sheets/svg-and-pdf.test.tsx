import { JSDOM } from 'jsdom';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { createFontShelf } from '../../../main/engine/sheets/font-file.ts';
import { paintPdf } from '../../../main/engine/sheets/paint-pdf.ts';
import type { Tile } from '../../../main/engine/sheets/picture-tiles.ts';
import { SheetSvg } from '../../../renderer/sheets/sheet-svg.tsx';
import type { DisplayPage, ImageItem } from '../../../shared/sheet/display-list.ts';
import { layOutSheet } from '../../../shared/sheet/layout.ts';
import { sheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import { makePlan } from '../../support/make-plan.ts';
import { readPdfShapes } from './read-pdf-shapes.ts';
import { readSvgShapes } from './read-svg-shapes.ts';
import { differences, type Shape } from './shapes.ts';

/** Below what any printer resolves. */
const SAME_MM = 0.01;

const shelf = createFontShelf(new URL('../../../assets/fonts/', import.meta.url));
const DOT: Tile = { widthPx: 1, heightPx: 1, channels: 1, pixels: Buffer.from([128]) };

function readSvg(page: DisplayPage): Shape[] {
  const markup = renderToStaticMarkup(<SheetSvg page={page} label="Sheet" pictures="small" />);
  const svg = new JSDOM(markup).window.document.querySelector('svg');
  if (!svg) throw new Error('No SVG was painted');
  return readSvgShapes(svg);
}

async function readPdf(page: DisplayPage): Promise<Shape[]> {
  const tiles = page.items.filter((item) => item.kind === 'image').map(() => DOT);
  const pdf = await paintPdf([page], [tiles], shelf, { title: 'Sheet', madeAt: new Date(0) });
  return readPdfShapes(pdf, 1);
}

/** Each kind of item, with numbers that are easy to follow by hand. */
const PLAIN: DisplayPage = {
  widthMm: 100,
  heightMm: 60,
  items: [
    { kind: 'rect', xMm: 10, yMm: 5, widthMm: 20, heightMm: 10, radiusMm: 0, fill: '#000000' },
    { kind: 'rect', xMm: 40, yMm: 5, widthMm: 2.8, heightMm: 2, radiusMm: 0.5, fill: '#ffffff' },
    {
      kind: 'line',
      points: [
        [1, 2],
        [3, 4],
        [9, 4],
      ],
      closed: true,
      cap: 'round',
      widthMm: 0.8,
      colour: '#ff5a38',
    },
    {
      kind: 'image',
      xMm: 50,
      yMm: 20,
      widthMm: 36,
      heightMm: 24,
      frameKey: 'frame-1',
      pictureId: 'picture-1',
      region: { x: 0, y: 0, width: 1, height: 1 },
      turned: 90,
      mirrored: true,
      ground: '#000000',
    },
  ],
};

describe('the SVG and the PDF of one display list', () => {
  it('are read back as the display list says', async () => {
    // The corners by hand: x + width, y + height.
    const expected: Shape[] = [
      { kind: 'rect', colour: '#000000', corners: [[10, 5], [30, 15]], radiusMm: 0 }, // prettier-ignore
      { kind: 'rect', colour: '#ffffff', corners: [[40, 5], [42.8, 7]], radiusMm: 0.5 }, // prettier-ignore
      { kind: 'line', colour: '#ff5a38', points: [[1, 2], [3, 4], [9, 4]], closed: true, cap: 'round', widthMm: 0.8 }, // prettier-ignore
      { kind: 'image', corners: [[50, 20], [86, 44]] }, // prettier-ignore
    ];
    expect(differences(readSvg(PLAIN), expected, SAME_MM)).toEqual([]);
    expect(differences(await readPdf(PLAIN), expected, SAME_MM)).toEqual([]);
  });

  it('agree within 0.01 mm on a whole sheet with captions, marks, ruler and a name in Japanese', async () => {
    const plan = makePlan([6, 6, 5], undefined, (number) => ({
      caption: number === 3 ? '港の朝 Łódź, Ålesund' : `Frame ${number}, AVATAR fi fl`,
      marks: number === 4 ? [{ kind: 'box' }, { kind: 'dot' }] : [],
    }));
    const layout = layOutSheet(plan, { ...sheetSpec.parse({}), captions: true });
    const page = layout.pages[0];
    if (!page) throw new Error('The sheet does not fit');
    const [svg, pdf] = [readSvg(page), await readPdf(page)];
    for (const kind of ['rect', 'line', 'image', 'text']) {
      expect(svg.some((shape) => shape.kind === kind)).toBe(true);
    }
    expect(differences(svg, pdf, SAME_MM)).toEqual([]);
  });

  it('agree within 0.01 mm on text turned about its beginning', async () => {
    const plan = makePlan([6, 6, 6, 6, 6, 6]);
    const layout = layOutSheet(plan, { ...sheetSpec.parse({}), paperId: '24x30cm', orientation: 'wide' });
    const page = layout.pages[0];
    if (!page) throw new Error('The sheet does not fit');
    const upright = { ...page, items: page.items.filter((item) => item.kind === 'text') };
    const turned = {
      ...page,
      items: upright.items.map((item) => ({ ...item, turned: 270 as const })),
    };
    expect(differences(readSvg(turned), await readPdf(turned), SAME_MM)).toEqual([]);
    expect(differences(readSvg(turned), await readPdf(upright), SAME_MM)).not.toEqual([]);
  });

  it('are told apart by this comparison when one number is 0.02 mm off', async () => {
    const [first, ...rest] = PLAIN.items;
    if (first?.kind !== 'rect') throw new Error('The first item is a rectangle');
    const moved = { ...PLAIN, items: [{ ...first, widthMm: first.widthMm + 0.02 }, ...rest] };
    expect(differences(readSvg(moved), await readPdf(PLAIN), SAME_MM)).toHaveLength(1);
  });
});

/** The steps that bring a picture into its place, and the box it is fitted into. */
function placeOf(change: Partial<ImageItem>): { moves: string | null; box: string; fit: string | null } {
  const image = PLAIN.items.find((item) => item.kind === 'image');
  if (!image) throw new Error('No picture');
  const page = { ...PLAIN, items: [{ ...image, ...change }] };
  const markup = renderToStaticMarkup(<SheetSvg page={page} label="Sheet" pictures="small" />);
  const picture = new JSDOM(markup).window.document.querySelector('image');
  const box = ['x', 'y', 'width', 'height'].map((name) => picture?.getAttribute(name)).join(' ');
  const moves = picture?.closest('g')?.getAttribute('transform') ?? null;
  return { moves, box, fit: picture?.getAttribute('preserveAspectRatio') ?? null };
}

describe('a picture in the SVG', () => {
  it('is fitted whole into its place, about its middle', () => {
    expect(placeOf({ turned: 0, mirrored: false })).toEqual({
      moves: 'translate(68 32)',
      box: '-18 -12 36 24',
      fit: 'xMidYMid meet',
    });
  });

  it('is mirrored before it is turned, into a place that lies on its side', () => {
    // Transforms are applied from the right (CSS Transforms 1): first the mirror, then the turn.
    expect(placeOf({ turned: 90, mirrored: true })).toEqual({
      moves: 'translate(68 32) rotate(90) scale(-1 1)',
      box: '-12 -18 24 36',
      fit: 'xMidYMid meet',
    });
  });
});
