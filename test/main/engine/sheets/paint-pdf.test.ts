import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { createFontShelf } from '../../../../main/engine/sheets/font-file.ts';
import { paintPdf } from '../../../../main/engine/sheets/paint-pdf.ts';
import { writeSheet } from '../../../../main/engine/sheets/write-sheet.ts';
import type { DisplayItem } from '../../../../shared/sheet/display-list.ts';
import { layOutSheet } from '../../../../shared/sheet/layout.ts';
import { PAPERS } from '../../../../shared/sheet/paper.ts';
import { sheetSpec } from '../../../../shared/sheet/sheet-spec.ts';
import type { SheetSpec } from '../../../../shared/sheet/sheet-spec.ts';
import type { SheetPlan } from '../../../../shared/sheet/sheet-plan.ts';
import { FILM_135, FILM_6X6, makePlan } from '../../../support/make-plan.ts';
import { makeQuarters } from '../../../support/make-picture.ts';
import { readPdf } from '../../../support/read-pdf.ts';
import { sharedData } from '../../../support/shared-data.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const shelf = createFontShelf(new URL('../../../../assets/fonts/', import.meta.url));
const madeAt = new Date('2026-01-02T03:04:05Z');

async function printPlan(
  plan: SheetPlan,
  change: Partial<SheetSpec>,
  pictureOf?: (id: string) => string,
): Promise<Buffer> {
  const folder = tempFolder();
  const picture = await makeQuarters(folder, 'quarters.png', 900, 600);
  const layout = layOutSheet(plan, { ...sheetSpec.parse({}), ...change });
  expect(layout.misfit).toBeNull();
  const path = join(folder, 'sheet.pdf');
  const file = { path, format: 'pdf', ppi: 300, overwrite: false, title: 'Sheet', madeAt } as const;
  const sources = { pictureFile: pictureOf ?? (() => picture), shelf, signal: null };
  expect((await writeSheet(layout, file, sources)).unreadable).toEqual([]);
  return readFile(path);
}

describe('pictures read back from the PDF', () => {
  // True sizes and places by hand (facts of the trade, 1 and 2), not from the layout.
  it('of 7 strips of 5 on 8 × 10 in are within 0.2 mm of their true size and place', async () => {
    const { pages } = await readPdf(
      await printPlan(makePlan([5, 5, 5, 5, 5, 5, 5]), { paperId: '8x10in', heading: false, ruler: false }),
    );
    expect(pages[0]?.images).toHaveLength(35);
    for (const [index, image] of (pages[0]?.images ?? []).entries()) {
      // Margin 4, picture 1 mm into its 38 mm of film, 5.5 below the film's edge; 245 mm of film in 246: gap 1/6 mm.
      expect(Math.abs(image.xMm - (4 + 1 + 38 * (index % 5)))).toBeLessThan(0.2);
      expect(Math.abs(image.yMm - (4 + 5.5 + (35 + 1 / 6) * Math.floor(index / 5)))).toBeLessThan(0.2);
      expect(Math.abs(image.widthMm - 36)).toBeLessThan(0.2);
      expect(Math.abs(image.heightMm - 24)).toBeLessThan(0.2);
    }
  });

  it('of 4 strips of three 6×6 on A4 are within 0.2 mm of their true size and place', async () => {
    const { pages } = await readPdf(
      await printPlan(makePlan([3, 3, 3, 3], FILM_6X6), { heading: false, ruler: false }),
    );
    expect(pages[0]?.images).toHaveLength(12);
    for (const [index, image] of (pages[0]?.images ?? []).entries()) {
      // Margin 4, picture (61 − 56) / 2 = 2.5 into its film, (61.5 − 56) / 2 = 2.75 below the edge; gap 2 mm.
      expect(Math.abs(image.xMm - (4 + 2.5 + 61 * (index % 3)))).toBeLessThan(0.2);
      expect(Math.abs(image.yMm - (4 + 2.75 + 63.5 * Math.floor(index / 3)))).toBeLessThan(0.2);
      expect(Math.abs(image.widthMm - 56)).toBeLessThan(0.2);
      expect(Math.abs(image.heightMm - 56)).toBeLessThan(0.2);
    }
  });

  it('have 300 pixels to an inch of their printed size', async () => {
    const { pages } = await readPdf(await printPlan(makePlan([2]), { heading: false, ruler: false }));
    // 36 / 25.4 × 300 = 425.2, 24 / 25.4 × 300 = 283.5; edges are rounded to whole pixels. Source: facts of the trade, 11.
    for (const image of pages[0]?.images ?? []) {
      expect(Math.abs(image.widthPx - 425)).toBeLessThanOrEqual(1);
      expect(Math.abs(image.heightPx - 283)).toBeLessThanOrEqual(1);
    }
  });
});

describe('the document', () => {
  it.each(PAPERS)('has the exact media box of $name', async ({ id, widthMm, heightMm }) => {
    const content = await printPlan(makePlan([2]), { paperId: id, orientation: 'upright' });
    const [page] = (await readPdf(content)).pages;
    // 72 points to an inch of 25.4 mm; pdfkit writes six decimals.
    expect(page?.mediaBoxPt[2]).toBeCloseTo((widthMm / 25.4) * 72, 5);
    expect(page?.mediaBoxPt[3]).toBeCloseTo((heightMm / 25.4) * 72, 5);
  });

  it('carries a ruler of 283.46 points', async () => {
    const [page] = (await readPdf(await printPlan(makePlan([5, 5]), {}))).pages;
    // 100 / 25.4 × 72 = 283.4646 points. Source: field notes, contact sheets.
    const longest = page?.strokes.filter((stroke) => Math.abs((stroke.widthMm / 25.4) * 72 - 283.46) < 0.01);
    expect(longest).toHaveLength(1);
  });

  it('carries a box of 36 × 24 mm', async () => {
    const [page] = (await readPdf(await printPlan(makePlan([5, 5]), {}))).pages;
    const boxes = page?.strokes.filter(
      (stroke) => Math.abs(stroke.widthMm - 36) < 0.01 && Math.abs(stroke.heightMm - 24) < 0.01,
    );
    expect(boxes).toHaveLength(1);
  });

  it('asks viewers to print it unscaled', async () => {
    expect((await readPdf(await printPlan(makePlan([1]), {}))).printScaling).toBe('None');
  });

  it('declares its colour as sRGB', async () => {
    const text = (await printPlan(makePlan([1]), {})).toString('latin1');
    expect(text).toMatch(/\/OutputIntents/);
    expect(text).toContain('sRGB IEC61966-2.1');
  });

  it('embeds every font', async () => {
    const text = (await printPlan(makePlan([1]), { title: '京都 Łódź Ελλάδα Москва' })).toString('latin1');
    const fonts = text.match(/\/Type \/FontDescriptor/g) ?? [];
    // Sofia Sans in two weights and the face of the Han characters.
    expect(fonts).toHaveLength(3);
    expect(text.match(/\/FontFile2 \d+ 0 R/g)).toHaveLength(fonts.length);
    expect(text).not.toContain('Helvetica');
  });

  it('gives its texts back as text', async () => {
    const content = await printPlan(makePlan([1]), { title: '京都 Łódź Ελλάδα Москва' });
    const [page] = (await readPdf(content)).pages;
    expect(page?.texts.map((text) => text.text).join('')).toContain('京都 Łódź Ελλάδα Москва');
  });

  it('is the same for the same sheet', async () => {
    const plan = makePlan([2], FILM_135, () => ({ marks: [{ kind: 'box' }] }));
    const [one, other] = [await printPlan(plan, {}), await printPlan(plan, {})];
    expect(one.equals(other)).toBe(true);
  });

  it('of 38 frames at 300 ppi is smaller than 15 MB', async () => {
    const folder = tempFolder();
    const noise = join(folder, 'noise.png');
    // Noise is the worst that JPEG can meet.
    await sharp({
      create: {
        width: 900,
        height: 600,
        channels: 3,
        background: '#808080',
        noise: { type: 'gaussian', mean: 128, sigma: 60 },
      },
    }).toFile(noise);
    const content = await printPlan(makePlan([6, 6, 6, 6, 6, 6, 2]), { paperId: '24x30cm' }, () => noise);
    expect(content.length).toBeLessThan(15e6);
  });
});

describe('text in the PDF', () => {
  let items: readonly DisplayItem[] = [];
  let page: Awaited<ReturnType<typeof readPdf>>['pages'][number] | undefined;
  beforeAll(async () => {
    const layout = layOutSheet(makePlan([1]), { ...sheetSpec.parse({}), title: 'AV To. first 한국 Łódź' });
    items = layout.pages[0]?.items.filter((item) => item.kind === 'text') ?? [];
    const pages = [{ widthMm: 210, heightMm: 297, items: [...items] }];
    page = (await readPdf(await paintPdf(pages, [[]], shelf, { title: 'x', madeAt }))).pages[0];
  });

  it('starts, ends and stands where the layout measured it, within 0.01 mm', () => {
    expect(items.length).toBeGreaterThan(5);
    for (const item of items) {
      if (item.kind !== 'text') continue;
      // A line may come back in several pieces: at each face and at spaces.
      const pieces = (page?.texts ?? []).filter(
        (text) =>
          Math.abs(text.baselineMm - item.yMm) < 0.01 &&
          text.xMm > item.xMm - 0.01 &&
          text.xMm < item.xMm + item.widthMm,
      );
      const start = Math.min(...pieces.map((piece) => piece.xMm));
      const end = Math.max(...pieces.map((piece) => piece.xMm + piece.widthMm));
      expect(Math.abs(start - item.xMm)).toBeLessThan(0.01);
      expect(Math.abs(end - (item.xMm + item.widthMm))).toBeLessThan(0.01);
      expect(pieces.map((piece) => piece.text).join('')).toBe(item.runs.map((run) => run.text).join(''));
    }
  });

  it('changes its face where the layout does, within 0.01 mm', () => {
    const [title] = items.flatMap((item) => (item.kind === 'text' && item.runs.length > 1 ? [item] : []));
    let startMm = title?.xMm ?? NaN;
    expect(title?.runs.length).toBeGreaterThan(2);
    for (const run of title?.runs ?? []) {
      expect(page?.texts.some((text) => Math.abs(text.xMm - startMm) < 0.01)).toBe(true);
      startMm += run.widthMm;
    }
  });
});

const scans = sharedData('scans');
describe.runIf(scans !== null)('a sheet of scans of every kind', () => {
  it('mixes 16 bits, wide profiles, CMYK, infrared, grey and very large files', async () => {
    const files = [
      'colour/chart-srgb8.tif',
      'colour/chart-wide22-16.tif',
      'colour/chart-cmyk8-noprofile.tif',
      'colour/chart-untagged8.tif',
      'infrared/rgbi16-marked-as-alpha-zip.tif',
      'infrared/grayi16-zip.tif',
      'tiff/gray16-zip.tif',
      'large/pano-40000x7000-gray8-zip.tif',
      'tiff/orient-6.tif',
    ];
    const plan = makePlan([5, 4], FILM_135, (number) => ({
      scan: {
        pictureId: files[number - 1] ?? '',
        region: { x: 0, y: 0, width: 1, height: 1 },
        turned: 0,
        mirrored: false,
      },
    }));
    const content = await printPlan(plan, {}, (id) => join(scans ?? '', id));
    expect((await readPdf(content)).pages[0]?.images).toHaveLength(9);
    // 8 bits, three channels or one: nothing else goes in.
    const text = content.toString('latin1');
    const images = text.match(/\/Subtype \/Image[\s\S]*?>>/g) ?? [];
    expect(images.every((image) => /\/BitsPerComponent 8/.test(image))).toBe(true);
    expect(images.every((image) => /\/ColorSpace \/Device(RGB|Gray)/.test(image))).toBe(true);
    expect(text).not.toContain('DeviceCMYK');
    expect(text).not.toContain('/SMask');
  });
});
