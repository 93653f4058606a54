import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { createFontShelf } from '../../../../main/engine/sheets/font-file.ts';
import { findSheetFormat, writeSheet } from '../../../../main/engine/sheets/write-sheet.ts';
import type { SheetFile, SheetSources } from '../../../../main/engine/sheets/write-sheet.ts';
import { layOutSheet } from '../../../../shared/sheet/layout.ts';
import { sheetSpec } from '../../../../shared/sheet/sheet-spec.ts';
import { makePage, makePlan } from '../../../support/make-plan.ts';
import { makeQuarters } from '../../../support/make-picture.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const shelf = createFontShelf(new URL('../../../../assets/fonts/', import.meta.url));

function makeFile(path: string, change: Partial<SheetFile> = {}): SheetFile {
  const madeAt = new Date('2026-01-02T03:04:05Z');
  return { path, format: 'pdf', ppi: 100, overwrite: false, title: 'Sheet', madeAt, ...change };
}

async function makeSources(folder: string, change: Partial<SheetSources> = {}): Promise<SheetSources> {
  const picture = await makeQuarters(folder, 'picture.png', 90, 60);
  return { pictureFile: () => picture, shelf, signal: null, ...change };
}

const small = layOutSheet(makePlan([2]), sheetSpec.parse({}));

describe('the kind of a sheet file', () => {
  it.each([
    ['sheet.pdf', 'pdf'],
    ['sheet.PNG', 'png'],
    ['sheet.tif', 'tiff'],
    ['sheet.tiff', 'tiff'],
    ['sheet.jpg', null],
    ['sheet', null],
  ])('of %s is %s', (path, format) => {
    expect(findSheetFormat(path)).toBe(format);
  });
});

describe('writing a sheet', () => {
  it('writes no file for a misfit', async () => {
    const folder = tempFolder();
    const layout = layOutSheet(makePlan([6, 6, 6, 6, 6, 6]), sheetSpec.parse({ paperId: '8x10in' }));
    const path = join(folder, 'sheet.pdf');
    await expect(writeSheet(layout, makeFile(path), await makeSources(folder))).rejects.toMatchObject({
      code: 'paper_too_small',
    });
    expect(existsSync(path)).toBe(false);
  });

  it('leaves a file that is there as it is', async () => {
    const folder = tempFolder();
    const path = join(folder, 'sheet.pdf');
    writeFileSync(path, 'mine');
    await expect(writeSheet(small, makeFile(path), await makeSources(folder))).rejects.toMatchObject({
      code: 'file_exists',
    });
    expect(readFileSync(path, 'utf8')).toBe('mine');
  });

  it('replaces a file when told to', async () => {
    const folder = tempFolder();
    const path = join(folder, 'sheet.pdf');
    writeFileSync(path, 'mine');
    await writeSheet(small, makeFile(path, { overwrite: true }), await makeSources(folder));
    expect(readFileSync(path, 'latin1')).toMatch(/^%PDF/);
  });

  it.each(['png', 'tiff'] as const)(
    'writes %s of the size of the paper at its resolution',
    async (format) => {
      const folder = tempFolder();
      const path = join(folder, `sheet.${format}`);
      await writeSheet(small, makeFile(path, { format }), await makeSources(folder));
      // A4 at 100 ppi: 210 / 25.4 × 100 = 826.8, 297 / 25.4 × 100 = 1169.3.
      expect(await sharp(path).metadata()).toMatchObject({ width: 827, height: 1169 });
    },
  );

  it('numbers the pictures of several pages', async () => {
    const folder = tempFolder();
    const plan = { pages: [makePage([2]), makePage([2])] };
    const layout = layOutSheet(plan, sheetSpec.parse({}));
    const { files } = await writeSheet(
      layout,
      makeFile(join(folder, 'sheet.png'), { format: 'png', ppi: 40 }),
      await makeSources(folder),
    );
    expect(files).toEqual([join(folder, 'sheet-1.png'), join(folder, 'sheet-2.png')]);
    expect(files.every((file) => existsSync(file))).toBe(true);
  });

  it('tells which pictures could not be read and writes the rest', async () => {
    const folder = tempFolder();
    const sources = await makeSources(folder);
    const { files, unreadable } = await writeSheet(small, makeFile(join(folder, 'sheet.pdf')), {
      ...sources,
      pictureFile: (id) => (id === 'picture-2' ? join(folder, 'gone.jpg') : sources.pictureFile(id)),
    });
    expect(files).toHaveLength(1);
    expect(unreadable.map((picture) => picture.frameKey)).toEqual(['frame-2']);
  });

  it('leaves nothing behind when it is cancelled', async () => {
    const folder = tempFolder();
    const sources = await makeSources(folder, { signal: AbortSignal.abort() });
    await expect(writeSheet(small, makeFile(join(folder, 'sheet.pdf')), sources)).rejects.toMatchObject({
      name: 'AbortError',
    });
    expect(readdirSync(folder)).toEqual(['picture.png']);
  });

  it('writes no sheet without pages', async () => {
    const folder = tempFolder();
    const layout = { ...small, pages: [], frames: [] };
    await expect(
      writeSheet(layout, makeFile(join(folder, 'sheet.pdf')), await makeSources(folder)),
    ).rejects.toMatchObject({ code: 'sheet_empty' });
  });
});
