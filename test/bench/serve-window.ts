import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { createEngine, type Engine } from '../../main/engine/engine.ts';
import { startWebHost } from '../../main/web/server.ts';
import { launchBrowser } from '../support/browser.ts';

/** The window on an engine of this process, in a real browser. */
export interface ServedWindow {
  readonly engine: Engine;
  readonly browser: Browser;
  readonly page: Page;
  readonly url: string;
  close(): Promise<void>;
}

/** Builds the window, serves it and opens a page of 1440 × 900 that has not gone there yet. */
export async function serveWindow(): Promise<ServedWindow> {
  const top = fileURLToPath(new URL('../..', import.meta.url));
  const home = mkdtempSync(join(tmpdir(), 'edgeprint-window-'));
  const staticFolder = join(home, 'window');
  const build = [
    'node_modules/vite/bin/vite.js',
    'build',
    '--logLevel',
    'warn',
    '--config',
    'renderer/vite.config.ts',
  ];
  execFileSync(process.execPath, [...build, '--outDir', staticFolder, '--emptyOutDir'], {
    cwd: top,
    stdio: 'inherit',
  });
  const engine = createEngine();
  const host = await startWebHost({
    engine,
    staticFolder,
    recentFile: join(home, 'recent.json'),
    version: '0.0.0',
    documentsFolder: home,
    onBug: (error) => process.stderr.write(`${String(error)}\n`),
    onQuit: () => undefined,
  });
  const browser = await launchBrowser();
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  const close = async () => {
    await browser.close();
    await host.close();
    await engine.close();
    rmSync(home, { recursive: true, force: true });
  };
  return { engine, browser, page, url: host.url, close };
}
