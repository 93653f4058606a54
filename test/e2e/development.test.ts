import { execFileSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { createEngine } from '../../main/engine/engine.ts';
import { startWebHost } from '../../main/web/server.ts';
import { launchBrowser } from '../support/browser.ts';
import { askOf } from '../support/make-archive.ts';
import { tempFolder } from '../support/temp-folder.ts';

const TOP = fileURLToPath(new URL('../..', import.meta.url));
const START = new Date('2026-05-02T10:00:00Z');

let browser: Browser;
let windowFolder: string;

beforeAll(async () => {
  windowFolder = join(TOP, 'node_modules', '.cache', `edgeprint-window-${process.pid}`);
  // A folder of its own: another test may be building into dist at the same time.
  const vite = 'node_modules/vite/bin/vite.js build --logLevel warn --config renderer/vite.config.ts'.split(
    ' ',
  );
  execFileSync(process.execPath, [...vite, '--outDir', windowFolder, '--emptyOutDir'], {
    cwd: TOP,
    stdio: 'inherit',
  });
  browser = await launchBrowser();
}, 240_000);

afterAll(async () => {
  await browser.close();
  rmSync(windowFolder, { recursive: true, force: true });
});

/** A window on an archive with two colour rolls, a developer that has done four rolls, and a bleach-fix. */
async function openWindow() {
  const folder = tempFolder();
  const bugs: unknown[] = [];
  const engine = createEngine({ now: () => START });
  const ask = askOf(engine);
  await ask('archive.create', { folder: join(folder, 'archive') });
  const { id: stockId } = await ask('stocks.add', { name: 'Fenn 200', iso: 200, process: 'c41' });
  const rollIds: number[] = [];
  for (const number of ['2026-031', '2026-032']) {
    const facts = { number, stockId, filmFormat: '135', frameFormat: '24x36', state: 'to develop' } as const;
    rollIds.push((await ask('rolls.add', facts)).id);
  }
  const developer = await ask('baths.add', {
    name: 'Developer May',
    kind: 'developer',
    process: 'c41',
    // 80 sq in are 516.128 cm²: eight rolls, four of them done.
    capacityCm2: 8 * 516.128,
    usedBeforeCm2: 4 * 516.128,
    extension: { kind: 'percent', percentPerRoll: 2, source: { kind: 'yours', text: 'test' } },
  });
  const bleachFix = await ask('baths.add', { name: 'Bleach-fix May', kind: 'bleach_fix', process: 'c41' });
  const host = await startWebHost({
    engine,
    staticFolder: windowFolder,
    recentFile: join(folder, 'recent.json'),
    version: '0.0.0',
    documentsFolder: folder,
    onBug: (error) => void bugs.push(error),
    onQuit: () => undefined,
  });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.on('pageerror', (error) => void bugs.push(error));
  await page.clock.install({ time: START });
  onTestFinished(async () => {
    await page.close();
    await host.close();
    await engine.close();
    expect(bugs).toEqual([]);
  });
  await page.goto(host.url);
  await page.getByRole('link', { name: 'Development', exact: true }).waitFor();
  const bathIds = [developer.id, bleachFix.id];
  return {
    ask,
    page,
    rollIds,
    bathIds,
    /** Opens the run sheet of a run that waits for its first pour. */
    async openRun() {
      const { id } = await ask('developments.start', { rollIds, process: 'c41', bathIds });
      await page.evaluate((hash) => window.location.assign(hash), `#/development/${id}/run`);
      await page.getByRole('button', { name: /^Read/ }).click();
      return id;
    },
  };
}

/** Digits, clock and space bar of the sheet. */
function sheetOf(page: Page) {
  return {
    /** Seconds shown, and the clocks of the page at the same moment. */
    look: () =>
      page.evaluate(() => {
        const [minutes = '', seconds = ''] =
          document.querySelector('[role="timer"]')?.textContent?.split(':') ?? [];
        const shownSeconds = Number(minutes) * 60 + Number(seconds);
        return { shownSeconds, nowMs: Date.now(), runningMs: performance.now() };
      }),
    async pass(seconds: number) {
      await page.clock.fastForward(seconds * 1000);
    },
    async space(followed: string) {
      await page.keyboard.press('Space');
      await page.getByRole('heading', { name: followed, level: 1 }).waitFor();
    },
  };
}

/** Digits change by whole seconds and a busy machine looks at the clock late: this much may lie between, seconds. */
const LATE_SECONDS = 2.5;

describe('developing in the window', () => {
  it('goes from plan to run, over a reload, to log, bath and rolls', async () => {
    const { ask, page, bathIds, rollIds } = await openWindow();
    const sheet = sheetOf(page);
    await page.getByRole('link', { name: 'Development', exact: true }).click();
    await page.getByRole('button', { name: 'Plan a development' }).click();
    await page.getByRole('checkbox', { name: /2026-031/ }).check();
    await page.getByRole('checkbox', { name: /2026-032/ }).check();
    await page.getByRole('checkbox', { name: /Developer May/ }).check();
    await page.getByRole('checkbox', { name: /Bleach-fix May/ }).check();
    await page.getByRole('button', { name: 'Open the run sheet' }).click();

    await page.getByRole('heading', { name: 'Before you pour' }).waitFor();
    await sheet.space('Ready?');
    await page.getByText('The developer has not been measured.').waitFor();
    const field = page.getByRole('textbox', { name: 'Temperature in °C' });
    await field.fill('378');
    await field.press('Enter');
    await page.getByText('Is 37.8 °C meant?').waitFor();
    await page.getByRole('button', { name: 'Enter it again' }).click();
    await field.fill('37.9');
    await field.press('Enter');
    await page.getByText('Developer and baths are as they should be.').waitFor();

    await sheet.space('Pre-soak');
    await sheet.pass(61);
    await sheet.space('Developer');
    await sheet.pass(120);
    await field.fill('37.4');
    await page.keyboard.press('Space');
    await page.getByText(/mean so far 37\.4/).waitFor();

    const [open] = await ask('developments.list', {});
    const id = open?.id ?? 0;
    const pourings = async () =>
      (await ask('developments.get', { id })).events.filter((event) => event.kind === 'step_started');
    const pouredMs = (await pourings())[1]?.atMs ?? 0;
    await page.reload();
    await page.getByRole('timer', { name: 'Elapsed' }).waitFor();
    const seen = await sheet.look();
    const truly = (seen.nowMs - pouredMs) / 1000;
    expect(truly).toBeGreaterThan(120);
    expect(Math.abs(seen.shownSeconds - truly)).toBeLessThan(LATE_SECONDS);

    // 195 × 1.08 = 210.6, to the whole second 3:31; pouring out begins 10 s before (NAVEDTRA 14209).
    await page.clock.pauseAt(pouredMs + 203_000);
    await page.getByText('Pour out', { exact: true }).waitFor();
    expect((await sheet.look()).shownSeconds).toBe(203);
    await page.clock.resume();
    await sheet.pass(9);
    await sheet.space('Bleach-fix');
    await sheet.pass(391);
    await sheet.space('Wash');
    await sheet.pass(181);
    await sheet.space('Stabiliser');
    await sheet.pass(61);
    await sheet.space('The run is done');
    await page.getByRole('button', { name: 'File the development' }).click();
    await page.getByRole('heading', { name: /Development \d+, done/ }).waitFor();

    const poured = (await pourings()).map((event) => event.atMs);
    const { steps } = await ask('developments.get', { id });
    expect(steps[1]).toMatchObject({ name: 'Developer', plannedSeconds: 211, actualC: 37.4 });
    // From one pouring in to the next, as the window noted them.
    expect(steps[1]?.actualSeconds).toBeCloseTo(((poured[2] ?? 0) - (poured[1] ?? 0)) / 1000, 6);
    // Four rolls before and two of 135-36 now.
    expect((await ask('baths.get', { id: bathIds[0] ?? 0 })).bath.rollsDone).toBeCloseTo(6, 9);
    for (const id of rollIds) expect((await ask('rolls.get', { id })).state).toBe('developed');
  }, 240_000);

  it('goes on at the same second when the clock of the machine is set back', async () => {
    const { page, openRun } = await openWindow();
    const sheet = sheetOf(page);
    await openRun();
    await sheet.space('Pre-soak');
    await sheet.pass(30);
    const before = await sheet.look();
    await page.clock.setSystemTime(before.nowMs - 600_000);
    await page.waitForFunction((nowMs) => Date.now() < nowMs - 500_000, before.nowMs);
    await page.waitForTimeout(3000);
    const after = await sheet.look();
    const ran = (after.runningMs - before.runningMs) / 1000;
    expect(Math.abs(after.shownSeconds - before.shownSeconds - ran)).toBeLessThan(LATE_SECONDS);
  }, 240_000);
});

describe('the deep red of the run sheet', () => {
  it('has no green and no blue in any pixel, and is not black', async () => {
    const { page, openRun } = await openWindow();
    const sheet = sheetOf(page);
    const { length } = await takeShots(page, openRun, sheet);
    expect(length).toBe(4);
  }, 240_000);

  it('has no target under 44 pixels', async () => {
    const { page, openRun } = await openWindow();
    await openRun();
    await sheetOf(page).space('Pre-soak');
    const boxes = await page.locator('.run-sheet button, .run-sheet input').evaluateAll((targets) =>
      targets.map((target) => {
        const { width, height } = target.getBoundingClientRect();
        return { name: target.textContent, least: Math.min(width, height) };
      }),
    );
    expect(boxes.length).toBeGreaterThan(8);
    // WCAG 2.2, success criterion 2.5.5 (AAA): 44 by 44.
    expect(boxes.filter(({ least }) => least < 44)).toEqual([]);
  }, 240_000);
});

/** Pictures of the sheet before, in and after a run; each is held against the rule. */
async function takeShots(
  page: Page,
  openRun: () => Promise<number>,
  sheet: ReturnType<typeof sheetOf>,
): Promise<readonly string[]> {
  const looked: string[] = [];
  async function look(name: string): Promise<void> {
    const { channels } = await sharp(await page.screenshot())
      .removeAlpha()
      .stats();
    expect({ name, most: channels.map((channel) => channel.max) }).toEqual({ name, most: [255, 0, 0] });
    looked.push(name);
  }
  await openRun();
  await look('ready');
  await sheet.space('Pre-soak');
  await page.getByRole('textbox', { name: 'Temperature in °C' }).fill('38.2');
  await page.keyboard.press('Space');
  await page.getByText(/mean so far/).waitFor();
  await look('running, the figure in focus');
  await page.getByRole('button', { name: 'Stop the run' }).click();
  await page.getByRole('dialog').waitFor();
  await look('a dialog over it');
  await page.getByRole('dialog').getByRole('button', { name: 'Stop the run' }).click();
  await page.getByRole('heading', { name: 'The run was stopped' }).waitFor();
  await look('filing');
  return looked;
}
