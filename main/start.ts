import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

// `npm start`: builds the window and opens it on the desktop; without an Electron runtime or a display it serves
// the same window on this machine instead. `npm start -- --web` does that on purpose.

const top = fileURLToPath(new URL('..', import.meta.url));
const vite = join(top, 'node_modules', 'vite', 'bin', 'vite.js');

/** How long fetching the runtime may take, in milliseconds: 100 MB over a slow line. */
const FETCH_MS = 600_000;

/** Runs a program to its end, sharing this one's terminal unless it is to be quiet; gives its exit code. */
function run(program: string, args: readonly string[], { quiet = false, timeout = 0 } = {}): Promise<number> {
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd: top,
      stdio: quiet ? 'ignore' : 'inherit',
      timeout,
      // The web host has the engine in itself. Two arenas keep the memory of image work flat; glibc reads this once,
      // at the start of a process.
      env: { ...process.env, MALLOC_ARENA_MAX: process.env['MALLOC_ARENA_MAX'] ?? '2' },
    });
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => child.kill(signal));
    child.once('error', () => resolve(1));
    child.once('exit', (code) => resolve(code ?? 1));
  });
}

/** The Electron of this machine: the one named in the environment, else the one that npm has brought. */
function findElectron(): string | null {
  const packageFolder = join(top, 'node_modules', 'electron');
  const pathFile = join(packageFolder, 'path.txt');
  const inside = existsSync(pathFile) ? readFileSync(pathFile, 'utf8').trim() : defaultProgram();
  const folder = process.env.ELECTRON_OVERRIDE_DIST_PATH ?? join(packageFolder, 'dist');
  const program = join(folder, inside);
  return existsSync(program) ? program : null;
}

/** Fetches the runtime of the installed Electron, once; where that cannot be done there is none. */
async function fetchElectron(): Promise<string | null> {
  process.stdout.write('Fetching the Electron runtime, once.\n');
  const script = join(top, 'node_modules', 'electron', 'install.js');
  await run(process.execPath, [script], { quiet: true, timeout: FETCH_MS });
  return findElectron();
}

function defaultProgram(): string {
  if (process.platform === 'darwin') return 'Electron.app/Contents/MacOS/Electron';
  return process.platform === 'win32' ? 'electron.exe' : 'electron';
}

function hasDisplay(): boolean {
  return process.platform !== 'linux' || Boolean(process.env.DISPLAY ?? process.env.WAYLAND_DISPLAY);
}

async function start(): Promise<number> {
  const args = process.argv.slice(2).filter((arg) => arg !== '--web');
  for (const config of ['renderer/vite.config.ts', 'main/desktop/vite.config.ts']) {
    const code = await run(process.execPath, [
      vite,
      'build',
      '--logLevel',
      'warn',
      '--config',
      join(top, config),
    ]);
    if (code !== 0) return code;
  }
  if (!process.argv.includes('--web')) {
    const electron = hasDisplay() ? (findElectron() ?? (await fetchElectron())) : null;
    if (electron !== null) {
      // As root there is no sandbox to be had; for everyone else there is one, and it is used.
      const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
      return run(electron, [...asRoot, top, ...args]);
    }
    const why = hasDisplay() ? 'No Electron runtime can be had' : 'There is no display';
    process.stdout.write(`${why}, so the window is served on this machine instead.\n`);
  }
  return run(process.execPath, [join(top, 'main', 'web', 'main.ts'), ...args]);
}

process.exitCode = await start();
