import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { askCli, runCli } from '../../support/run-cli.ts';
import { checksums, makeScanFolder } from '../../support/scan-folder.ts';

const home = mkdtempSync(join(tmpdir(), 'edgeprint-main-job-'));
const archive = join(home, 'archive');
const scans = join(home, 'scans');
const labels = ['00', '0', ...Array.from({ length: 36 }, (_frame, at) => String(at + 1).padStart(2, '0'))];

function ask(...words: string[]) {
  return askCli([...words, '--archive', archive]);
}

/** One roll taken all the way; each test below looks at one step of it. */
describe('the main job on the command line', () => {
  let originals: ReadonlyMap<string, string>;
  let dry: unknown;
  let scanIn: unknown;
  let again: unknown;
  let filed: unknown;
  let sheet: unknown;

  beforeAll(async () => {
    await makeScanFolder(
      scans,
      labels.map((label) => `R7_${label}.jpg`),
    );
    originals = checksums(scans);
    await ask('init');
    await ask('stock', 'add', '--name', 'Fenn 200', '--iso', '200', '--process', 'c41');
    await ask('camera', 'add', '--name', 'Grey', '--format', '135', '--frame-format', '24x36');
    await ask('roll', 'add', '--number', 'R7', '--stock', 'Fenn 200', '--camera', 'Grey', '--format', '135', '--frame-format', '24x36', '--exposures', '36', '--title', 'Łódź 京都'); // prettier-ignore
    dry = (await ask('scan-in', scans, '--roll', 'R7', '--dry-run')).json;
    scanIn = (await ask('scan-in', scans, '--roll', 'R7')).json;
    again = (await ask('scan-in', scans, '--roll', 'R7')).json;
    await ask(
      'outing',
      'add',
      '--title',
      'Harbour',
      '--date',
      '1998-07',
      '--place',
      'Øresund',
      '--roll',
      'R7',
      '--frames',
      '00-12',
    );
    await ask('develop', 'add', '--rolls', 'R7', '--process', 'c41', '--date', '1998-08-02', '--developer-temp', '37.8', '--developer-time', '3:15'); // prettier-ignore
    await ask('frame', 'note', 'R7', '--frames', '5', '--caption', 'Straße am Abend', '--tags', 'night');
    filed = (await ask('file', '--roll', 'R7', '--binder', 'A', '--page', '3', '--layout', '35mm-6x6', '--cut', '6,6,6,6,6,6,2')).json; // prettier-ignore
    sheet = (await ask('sheet', '--roll', 'R7', '--paper', '11x14in', '--out', join(home, 'R7.pdf'))).json;
  }, 240_000);

  it('proposes a label, a reason and a confidence for every file without recording anything', () => {
    const alongTheFilm = [...filesOf(dry)].sort((a, b) => a.order - b.order);
    expect({ files: alongTheFilm }).toMatchObject({
      files: labels.map((label, at) => ({
        path: `R7_${label}.jpg`,
        frame: label === '00' ? '00' : String(Number(label)),
        order: at + 1,
        reason: expect.stringMatching(/\w/),
        confidence: expect.any(Number),
        state: 'done',
      })),
    });
  });

  it('ties every file to its frame', () => {
    expect(scanIn).toMatchObject({ files: labels.map(() => ({ state: 'done', code: null })) });
  });

  it('does the work once', () => {
    expect(again).toMatchObject({ files: labels.map(() => ({ state: 'skipped' })) });
  });

  it('places 36 frames in six rows of six, names two as left over', () => {
    const along = ['00', '0', ...Array.from({ length: 36 }, (_frame, at) => String(at + 1))];
    const placed = along.slice(0, 36).map((frame, at) => ({
      frame,
      binder: 'A',
      page: 3,
      row: Math.floor(at / 6) + 1,
      position: (at % 6) + 1,
    }));
    expect(filed).toMatchObject({ placements: placed, leftover: ['35', '36'] });
  });

  it('prints every frame at 36 × 24 mm, 38 mm apart along a strip', () => {
    // 135 film: 8 perforations × 4.75 mm = 38.00 mm from frame to frame (facts of the trade, ISO 1007).
    const { frames, misfit, pages, paper } = shapeOfSheet(sheet);
    expect({ misfit, count: frames.length }).toEqual({ misfit: null, count: 38 });
    expect(pages).toBeGreaterThan(0);
    const across = paper.widthMm > paper.heightMm ? paper.widthMm : paper.heightMm;
    expect(Math.abs(across - 14 * 25.4)).toBeLessThan(0.001);
    for (const frame of frames) {
      expect([frame.widthMm, frame.heightMm].map((mm) => Math.round(mm * 100) / 100)).toEqual([36, 24]);
    }
    const [first, second] = frames;
    if (!first || !second) throw new Error('No frames');
    expect(Math.abs(Math.hypot(second.xMm - first.xMm, second.yMm - first.yMm) - 38)).toBeLessThan(0.01);
    expect(readFileSync(join(home, 'R7.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('tells where a frame is and what made it', async () => {
    const { json } = await ask('where', 'R7/5');
    expect(json).toMatchObject({
      roll: 'R7',
      frame: '5',
      binder: 'A',
      page: 3,
      row: 2,
      position: 1,
      outing: { title: 'Harbour', date: '1998-07' },
      development: { process: 'c41', date: '1998-08-02' },
    });
  });

  it('finds a frame by words without their accents', async () => {
    const { json } = await ask('find', 'strasse');
    expect(json).toMatchObject({
      total: 1,
      hits: [{ roll: 'R7', frame: '5', page: 3, row: 2, position: 1 }],
    });
  });

  it('finds by the outing, which only some frames were on', async () => {
    const { json } = await ask('find', 'oresund', '--limit', '2');
    // 00, 0 and 1 to 12.
    expect(json).toMatchObject({ total: 14, hits: [{ frame: '00' }, { frame: '0' }] });
  });

  it('finds by two letters of a Japanese title', async () => {
    expect((await ask('find', '京都')).json).toMatchObject({ total: 38 });
  });

  it.each([
    [['--from', '1998', '--to', '1998'], 14],
    [['--to', '1998-06'], 0],
    [['--from', '1998-08'], 0],
  ])('finds by dates %j, vague ones by their span', async (dates, total) => {
    expect((await ask('find', ...dates)).json).toMatchObject({ total });
  });

  it('says by how much a page does not fit the paper, writes nothing', async () => {
    const out = join(home, 'small.pdf');
    const { code, json } = await ask('sheet', '--roll', 'R7', '--paper', '8x10in', '--out', out);
    expect({ code, written: existsSync(out) }).toEqual({ code: 1, written: false });
    expect(json).toMatchObject({
      misfit: { byMm: expect.any(Number), offers: expect.any(Array) },
      error: { code: 'paper_too_small' },
    });
  });

  it('never touched a scan', () => {
    expect(checksums(scans)).toEqual(originals);
  });

  it('answers wrong usage with 2', async () => {
    expect((await runCli(['where', '--archive', archive])).code).toBe(2);
    expect((await runCli(['no-such', '--archive', archive])).code).toBe(2);
    expect((await runCli(['find', 'x', '--colour', 'red', '--archive', archive])).code).toBe(2);
    expect((await runCli(['find', 'x'])).code).toBe(2);
  });
});

function filesOf(json: unknown): readonly { readonly order: number }[] {
  return (json as { files: { order: number }[] }).files;
}

interface SheetShape {
  readonly pages: number;
  readonly paper: { readonly widthMm: number; readonly heightMm: number };
  readonly misfit: unknown;
  readonly frames: readonly { xMm: number; yMm: number; widthMm: number; heightMm: number }[];
}

function shapeOfSheet(json: unknown): SheetShape {
  return json as SheetShape;
}
