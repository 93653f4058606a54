import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createEngine } from '../../../main/engine/engine.ts';
import {
  startEngineProcess,
  type EngineProcess,
  type EngineProcessState,
} from '../../../main/desktop/engine-process.ts';
import { findPlaces } from '../../../main/desktop/places.ts';
import { firstWindowSize, readWindowPlace, writeWindowPlace } from '../../../main/desktop/window-place.ts';

const entry = fileURLToPath(new URL('../../../main/engine-entry.ts', import.meta.url));

let folder: string;
let engine: EngineProcess;
let states: EngineProcessState[];
let failures: string[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'edgeprint-test-'));
  states = [];
  failures = [];
});
afterEach(() => rmSync(folder, { recursive: true }));

function start(path = entry): void {
  engine = startEngineProcess({
    nodePath: process.execPath,
    entry: path,
    onFailure: (_reference, how) => failures.push(how),
  });
  engine.onState((state) => states.push(state));
}

function untilState(wanted: EngineProcessState): Promise<void> {
  return new Promise((resolve) => {
    const off = engine.onState((state) => {
      if (state !== wanted) return;
      off();
      resolve();
    });
  });
}

describe('the engine in a process of its own', () => {
  it('answers the contract and nothing beside it', async () => {
    start();
    expect(await engine.service.call('archive.state', {})).toBeNull();
    await expect(engine.service.call('previews.file', {})).rejects.toMatchObject({ code: 'method_unknown' });
    await expect(engine.service.call('__proto__', {})).rejects.toMatchObject({ code: 'method_unknown' });
    expect(await engine.previewFile('../../etc/passwd', 'small')).toBeNull();
    await engine.close();
  });

  it('is started again after a crash, with its archive open', async () => {
    start();
    await engine.service.call('archive.create', { folder: join(folder, 'archive') });
    // The archive says which process holds it, and the list of what was opened last has to be up to date.
    const pid = Number(readFileSync(join(folder, 'archive', 'archive.pid'), 'utf8'));
    await engine.service.call('archive.state', {});
    const running = untilState('running');
    const failed = new Promise((resolve) => engine.onFailed(resolve));
    process.kill(pid, 'SIGKILL');
    const pending = engine.service.call('archive.state', {});
    await expect(pending).rejects.toMatchObject({ code: 'engine_stopped' });
    expect(await failed).toMatchObject({ code: 'internal', details: { reference: expect.any(String) } });
    await running;
    expect(failures).toEqual(['ended with SIGKILL']);
    expect(await engine.service.call('archive.state', {})).toMatchObject({ folder: join(folder, 'archive') });
    await engine.close();
  });

  it('closes its archive in order, so that another engine can open it at once', async () => {
    start();
    await engine.service.call('archive.create', { folder: join(folder, 'archive') });
    await engine.close();
    const other = createEngine();
    expect(await other.call('archive.open', { folder: join(folder, 'archive') })).toMatchObject({ rolls: 0 });
    await other.close();
  });

  it('waits for the user once it has failed too often', async () => {
    const broken = join(folder, 'broken.ts');
    writeFileSync(broken, 'process.exit(3);');
    start(broken);
    await expect.poll(() => failures.length, { timeout: 20_000 }).toBe(4);
    // The fourth failure within a minute is one above what is allowed: no fifth start follows by itself.
    await new Promise((resolve) => setTimeout(resolve, 1500));
    expect(failures).toEqual(Array.from({ length: 4 }, () => 'ended with 3'));
    const again = untilState('failed');
    engine.restart();
    await again;
    expect(failures.length).toBe(5);
    await engine.close();
  });

  it('says so when there is no Node to run it', async () => {
    const failed = new Promise<string>((resolve) => {
      engine = startEngineProcess({
        nodePath: join(folder, 'no-node'),
        entry,
        onFailure: (_reference, how) => resolve(how),
      });
    });
    expect(await failed).toContain('ENOENT');
    await engine.close();
  });
});

describe('the place of a window', () => {
  const screens = [{ x: 0, y: 0, width: 1920, height: 1080 }];
  const place = { x: 100, y: 50, width: 1440, height: 900, maximised: false };

  it('is remembered', () => {
    const file = join(folder, 'window.json');
    writeWindowPlace(file, place);
    expect(readWindowPlace(file, screens)).toEqual(place);
  });

  it.each([
    ['on a screen that is gone', { ...place, x: 2500 }],
    ['above the screen', { ...place, y: -400 }],
    ['with its title below the screen', { ...place, y: 1060 }],
    ['too small to see', { ...place, width: 10 }],
    ['of text', { ...place, x: '100' }],
  ])('is forgotten when it lies %s', (_where, wrong) => {
    const file = join(folder, 'window.json');
    writeFileSync(file, JSON.stringify(wrong));
    expect(readWindowPlace(file, screens)).toBeNull();
  });

  it.each(['', '{', 'null', '[]'])('is forgotten when it reads %j', (text) => {
    const file = join(folder, 'window.json');
    writeFileSync(file, text);
    expect(readWindowPlace(file, screens)).toBeNull();
  });

  it('fits a small screen at first', () => {
    // Nine tenths of 1280 × 720.
    expect(firstWindowSize({ x: 0, y: 0, width: 1280, height: 720 })).toEqual({ width: 1152, height: 648 });
  });
});

describe('the parts of the program', () => {
  it('lie outside the app archive in a package, where a plain Node can read them', () => {
    const places = findPlaces('/opt/Edgeprint/resources/app.asar', '/opt/Edgeprint/resources', true, 'linux');
    expect(places.engineEntry).toBe('/opt/Edgeprint/resources/app.asar.unpacked/main/engine-entry.ts');
    expect(places.renderer).toBe('/opt/Edgeprint/resources/app.asar/dist/renderer');
  });
});
