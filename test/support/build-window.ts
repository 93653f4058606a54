import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** Builds the window (and the desktop shell when asked) into dist, as a start would. */
export function buildWindow(withShell: boolean): void {
  const configs = ['renderer/vite.config.ts', ...(withShell ? ['main/desktop/vite.config.ts'] : [])];
  for (const config of configs) {
    execFileSync(
      process.execPath,
      ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn', '--config', config],
      {
        cwd: top,
        stdio: 'inherit',
      },
    );
  }
}
