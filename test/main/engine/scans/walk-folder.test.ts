import { chmodSync, mkdirSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { walkFolder } from '../../../../main/engine/scans/walk-folder.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

function put(top: string, ...names: string[]): void {
  for (const name of names) {
    mkdirSync(dirname(join(top, name)), { recursive: true });
    writeFileSync(join(top, name), 'x');
  }
}

async function pathsIn(top: string): Promise<string[]> {
  return (await walkFolder(top)).files.map((file) => file.relativePath);
}

describe('walking a folder', () => {
  it('lists files in natural order', async () => {
    const top = tempFolder();
    put(top, 'scan10.jpg', 'scan2.jpg', 'scan1.jpg', 'b/scan1.tif', 'a/scan1.tif');
    expect(await pathsIn(top)).toEqual([
      'a/scan1.tif',
      'b/scan1.tif',
      'scan1.jpg',
      'scan2.jpg',
      'scan10.jpg',
    ]);
  });

  it('tells size and time of change', async () => {
    const top = tempFolder();
    put(top, 'a.jpg');
    const [file] = (await walkFolder(top)).files;
    expect(file).toMatchObject({ sizeBytes: 1, absolutePath: join(top, 'a.jpg') });
    expect(Number((file?.modifiedNs ?? 0n) / 1_000_000n)).toBeGreaterThan(Date.UTC(2020, 0, 1));
  });

  it('passes over litter, with its folders whole', async () => {
    const top = tempFolder();
    put(top, 'a.jpg', '._a.jpg', 'Thumbs.db', '@eaDir/a.jpg/T.jpg', '.hidden/b.jpg', 'c.tif.part', '~d.tif');
    const walked = await walkFolder(top);
    expect(walked.files.map((file) => file.relativePath)).toEqual(['a.jpg']);
    expect(walked.skipped.map(({ path }) => path).sort()).toEqual([
      '._a.jpg',
      '.hidden',
      '@eaDir',
      'Thumbs.db',
      'c.tif.part',
      '~d.tif',
    ]);
    expect(walked.skipped.some(({ matters }) => matters)).toBe(false);
  });

  it('says which kinds of picture it passed over', async () => {
    const top = tempFolder();
    put(top, 'a.heic', 'notes.txt');
    const { skipped } = await walkFolder(top);
    const matters = Object.fromEntries(skipped.map((entry) => [entry.path, entry.matters]));
    expect(matters).toEqual({ 'a.heic': true, 'notes.txt': false });
  });

  it('looks into files whose name says nothing', async () => {
    const top = tempFolder();
    put(top, 'scan0001');
    writeFileSync(join(top, 'scan0002'), Buffer.from([0xff, 0xd8, 0xff, 0xe0]));
    expect(await pathsIn(top)).toEqual(['scan0002']);
  });

  it('ends where a link leads back to its own parent', async () => {
    const top = tempFolder();
    put(top, 'link-loop/a.jpg');
    symlinkSync('..', join(top, 'link-loop/self'));
    const walked = await walkFolder(top);
    expect(walked.files.map((file) => file.relativePath)).toEqual(['link-loop/a.jpg']);
    expect(walked.skipped.map(({ path }) => path)).toEqual(['link-loop/self']);
  });

  it('gives a folder its own path where a link leads there too', async () => {
    const top = tempFolder();
    put(top, 'z/a.jpg');
    symlinkSync('z', join(top, 'link'));
    expect(await pathsIn(top)).toEqual(['z/a.jpg']);
  });

  it('follows a link to a folder elsewhere', async () => {
    const [top, elsewhere] = [tempFolder(), tempFolder()];
    put(elsewhere, 'a.jpg');
    symlinkSync(elsewhere, join(top, 'drive'));
    expect(await pathsIn(top)).toEqual(['drive/a.jpg']);
  });

  it('lists a link that leads nowhere', async () => {
    const top = tempFolder();
    symlinkSync('/nonexistent/gone.jpg', join(top, 'gone.jpg'));
    const { skipped } = await walkFolder(top);
    expect(skipped).toEqual([{ path: 'gone.jpg', reason: 'a link that leads nowhere', matters: true }]);
  });

  it('goes on past a folder that may not be read', async () => {
    const top = tempFolder();
    put(top, 'closed/a.jpg', 'open/b.jpg');
    chmodSync(join(top, 'closed'), 0o000);
    const walked = await walkFolder(top);
    chmodSync(join(top, 'closed'), 0o700);
    const paths = walked.files.map((file) => file.relativePath);
    // Root may read everything; then there is nothing to pass over.
    const mayReadAll = process.getuid?.() === 0;
    const skipped = { path: 'closed', reason: 'this folder may not be read', matters: true };
    expect({ paths, skipped: walked.skipped }).toEqual({
      paths: mayReadAll ? ['closed/a.jpg', 'open/b.jpg'] : ['open/b.jpg'],
      skipped: mayReadAll ? [] : [skipped],
    });
  });

  it('keeps names exactly as the file system spells them', async () => {
    const top = tempFolder();
    const names = [
      'Z\u00fcrich Caf\u00e9/\u00dcbung_01.jpg',
      'Zu\u0308rich Cafe\u0301/U\u0308bung_01.jpg',
      'hash #12/50% off?/a&b +c=d;e.jpg',
      'emoji \u{1f39e}\ufe0f/frame 1 \u{1f4f7}.jpg',
      'spaces  double /  leading 01.jpg',
      'tab/tab\there 01.jpg',
      `${'a folder name that is rather long/'.repeat(8)}0036.jpg`,
    ];
    put(top, ...names);
    expect((await pathsIn(top)).sort()).toEqual([...names].sort());
  });

  it('lists a name that is not text', async () => {
    const top = tempFolder();
    const path = Buffer.concat([Buffer.from(`${top}/`), Buffer.from([0xff, 0xfe]), Buffer.from('.jpg')]);
    try {
      writeFileSync(path, 'x');
    } catch {
      // A file system that has only Unicode names cannot hold such a file: nothing to look at then.
      return;
    }
    expect((await walkFolder(top)).skipped).toMatchObject([
      { reason: 'its name is not text', matters: true },
    ]);
  });

  it('refuses a folder that is not there', async () => {
    await expect(walkFolder(join(tempFolder(), 'gone'))).rejects.toMatchObject({ code: 'folder_missing' });
  });

  it('stops when it is called off', async () => {
    const top = tempFolder();
    put(top, 'a.jpg');
    await expect(walkFolder(top, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'cancelled',
    });
  });

  it('leaves the folder free to be moved', async () => {
    const top = tempFolder();
    put(top, 'roll/a.jpg');
    await walkFolder(top);
    renameSync(join(top, 'roll'), join(top, 'moved'));
    expect(await pathsIn(top)).toEqual(['moved/a.jpg']);
  });
});
