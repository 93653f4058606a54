import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { documentsFolder, settingsFolder } from '../../../main/host/user-folders.ts';

let home: string;

beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'edgeprint-test-'));
});
afterEach(() => rmSync(home, { recursive: true }));

describe('user folders', () => {
  it('keeps settings where Linux wants them', () => {
    const machine = { platform: 'linux', home: '/home/a', environment: {} };
    expect(settingsFolder(machine)).toBe('/home/a/.config/Edgeprint');
    expect(settingsFolder({ ...machine, environment: { XDG_CONFIG_HOME: '/c' } })).toBe('/c/Edgeprint');
  });

  it('takes the folder for documents that the desktop names', () => {
    mkdirSync(join(home, '.config'));
    mkdirSync(join(home, 'Dokumente'));
    writeFileSync(join(home, '.config', 'user-dirs.dirs'), 'XDG_DOCUMENTS_DIR="$HOME/Dokumente"\n');
    expect(documentsFolder({ platform: 'linux', home, environment: {} })).toBe(join(home, 'Dokumente'));
  });

  it('takes the home folder where there is none for documents', () => {
    expect(documentsFolder({ platform: 'linux', home, environment: {} })).toBe(home);
  });
});
