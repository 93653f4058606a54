import fc from 'fast-check';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
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
  it('finds a reserved file only once it is written, and nothing after closing', () => {
    const made = createMadeFiles();
    const { fileId } = made.reserve('sheet.pdf');
    expect(made.find(fileId)).toBeNull();
    const received = made.receive('a.jpg', null, Buffer.from('abc'));
    made.receive('a.jpg', received.fileId, Buffer.from('def'));
    expect(readFileSync(received.path, 'utf8')).toBe('abcdef');
    made.close();
    expect(made.find(received.fileId)).toBeNull();
  });

  it('stops at the limit and leaves nothing behind', () => {
    const made = createMadeFiles(10);
    const { fileId, path } = made.receive('a.jpg', null, Buffer.alloc(8));
    const root = dirname(dirname(path));
    expect(readdirSync(root)).toEqual([fileId]);
    expect(() => made.receive('a.jpg', fileId, Buffer.alloc(8))).toThrow(
      expect.objectContaining({ code: 'message_too_large', details: { bytes: 16, limit: 10 } }),
    );
    expect(readdirSync(root)).toEqual([]);
    expect(() => made.receive('a.jpg', fileId, Buffer.alloc(1))).toThrow(
      expect.objectContaining({ code: 'file_missing' }),
    );
    made.close();
    expect(existsSync(root)).toBe(false);
  });
});
