import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createEngine } from '../../main/engine/engine.ts';
import { buildWindow } from '../support/build-window.ts';
import { findElectron, openElectronWindow, type ElectronWindow } from '../support/electron-window.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const electron = findElectron();

describe.runIf(electron === null)('a package', () => {
  it('is not made here: there is no Electron runtime, or no display', () => {
    process.stdout.write('Without an Electron runtime and a display no package is made and started.\n');
    expect(electron).toBeNull();
  });
});

describe.runIf(electron !== null)('a package', () => {
  let folder: string;
  let unpacked: string;
  let shown: ElectronWindow;

  /** The version that a runtime's folder says it is, or the one that npm would bring. */
  function runtimeVersion(runtime: string): string {
    const said = join(runtime, 'version');
    const manifest: unknown = JSON.parse(
      readFileSync(join(top, 'node_modules/electron/package.json'), 'utf8'),
    );
    return existsSync(said)
      ? readFileSync(said, 'utf8').trim()
      : String(Reflect.get(Object(manifest), 'version'));
  }

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'edgeprint-package-'));
    const runtime = dirname(electron ?? '');
    // A runtime of before Electron 29 has no such fuse, and the builder stops at one it does not know.
    const text = readFileSync(join(top, 'electron-builder.yml'), 'utf8');
    const older = process.env.ELECTRON_OVERRIDE_DIST_PATH !== undefined;
    const config = join(folder, 'electron-builder.yml');
    writeFileSync(config, older ? text.replace(/^.*grantFileProtocolExtraPrivileges.*\n/m, '') : text);
    buildWindow(true);
    execFileSync(
      process.execPath,
      [
        join(top, 'node_modules/electron-builder/cli.js'),
        '--linux',
        'dir',
        '--config',
        config,
        `-c.electronDist=${runtime}`,
        `-c.electronVersion=${runtimeVersion(runtime)}`,
        `-c.directories.output=${folder}`,
      ],
      { cwd: top, stdio: 'pipe' },
    );
    unpacked = join(folder, 'linux-unpacked');
    const archive = join(folder, 'archive');
    const engine = createEngine();
    await engine.call('archive.create', { folder: archive });
    await engine.close();
    shown = await openElectronWindow(join(unpacked, 'edgeprint'), []);
  }, 180_000);
  afterAll(async () => {
    // Undefined when it never opened: then that is what the run says, not this.
    await shown?.close();
    rmSync(folder, { recursive: true });
  });

  it('brings its own Node and the sources of the engine', () => {
    const resources = join(unpacked, 'resources');
    const node = join(resources, 'node', 'node');
    expect(execFileSync(node, ['--version'], { encoding: 'utf8' })).toMatch(/^v24\./);
    expect(existsSync(join(resources, 'app.asar.unpacked/main/engine-entry.ts'))).toBe(true);
    expect(existsSync(join(resources, 'app.asar.unpacked/main/cli'))).toBe(false);
  });

  it('opens an archive', async () => {
    await shown.page.getByRole('textbox', { name: 'Folder' }).fill(join(folder, 'archive'));
    await shown.page.getByRole('button', { name: 'Open the archive in this folder' }).click();
    await shown.page.getByRole('banner').waitFor();
    expect(await shown.page.getByRole('banner').textContent()).toContain('0 rolls, all saved');
  });

  it('does not run as a Node of any script', () => {
    const script = join(folder, 'script.cjs');
    writeFileSync(script, `require('node:fs').writeFileSync(${JSON.stringify(join(folder, 'ran'))}, '')`);
    try {
      execFileSync(join(unpacked, 'edgeprint'), [script], {
        env: { ...process.env, ELECTRON_RUN_AS_NODE: '1', DISPLAY: '' },
        timeout: 5000,
        stdio: 'ignore',
      });
    } catch {
      // It may end in any way it likes, as long as the script has not run.
    }
    expect(existsSync(join(folder, 'ran'))).toBe(false);
  });
});
