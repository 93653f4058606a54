import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sourceFromBuffer } from '../../../../main/engine/scans/byte-source.ts';
import {
  bytesOf,
  numberOf,
  numbersOf,
  readDirectoryAt,
  readTiff,
  type TiffFile,
} from '../../../../main/engine/scans/tiff-directory.ts';
import { TIFF_TAG } from '../../../../main/engine/scans/tiff-tags.ts';
import { drawQuarters } from '../../../support/make-scan.ts';
import { writeTiff, type TiffPageToWrite } from '../../../support/write-tiff.ts';

const PAGE: TiffPageToWrite = {
  width: 12,
  height: 8,
  channels: 3,
  bits: 8,
  photometric: 2,
  pixels: drawQuarters(12, 8),
  tags: { [TIFF_TAG.make]: 'ExampleScan', [TIFF_TAG.resolutionUnit]: [3], [TIFF_TAG.orientation]: [6] },
  rationals: { [TIFF_TAG.xResolution]: 66.667 },
  exif: { [TIFF_TAG.dateTimeDigitized]: '2019:11:02 21:04:05' },
};
const SMALL: TiffPageToWrite = { ...PAGE, width: 6, height: 4, pixels: drawQuarters(6, 4) };

async function read(bytes: Buffer): Promise<TiffFile> {
  const result = await readTiff(sourceFromBuffer(bytes));
  if (!result.ok) throw new Error(result.reason);
  return result.value;
}

describe('TIFF directories', () => {
  it.each([
    { bigEndian: false, big: false },
    { bigEndian: true, big: false },
    { bigEndian: false, big: true },
    { bigEndian: true, big: true },
  ])('are read alike in every byte order and size: %o', async (options) => {
    const bytes = writeTiff([{ ...PAGE, subPages: [SMALL] }, SMALL], options);
    const file = await read(bytes);
    const [first, second] = file.pages;
    if (!first || !second) throw new Error('pages are missing');
    expect(numberOf(first.directory, TIFF_TAG.imageWidth, 0)).toBe(12);
    expect(numbersOf(first.directory, TIFF_TAG.bitsPerSample)).toEqual([8, 8, 8]);
    expect(numberOf(first.directory, TIFF_TAG.xResolution, 0)).toBeCloseTo(66.667, 3);
    expect(bytesOf(first.directory, TIFF_TAG.make)?.toString()).toBe('ExampleScan\0');
    expect(first.subDirectories.map((sub) => numberOf(sub, TIFF_TAG.imageLength, 0))).toEqual([4]);
    expect(numberOf(second.directory, TIFF_TAG.imageLength, 0)).toBe(4);
    const at = numberOf(first.directory, TIFF_TAG.exifDirectory, 0);
    const exif = await readDirectoryAt(file, sourceFromBuffer(bytes), at);
    expect(exif === null ? null : bytesOf(exif, TIFF_TAG.dateTimeDigitized)?.toString('latin1', 0, 4)).toBe(
      '2019',
    );
  });

  it('end where the chain runs in a circle', async () => {
    const bytes = writeTiff([PAGE]);
    const at = bytes.readUInt32LE(4);
    const count = bytes.readUInt16LE(at);
    bytes.writeUInt32LE(at, at + 2 + count * 12);
    expect(await read(bytes)).toMatchObject({ looped: true, pages: [{}] });
  });

  it('keep the pages before a chain breaks off', async () => {
    const bytes = writeTiff([PAGE]);
    const at = bytes.readUInt32LE(4);
    bytes.writeUInt32LE(0x7fffffff, at + 2 + bytes.readUInt16LE(at) * 12);
    expect(await read(bytes)).toMatchObject({ broken: true, pages: [{}] });
  });

  it('say that a file ends before its directory', async () => {
    const whole = writeTiff([PAGE]);
    const cut = whole.subarray(0, whole.readUInt32LE(4) - 10);
    expect(await readTiff(sourceFromBuffer(cut))).toEqual({ ok: false, reason: 'directory_not_written' });
  });

  it('do without a value that lies behind the end', async () => {
    const bytes = writeTiff([PAGE]);
    const at = bytes.readUInt32LE(4);
    const entries = bytes.readUInt16LE(at);
    for (let i = 0; i < entries; i++) {
      const entry = at + 2 + i * 12;
      if (bytes.readUInt16LE(entry) === TIFF_TAG.make) bytes.writeUInt32LE(bytes.length, entry + 8);
    }
    const [page] = (await read(bytes)).pages;
    expect(page === undefined ? undefined : bytesOf(page.directory, TIFF_TAG.make)).toBeNull();
  });

  it('read only directories and the values that are used', async () => {
    const bytes = writeTiff([{ ...PAGE, width: 600, height: 400, pixels: drawQuarters(600, 400) }]);
    let count = 0;
    const source = sourceFromBuffer(bytes);
    await readTiff({
      sizeBytes: source.sizeBytes,
      read: async (offset, length) => {
        const piece = await source.read(offset, length);
        count += piece.length;
        return piece;
      },
    });
    // 720 000 bytes of pixels; the directory has 15 entries.
    expect(count).toBeLessThan(1000);
  });

  it('never fail, whatever the bytes', async () => {
    const whole = writeTiff([{ ...PAGE, subPages: [SMALL] }, SMALL], { big: false });
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { maxLength: 40 }),
        fc.nat(whole.length),
        async (changes, length) => {
          const bytes = Buffer.from(whole);
          for (const [at, value] of changes) bytes[at] = value;
          const result = await readTiff(sourceFromBuffer(bytes.subarray(0, length)));
          expect(typeof result.ok).toBe('boolean');
        },
      ),
    );
  });
});
