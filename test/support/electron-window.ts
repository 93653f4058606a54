import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { chromium, type Page } from 'playwright-core';

/** A real window of the desktop shell, driven from outside. */
export interface ElectronWindow {
  readonly page: Page;
  /** A folder of its own: its settings are in it, and archives of the test may be. */
  readonly folder: string;
  close(): Promise<void>;
}

const XVFB = '/usr/bin/xvfb-run';

/**
 * The Electron program of this machine, or null: the one whose folder the environment names, else the one that npm
 * has brought. Only where there is a display, or one can be made.
 */
export function findElectron(): string | null {
  const folders = [process.env.ELECTRON_OVERRIDE_DIST_PATH, 'node_modules/electron/dist'];
  const program = folders
    .flatMap((folder) => (folder === undefined ? [] : [join(folder, 'electron')]))
    .find((path) => existsSync(path));
  const canShow = process.env.DISPLAY !== undefined || existsSync(XVFB);
  return program !== undefined && process.platform === 'linux' && canShow ? program : null;
}

/** Starts the program with `args` (an app folder for a plain Electron, nothing for a package) and waits for its page. */
export async function openElectronWindow(program: string, args: readonly string[]): Promise<ElectronWindow> {
  const folder = mkdtempSync(join(tmpdir(), 'edgeprint-window-'));
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  // Port 0: the browser chooses one and writes it down. No GPU: a software renderer needs no crash of one first.
  const all = [...asRoot, '--disable-gpu', '--remote-debugging-port=0', ...args];
  const [run, ...first] = process.env.DISPLAY === undefined ? [XVFB, '-a', program] : [program];
  const child = spawn(run ?? program, [...first, ...all], {
    env: { ...process.env, XDG_CONFIG_HOME: folder },
    stdio: ['ignore', 'ignore', 'pipe'],
    detached: true,
  });
  let said = '';
  child.stderr?.on('data', (text: Buffer) => (said += text.toString()));
  try {
    return {
      page: await findPage(join(folder, 'Edgeprint'), child),
      folder,
      close: () => end(child, folder),
    };
  } catch (error) {
    await end(child, folder);
    throw new Error(`The window did not open. It said:\n${said}`, { cause: error });
  }
}

async function findPage(settings: string, child: ChildProcess): Promise<Page> {
  const portFile = join(settings, 'DevToolsActivePort');
  for (let tries = 0; tries < 240 && child.exitCode === null; tries += 1) {
    const port = existsSync(portFile) ? readFileSync(portFile, 'utf8').split('\n')[0] : '';
    const page = port === '' ? undefined : await connectTo(`http://127.0.0.1:${port}`);
    if (page) return page;
    await wait(250);
  }
  throw new Error('There is no page');
}

/** How long one connection may take, in ms. */
const PATIENCE_MS = 15_000;

async function connectTo(address: string): Promise<Page | undefined> {
  // Without defaults: a shell's browser lets nobody set where its downloads go.
  // A busy machine lets a connection hang that is made while the browser is still starting; another one is made then.
  const browser = await chromium
    .connectOverCDP(address, { noDefaults: true, timeout: PATIENCE_MS })
    .catch(() => undefined);
  if (!browser) return undefined;
  const page = browser.contexts()[0]?.pages()[0];
  if (!page) await browser.close();
  return page;
}

async function end(child: ChildProcess, folder: string): Promise<void> {
  if (child.exitCode === null && child.pid !== undefined) {
    const gone = once(child, 'exit');
    // The whole group: the display, the shell, its helpers and the engine.
    process.kill(-child.pid, 'SIGTERM');
    await Promise.race([gone, wait(10_000)]);
    if (child.exitCode === null && child.signalCode === null) process.kill(-child.pid, 'SIGKILL');
  }
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
}
