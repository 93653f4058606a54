import fc from 'fast-check';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { Readable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { createMadeFiles, safeName } from '../../../main/host/made-files.ts';

describe('safeName', () => {
  it('never leaves a folder in a name', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (name) => {
        const safe = safeName(name);
        expect(['/', '\\', '\0'].filter((part) => safe.includes(part))).toEqual([]);
        expect(['', '.', '..']).not.toContain(safe);
        expect(safe.length).toBeLessThanOrEqual(120);
      }),
    );
  });

  it('keeps an ordinary name with its ending', () => {
    expect(safeName('Binder 7, page 31.pdf')).toBe('Binder 7, page 31.pdf');
  });
});

describe('made files', () => {
  it('finds a reserved file only once it is written, and nothing after closing', async () => {
    const made = createMadeFiles();
    const { fileId } = made.reserve('sheet.pdf');
    expect(made.find(fileId)).toBeNull();
    const received = await made.receive('a.jpg', Readable.from([Buffer.from('abc')]));
    expect(readFileSync(received.path, 'utf8')).toBe('abc');
    made.close();
    expect(made.find(received.fileId)).toBeNull();
  });

  it('stops at the limit and leaves nothing behind', async () => {
    const made = createMadeFiles(10);
    let folder = '';
    const body = Readable.from(
      (async function* send() {
        yield Buffer.alloc(8);
        folder = dirname(made.reserve('beside').path);
        yield Buffer.alloc(8);
      })(),
    );
    await expect(made.receive('a.jpg', body)).rejects.toMatchObject({
      code: 'message_too_large',
      details: { bytes: 16, limit: 10 },
    });
    expect(readdirSync(dirname(folder))).toEqual([basename(folder)]);
    made.close();
    expect(existsSync(folder)).toBe(false);
  });
});
