import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { serveWindow } from './serve-window.ts';

// Takes a picture of every view of the sample archive in the three appearances, into screens/ (git ignores it):
// node test/bench/screens.ts

const FOLDER = fileURLToPath(new URL('../../screens', import.meta.url));
const VIEWS: Readonly<Record<string, string>> = {
  rolls: '#/rolls',
  roll: '#/rolls/1',
  'roll-120': '#/rolls/2',
  development: '#/development',
  'development-log': '#/development/2',
  binders: '#/binders',
  scans: '#/scans',
  sheet: '#/sheets?rolls=1',
  find: '#/find?words=harbour',
  which: '#/which',
  casts: '#/casts',
};

/** Long enough for pictures and the first measuring; a picture is for eyes, so nothing is asserted. */
const SETTLE_MS = 4000;

const home = mkdtempSync(join(tmpdir(), 'edgeprint-screens-'));
const { engine, page, url, close } = await serveWindow();
try {
  await engine.call('archive.makeSample', { folder: join(home, 'sample') });
  mkdirSync(FOLDER, { recursive: true });
  await page.goto(url);
  for (const appearance of ['dark', 'light', 'red'] as const) {
    for (const [name, hash] of Object.entries(VIEWS)) {
      await page.evaluate((to) => window.location.assign(to), hash);
      await page.evaluate(
        (look) => document.documentElement.setAttribute('data-appearance', look),
        appearance,
      );
      await page.waitForTimeout(SETTLE_MS);
      const path = join(FOLDER, `${name}-${appearance}.png`);
      await page.screenshot({ path });
      process.stdout.write(`${path}\n`);
    }
  }
} finally {
  await close();
  rmSync(home, { recursive: true, force: true });
}
