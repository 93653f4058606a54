import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildWindow } from '../support/build-window.ts';
import { findElectron, openElectronWindow, type ElectronWindow } from '../support/electron-window.ts';

const top = fileURLToPath(new URL('../..', import.meta.url));
const electron = findElectron();

describe.runIf(electron === null)('the desktop window', () => {
  it('is not opened here: there is no Electron runtime, or no display', () => {
    process.stdout.write('Without an Electron runtime and a display the desktop window is not tested.\n');
    expect(electron).toBeNull();
  });
});

describe.runIf(electron !== null)('the desktop window', () => {
  let shown: ElectronWindow;
  let archive: string;

  beforeAll(async () => {
    buildWindow(true);
    shown = await openElectronWindow(electron ?? '', [top]);
    archive = join(shown.folder, 'archive');
  });
  afterAll(() => shown.close());

  it('opens on its first heading', async () => {
    await shown.page.getByRole('heading', { level: 1, name: 'Where the film is kept' }).waitFor();
    expect(shown.page.url()).toBe('edgeprint://app/');
  });

  it('gives its page two doors and nothing of Node', async () => {
    const seen: unknown = await shown.page.evaluate(
      '[typeof process, typeof require, typeof module, Object.keys(window.edgeprint).sort().join()]',
    );
    expect(seen).toEqual(['undefined', 'undefined', 'undefined', 'engine,host']);
  });

  it.each([
    ['a file of the disk', 'file:///etc/passwd', 'refused'],
    ['another site', 'https://example.org/', 'refused'],
    ['a file above its own', '/../package.json', 404],
    ['a preview there is none of', '/preview/small/..%2f..%2farchive.sqlite', 404],
    ['another host of its scheme', 'edgeprint://other/index.html', 'refused'],
  ])('fetches not %s', async (_what, address, outcome) => {
    const fetched = `fetch(${JSON.stringify(address)}).then((answer) => answer.status, () => 'refused')`;
    expect(await shown.page.evaluate(fetched)).toBe(outcome);
  });

  it('denies what pages may ask of a system', async () => {
    const asked = `Promise.all(['geolocation', 'camera', 'microphone', 'notifications', 'midi'].map((name) =>
      navigator.permissions.query({ name }).then(({ state }) => state)))`;
    expect(await shown.page.evaluate(asked)).toEqual(['denied', 'denied', 'denied', 'denied', 'denied']);
  });

  it('makes an archive through its engine', async () => {
    await shown.page.getByRole('textbox', { name: 'Folder' }).fill(archive);
    await shown.page.getByRole('button', { name: 'Start my own' }).click();
    await shown.page.getByRole('banner').waitFor();
    expect(await shown.page.getByRole('banner').textContent()).toContain('0 rolls, all saved');
  });

  it('shows that the engine has crashed, and comes back with the archive open', async () => {
    process.kill(Number(readFileSync(join(archive, 'archive.pid'), 'utf8')), 'SIGKILL');
    const panel = shown.page.getByRole('main', { name: 'The part that keeps the archive has stopped' });
    await panel.waitFor();
    expect(await panel.textContent()).toContain('What was saved before is safe');
    await shown.page.getByRole('banner').waitFor();
    expect(await shown.page.getByRole('banner').textContent()).toContain('0 rolls, all saved');
  });

  // Last, since the driver goes on waiting for a navigation that was prevented.
  it('opens no other window and goes to no other page', async () => {
    expect(await shown.page.evaluate('String(window.open("https://example.org/"))')).toBe('null');
    await shown.page.evaluate('location.assign("https://example.org/"), 0');
    await shown.page.evaluate('location.assign("file:///etc/passwd"), 0');
    expect(shown.page.url()).toBe('edgeprint://app/');
  });
});
