import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createRecentArchives } from '../../../main/host/recent-archives.ts';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'edgeprint-test-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('recent archives', () => {
  it('lists the newest first and each folder once', () => {
    const recent = createRecentArchives(join(folder, 'a', 'recent.json'));
    recent.remember({ folder: '/one', name: 'One' }, '2026-01-01T00:00:00.000Z');
    recent.remember({ folder: '/two', name: 'Two' }, '2026-01-02T00:00:00.000Z');
    recent.remember({ folder: '/one', name: 'One' }, '2026-01-03T00:00:00.000Z');
    expect(recent.list().map((entry) => [entry.folder, entry.openedAt])).toEqual([
      ['/one', '2026-01-03T00:00:00.000Z'],
      ['/two', '2026-01-02T00:00:00.000Z'],
    ]);
  });

  it('says which are there at present', () => {
    mkdirSync(join(folder, 'here'));
    writeFileSync(join(folder, 'here', 'archive.sqlite'), '');
    const recent = createRecentArchives(join(folder, 'recent.json'));
    recent.remember({ folder: '/nowhere/at/all', name: 'Away' }, '2026-01-01T00:00:00.000Z');
    recent.remember({ folder: join(folder, 'here'), name: 'Here' }, '2026-01-01T00:00:00.000Z');
    expect(recent.list().map((entry) => [entry.name, entry.present])).toEqual([
      ['Here', true],
      ['Away', false],
    ]);
  });

  it('forgets a folder', () => {
    const recent = createRecentArchives(join(folder, 'recent.json'));
    recent.remember({ folder: '/one', name: 'One' }, '2026-01-01T00:00:00.000Z');
    recent.forget('/one');
    expect(recent.list()).toEqual([]);
  });

  it.each(['', '{', '{}', '[1,null,{"folder":1}]', '[{"folder":"/a","name":"A","openedAt":"yesterday"}]'])(
    'takes the damaged list %j for an empty one',
    (text) => {
      writeFileSync(join(folder, 'recent.json'), text);
      expect(createRecentArchives(join(folder, 'recent.json')).list()).toEqual([]);
    },
  );
});
