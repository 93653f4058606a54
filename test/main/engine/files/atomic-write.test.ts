import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeFileAtomically } from '../../../../main/engine/files/atomic-write.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

describe('an atomic write', () => {
  it('writes the content and leaves nothing else in the folder', async () => {
    const folder = tempFolder();
    await writeFileAtomically(join(folder, 'a.txt'), 'content', { overwrite: false });
    expect(readdirSync(folder)).toEqual(['a.txt']);
    expect(readFileSync(join(folder, 'a.txt'), 'utf8')).toBe('content');
  });

  it('refuses to replace a file unless told to', async () => {
    const path = join(tempFolder(), 'a.txt');
    writeFileSync(path, 'mine');
    await expect(writeFileAtomically(path, 'yours', { overwrite: false })).rejects.toMatchObject({
      code: 'file_exists',
      details: { path },
    });
    expect(readFileSync(path, 'utf8')).toBe('mine');
  });

  it('replaces a file when told to', async () => {
    const path = join(tempFolder(), 'a.txt');
    writeFileSync(path, 'mine');
    await writeFileAtomically(path, 'yours', { overwrite: true });
    expect(readFileSync(path, 'utf8')).toBe('yours');
  });

  it('says that nothing was written where the folder is missing', async () => {
    const path = join(tempFolder(), 'no-folder', 'a.txt');
    await expect(writeFileAtomically(path, 'x', { overwrite: false })).rejects.toMatchObject({
      code: 'file_not_written',
    });
  });

  it('removes what it began when the last step fails', async () => {
    const folder = tempFolder();
    // A folder in the way: the rename onto it fails after everything was written.
    mkdirSync(join(folder, 'a.txt', 'inside'), { recursive: true });
    await expect(writeFileAtomically(join(folder, 'a.txt'), 'x', { overwrite: true })).rejects.toMatchObject({
      code: 'file_not_written',
    });
    expect(readdirSync(folder)).toEqual(['a.txt']);
  });

  it('takes names as long as the system does', async () => {
    const folder = tempFolder();
    const name = `${'é'.repeat(125)}.txt`;
    await writeFileAtomically(join(folder, name), 'x', { overwrite: false });
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it('lets only one of many writers of a new file win', async () => {
    const path = join(tempFolder(), 'a.txt');
    const results = await Promise.allSettled(
      Array.from({ length: 8 }, (_, index) => writeFileAtomically(path, String(index), { overwrite: false })),
    );
    expect(results.filter((result) => result.status === 'fulfilled')).toHaveLength(1);
  });
});
