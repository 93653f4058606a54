import axe from 'axe-core';
import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contentTypeOf, findStaticFile } from '../../../main/host/static-files.ts';
import { launchBrowser } from '../../support/browser.ts';

let folder: string;
let server: Server;
let origin: string;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'edgeprint-kit-'));
  await build({
    configFile: fileURLToPath(new URL('vite.config.ts', import.meta.url)),
    build: { outDir: folder, emptyOutDir: true },
  });
  server = createServer((request, response) => {
    const file = findStaticFile(folder, new URL(request.url ?? '/', 'http://127.0.0.1').pathname);
    if (file === null) return response.writeHead(404).end();
    response.setHeader('content-type', contentTypeOf(file));
    return readFile(file).then((bytes) => response.end(bytes));
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  origin = `http://127.0.0.1:${typeof address === 'object' ? address?.port : ''}`;
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
});
afterAll(async () => {
  await browser.close();
  server.close();
  rmSync(folder, { recursive: true });
});

async function show(choices: string): Promise<void> {
  await page.goto(`${origin}/?${choices}`);
  await page.getByRole('row', { name: /2024-000003/ }).waitFor();
  await page.evaluate('document.fonts.ready.then(() => 0)');
}

/** The largest green and blue of any pixel of the page, and the largest red. */
async function brightest(): Promise<{ red: number; green: number; blue: number }> {
  const picture = sharp(await page.screenshot({ animations: 'disabled' }));
  const { channels } = await picture.stats();
  const max = (channel: number) => channels[channel]?.max ?? Number.NaN;
  return { red: max(0), green: max(1), blue: max(2) };
}

describe.each(['dark', 'light', 'red'])('the kit on the %s ground', (appearance) => {
  it.each([appearance, `${appearance}&dialog`])(
    'gives axe nothing to find, contrast included (%s)',
    async (choices) => {
      await show(`appearance=${choices}`);
      await page.evaluate(axe.source);
      const found: unknown = await page.evaluate(
        `axe.run().then(({ violations }) => violations.flatMap(({ id, nodes }) =>
        nodes.map((node) => id + ' ' + node.html.slice(0, 100) + ' ' + (node.any[0]?.message ?? ''))))`,
      );
      expect(found).toEqual([]);
    },
  );
});

describe('the deep red ground', () => {
  it.each(['appearance=red', 'appearance=red&dialog'])(
    'has no green and no blue in any pixel (%s)',
    async (choices) => {
      await show(choices);
      await page.getByRole('textbox').first().focus();
      expect(await brightest()).toEqual({ red: 255, green: 0, blue: 0 });
    },
  );

  it('has none with a list open and text selected either', async () => {
    await show('appearance=red');
    await page.getByRole('textbox', { name: 'Lens' }).selectText();
    expect(await brightest()).toEqual({ red: 255, green: 0, blue: 0 });
    await page.getByRole('combobox', { name: /Order/ }).press('Enter');
    expect(await brightest()).toEqual({ red: 255, green: 0, blue: 0 });
  });
});

describe('the greys', () => {
  it.each(['dark', 'light'])('have no colour where there is no pencil (%s)', async (appearance) => {
    await show(`appearance=${appearance}`);
    // The list has neither pencil nor picture. Text is smoothed in grey only.
    const box = { x: 0, y: 60, width: 1000, height: 600 };
    const { data, info } = await sharp(await page.screenshot({ clip: box }))
      .raw()
      .toBuffer({ resolveWithObject: true });
    let widest = 0;
    for (let at = 0; at < data.length; at += info.channels) {
      const [red = 0, green = 0, blue = 0] = [data[at], data[at + 1], data[at + 2]];
      widest = Math.max(widest, Math.max(red, green, blue) - Math.min(red, green, blue));
    }
    expect(widest).toBeLessThanOrEqual(1);
  });
});

describe('a long list in a real browser', () => {
  it('scrolls 100 000 rows to their end with few elements in the page', async () => {
    await show('appearance=dark');
    await page.getByRole('row', { name: /2024-000003/ }).focus();
    await page.keyboard.press('End');
    await page.getByRole('row', { name: /2024-099999/ }).waitFor();
    expect(await page.getByRole('grid').locator('*').count()).toBeLessThan(700);
    expect(await page.evaluate('document.activeElement.dataset.index')).toBe('99999');
  });

  it('keeps headings and cells in line in a narrow window', async () => {
    await page.setViewportSize({ width: 640, height: 600 });
    await show('appearance=dark');
    const apart: unknown = await page.evaluate(`(() => {
      const lefts = (role) => [...document.querySelectorAll('[role=' + role + ']')].slice(0, 4)
        .map((cell) => cell.getBoundingClientRect()).map(({ left, right }) => [left, right]).flat();
      const cells = lefts('gridcell');
      return Math.max(...lefts('columnheader').map((x, index) => Math.abs(x - cells[index])));
    })()`);
    expect(apart).toBeLessThan(0.5);
    await page.setViewportSize({ width: 1440, height: 900 });
  });

  it('holds nothing back sideways at twice the text size', async () => {
    await page.setViewportSize({ width: 720, height: 450 });
    await show('appearance=dark');
    const wider: unknown = await page.evaluate('document.documentElement.scrollWidth > window.innerWidth');
    expect(wider).toBe(false);
    await page.setViewportSize({ width: 1440, height: 900 });
  });
});
