import { execFileSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { createEngine } from '../../main/engine/engine.ts';
import { startWebHost } from '../../main/web/server.ts';
import { launchBrowser } from '../support/browser.ts';
import { askOf } from '../support/make-archive.ts';
import { readPdf } from '../support/read-pdf.ts';
import { checksums, makeScanFolder } from '../support/scan-folder.ts';
import { tempFolder } from '../support/temp-folder.ts';

const TOP = fileURLToPath(new URL('../..', import.meta.url));

let browser: Browser;
let windowFolder: string;

beforeAll(async () => {
  // A folder of its own: another test may be building into dist at the same time.
  windowFolder = join(TOP, 'node_modules', '.cache', `edgeprint-window-${process.pid}`);
  const build = [
    'node_modules/vite/bin/vite.js',
    'build',
    '--logLevel',
    'warn',
    '--config',
    'renderer/vite.config.ts',
  ];
  execFileSync(process.execPath, [...build, '--outDir', windowFolder, '--emptyOutDir'], {
    cwd: TOP,
    stdio: 'inherit',
  });
  browser = await launchBrowser();
}, 240_000);

afterAll(async () => {
  await browser.close();
  rmSync(windowFolder, { recursive: true, force: true });
});

describe('the main job in the window', () => {
  it(
    'takes a folder of scans to a filed page, a measured sheet and an answer',
    { timeout: 240_000 },
    async () => {
      const home = tempFolder();
      const scans = join(home, 'scans');
      await makeScanFolder(
        scans,
        Array.from({ length: 12 }, (_scan, at) => `frame ${at + 1}.jpg`),
      );
      const originals = checksums(scans);
      const bugs: unknown[] = [];
      const engine = createEngine();
      const ask = askOf(engine);
      const host = await startWebHost({
        engine,
        staticFolder: windowFolder,
        recentFile: join(home, 'recent.json'),
        version: '0.0.0',
        documentsFolder: home,
        onBug: (error) => void bugs.push(error),
        onQuit: () => undefined,
      });
      const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
      page.on('pageerror', (error) => void bugs.push(error));
      onTestFinished(async () => {
        await page.close();
        await host.close();
        await engine.close();
      });
      const go = (hash: string) => page.evaluate((to) => window.location.assign(to), hash);

      // An archive of one's own, at the first start.
      await page.goto(host.url);
      await page.getByLabel('Folder').fill(join(home, 'archive'));
      await page.getByRole('button', { name: 'Start my own' }).click();
      await page.getByRole('link', { name: 'Scans in', exact: true }).waitFor();
      const { id } = await ask('rolls.add', {
        number: 'R7',
        title: 'Harbour',
        filmFormat: '135',
        frameFormat: '24x36',
        exposures: 12,
      });

      // Scans in: the folder is read, what is proposed is recorded.
      await go(`#/scans?roll=${id}&folder=${encodeURIComponent(scans)}`);
      await page.getByRole('button', { name: 'Read the folder' }).click();
      await page.getByRole('button', { name: 'Record 12 scans on R7' }).click();
      await expect.poll(async () => (await ask('rolls.get', { id })).scans, { timeout: 60_000 }).toBe(12);

      // The roll is filed where the window proposes.
      await go(`#/binders?file=${id}`);
      await page.getByLabel('Its name').fill('Binder A');
      await page.getByRole('button', { name: 'File 12 frames' }).click();
      await expect
        .poll(async () => (await ask('rolls.get', { id })).state, { timeout: 60_000 })
        .toBe('filed');

      // Its sheet is saved, and its pictures measured in the file.
      const file = join(home, 'sheet.pdf');
      await go(`#/sheets?rolls=${id}`);
      await page.getByLabel('File', { exact: true }).fill(file);
      await page.getByRole('button', { name: 'Save PDF' }).click();
      await page.getByText(file).first().waitFor();
      await expect
        .poll(() => readWhenThere(file)?.subarray(0, 5).toString(), { timeout: 60_000 })
        .toBe('%PDF-');
      const [first, ...more] = (await readPdf(readFileSync(file))).pages;
      expect(more).toEqual([]);
      // Frames of 24 × 36 on 135 film are 36 × 24 mm; the ruler and the paper are measured in the painter's own tests.
      const sizes = (first?.images ?? []).map((image) => [
        Math.round(image.widthMm * 10) / 10,
        Math.round(image.heightMm * 10) / 10,
      ]);
      expect(sizes).toEqual(Array.from({ length: 12 }, () => [36, 24]));

      // Find: the words of its title, and where the frame lies.
      await go('#/find?words=harbour');
      await page.getByText('12 frames found').waitFor();
      const [frame] = await ask('frames.ofRoll', { rollId: id });
      const where = frame ? (await ask('frames.where', { frameId: frame.id })).lies : null;
      expect(where).toMatchObject({ page: 1, row: 1, position: 1 });
      await page.getByText('Where it is').waitFor();

      expect(checksums(scans)).toEqual(originals);
      expect(bugs).toEqual([]);
    },
  );
});

function readWhenThere(file: string): Buffer | null {
  try {
    return readFileSync(file);
  } catch {
    // Not written yet: the caller asks again.
    return null;
  }
}
