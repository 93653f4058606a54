import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isAppError } from '../../../shared/api/errors.ts';
import { makeArchive } from '../../support/make-archive.ts';
import { makeJpegScan } from '../../support/make-scan.ts';
import { tempFolder } from '../../support/temp-folder.ts';

async function codeOf(work: Promise<unknown>): Promise<string> {
  try {
    await work;
  } catch (error) {
    return isAppError(error) ? error.code : String(error);
  }
  return 'nothing was refused';
}

describe('the engine', () => {
  it('keeps the open archive when another one cannot be opened', async () => {
    const { ask, folder } = await makeArchive();
    expect(await codeOf(ask('archive.open', { folder: join(tempFolder(), 'absent') }))).toBe(
      'archive_missing',
    );
    expect(await ask('archive.state', {})).toMatchObject({ folder });
  });

  it('gives an open archive again when it is opened twice', async () => {
    const { ask, folder } = await makeArchive();
    expect(await ask('archive.open', { folder })).toMatchObject({ folder });
  });

  it('refuses a path with a NUL in words, not as a fault of the program', async () => {
    const { ask } = await makeArchive();
    expect(await codeOf(ask('scans.read', { folder: '/tmp/\0' }))).toBe('value_not_valid');
  });

  it('refuses methods that are none, those of every object included', async () => {
    const { engine } = await makeArchive();
    for (const name of ['rolls.explode', '__proto__', 'constructor', 'toString', '']) {
      expect(await codeOf(engine.call(name, {}))).toBe('method_unknown');
    }
  });

  it('tells what changed after it was changed', async () => {
    const { engine, ask } = await makeArchive();
    const topics: string[][] = [];
    engine.onEvent((event) => {
      if (event.type === 'changed') topics.push(event.topics);
    });
    await ask('binders.add', { name: 'A' });
    expect(topics).toEqual([['binders']]);
  });

  it('takes a filing back, and makes it again', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('rolls.add', { filmFormat: '135', frameFormat: '24x36', exposures: 36 });
    await ask('filing.file', { rollId: id, binder: 'A', page: null, layoutId: '35mm-6x6', cut: null });
    const filed = await ask('rolls.get', { id });
    expect(filed).toMatchObject({ state: 'filed', pages: [{ binder: 'A', page: 1 }] });
    await ask('archive.undo', {});
    expect(await ask('rolls.get', { id })).toMatchObject({ state: 'on hand', pages: [], frames: 0 });
    await ask('archive.redo', {});
    expect(await ask('rolls.get', { id })).toEqual(filed);
  });

  it('files two short rolls on one page and refuses a third where it is full', async () => {
    const { ask } = await makeArchive();
    const add = async (exposures: number) =>
      (await ask('rolls.add', { filmFormat: '135', frameFormat: '24x36', exposures })).id;
    const choice = { binder: 'A', page: 1, layoutId: '35mm-6x6', cut: null };
    const first = await ask('filing.file', { ...choice, rollId: await add(12) });
    const second = await ask('filing.file', { ...choice, rollId: await add(24) });
    // Rows of 6: 12 exposures take rows 1 and 2, 24 the four rows that are left.
    expect([...new Set(first.placements.map((placement) => placement.row))]).toEqual([1, 2]);
    expect([...new Set(second.placements.map((placement) => placement.row))]).toEqual([3, 4, 5, 6]);
    expect(await codeOf(ask('filing.file', { ...choice, rollId: await add(12) }))).toBe('pocket_taken');
  });

  it('goes on over two pages when asked', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('rolls.add', { filmFormat: '135', frameFormat: '24x36', exposures: 36 });
    await ask('frames.add', {
      rollId: id,
      labels: ['00', '0', ...Array.from({ length: 36 }, (_frame, at) => String(at + 1))],
    });
    const filed = await ask('filing.file', {
      rollId: id,
      binder: 'A',
      page: null,
      layoutId: '35mm-6x6',
      cut: null,
      morePages: true,
    });
    expect(filed.leftover).toEqual([]);
    expect(filed.placements.at(-1)).toMatchObject({ frame: '36', page: 2, row: 1, position: 2 });
  });

  it('recognises a scan that was moved, with the frame it shows', async () => {
    const { ask, engine } = await makeArchive();
    const { id } = await ask('rolls.add', { number: '7', filmFormat: '135', frameFormat: '24x36' });
    const home = tempFolder();
    const before = join(home, 'before');
    mkdirSync(before);
    writeFileSync(join(before, 'frame 5.jpg'), await makeJpegScan());
    await engine.jobReport((await ask('scans.read', { folder: home })).id);
    const { files } = await ask('scans.propose', { folder: before, rollId: id, options: {} });
    const [file] = files;
    if (!file?.scanId) throw new Error('The scan was not read');
    await ask('scans.accept', {
      rollId: id,
      files: [{ ...file, scanId: file.scanId }].map(({ scanId, version, reason, confidence, frames }) => ({
        scanId,
        version,
        reason,
        confidence,
        frames,
      })),
    });
    const { renameSync } = await import('node:fs');
    renameSync(before, join(home, 'after'));
    await engine.jobReport((await ask('scans.read', { folder: home })).id);
    expect(await ask('scans.get', { id: file.scanId })).toMatchObject({
      path: join(home, 'after', 'frame 5.jpg'),
      missing: false,
      frames: [{ roll: '7', label: '5' }],
    });
  });
});
