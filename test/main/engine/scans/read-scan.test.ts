import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { describe, expect, it } from 'vitest';
import { makePreview } from '../../../../main/engine/scans/make-preview.ts';
import { readScan, type ScanReading } from '../../../../main/engine/scans/read-scan.ts';
import { describeReason, describeRemark } from '../../../../main/engine/scans/scan-reason.ts';
import { TIFF_TAG } from '../../../../main/engine/scans/tiff-tags.ts';
import {
  deepen,
  drawQuarters,
  makeJpegScan,
  QUARTERS,
  readMean,
  readQuarters,
} from '../../../support/make-scan.ts';
import { tempFolder } from '../../../support/temp-folder.ts';
import { writeTiff, type TiffOptions, type TiffPageToWrite } from '../../../support/write-tiff.ts';

const TODAY = '2026-01-01';
const WIDTH = 120;
const HEIGHT = 80;
/** JPEG of plain quarters at quality 82: far below what anyone sees. */
const TOLERANCE = 3;

const RGB8: TiffPageToWrite = {
  width: WIDTH,
  height: HEIGHT,
  channels: 3,
  bits: 8,
  photometric: 2,
  pixels: drawQuarters(WIDTH, HEIGHT),
};
const RGB16: TiffPageToWrite = {
  ...RGB8,
  bits: 16,
  pixels: deepen(drawQuarters(WIDTH, HEIGHT)),
  deflate: true,
};
const SMALL: TiffPageToWrite = { ...RGB8, width: 30, height: 20, pixels: drawQuarters(30, 20) };

function read(bytes: Buffer, name = 'scan.tif'): Promise<ScanReading> {
  const path = join(tempFolder(), name);
  writeFileSync(path, bytes);
  return readScan(path, { today: TODAY });
}

function readTiffPages(pages: readonly TiffPageToWrite[], options: TiffOptions = {}): Promise<ScanReading> {
  return read(writeTiff(pages, options));
}

function large(reading: ScanReading, index = reading.mainPage ?? 0): Buffer {
  return reading.pages[index]?.preview?.large ?? Buffer.alloc(0);
}

async function worstQuarter(
  jpeg: Buffer,
  expected: readonly (readonly number[])[] = QUARTERS,
): Promise<number> {
  const found = await readQuarters(jpeg);
  return Math.max(
    ...expected.flatMap((colour, i) =>
      colour.map((value, channel) => Math.abs(value - (found[i]?.[channel] ?? -99))),
    ),
  );
}

/** Interleaves a further sample into RGB pixels. */
function withSample(pixels: Uint16Array, sample: (pixel: number) => number): Uint16Array {
  const out = new Uint16Array((pixels.length / 3) * 4);
  for (let i = 0; i < pixels.length / 3; i++) {
    out.set(pixels.subarray(i * 3, i * 3 + 3), i * 4);
    out[i * 4 + 3] = sample(i);
  }
  return out;
}

describe('reading a scan', () => {
  it('gives checksum, size, kind and state', async () => {
    const bytes = writeTiff([RGB8]);
    expect(await read(bytes)).toMatchObject({
      sha256: createHash('sha256').update(bytes).digest('hex'),
      sizeBytes: bytes.length,
      kind: 'tiff',
      state: 'complete',
      reason: null,
      mainPage: 0,
      pages: [{ index: 0, role: 'scan', width: WIDTH, height: HEIGHT, bits: 8, channels: 3, orientation: 1 }],
    });
  });

  it.each([
    { bigEndian: false, big: false },
    { bigEndian: true, big: false },
    { bigEndian: false, big: true },
    { bigEndian: true, big: true },
  ])('shows the colours of 8 and 16 bits in any byte order: %o', async (options) => {
    for (const page of [RGB8, RGB16]) {
      expect(await worstQuarter(large(await readTiffPages([page], options)))).toBeLessThan(TOLERANCE);
    }
  });

  it('knows a picture by its content', async () => {
    const jpeg = await makeJpegScan();
    expect(await read(jpeg, 'named.tif')).toMatchObject({ kind: 'jpeg', state: 'complete' });
    const raw = { raw: { width: WIDTH, height: HEIGHT, channels: 3 as const } };
    const png = await sharp(drawQuarters(WIDTH, HEIGHT), raw).png().toBuffer();
    expect(await read(png, 'named.jpg')).toMatchObject({ kind: 'png', state: 'complete' });
    const webp = await sharp(drawQuarters(WIDTH, HEIGHT), raw).webp({ lossless: true }).toBuffer();
    const reading = await read(webp, 'named.png');
    expect(reading).toMatchObject({ kind: 'webp', state: 'complete' });
    expect(await worstQuarter(large(reading))).toBeLessThan(TOLERANCE);
  });

  it('leaves the file free to be moved', async () => {
    const folder = tempFolder();
    mkdirSync(join(folder, 'roll'));
    writeFileSync(join(folder, 'roll/a.tif'), writeTiff([RGB16]));
    await readScan(join(folder, 'roll/a.tif'), { today: TODAY });
    renameSync(join(folder, 'roll'), join(folder, 'moved'));
    expect((await readScan(join(folder, 'moved/a.tif'), { today: TODAY })).state).toBe('complete');
  });

  it('refuses a path where nothing is', async () => {
    await expect(readScan(join(tempFolder(), 'gone.jpg'), { today: TODAY })).rejects.toMatchObject({
      code: 'file_missing',
    });
  });

  it('declares its previews as sRGB', async () => {
    const preview = (await readTiffPages([RGB16])).pages[0]?.preview;
    for (const jpeg of [preview?.large, preview?.small]) {
      const { icc, channels, orientation } = await sharp(jpeg ?? Buffer.alloc(0)).metadata();
      expect({ icc: icc?.toString('latin1', 36, 40), channels, orientation }).toEqual({
        icc: 'acsp',
        channels: 3,
        orientation: undefined,
      });
    }
  });

  it('makes only the small preview when asked for a first pass', async () => {
    const path = join(tempFolder(), 'a.tif');
    const big = { ...RGB8, width: 2000, height: 1000, pixels: drawQuarters(2000, 1000) };
    writeFileSync(path, writeTiff([big]));
    const quick = (await readScan(path, { today: TODAY, size: 'small' })).pages[0]?.preview;
    expect(quick).toMatchObject({ large: null, smallWidth: 256, smallHeight: 128 });
    const whole = await makePreview(path, 0);
    const { width, height } = await sharp(whole.large ?? Buffer.alloc(0)).metadata();
    expect({ width, height }).toEqual({ width: 1600, height: 800 });
  });
});

describe('orientation', () => {
  /** Where the quarters of the upright picture lie once it is stored so. Source: Exif 2.32 4.6.4, tag 274. */
  const STORE: Record<number, (picture: Sharp) => Sharp> = {
    1: (picture) => picture,
    2: (picture) => picture.flop(),
    3: (picture) => picture.rotate(180),
    4: (picture) => picture.flip(),
    // 5: row 0 is the left side, column 0 the top: a transposition; 7: the other diagonal.
    5: (picture) => picture.flop().rotate(270),
    6: (picture) => picture.rotate(270),
    7: (picture) => picture.flop().rotate(90),
    8: (picture) => picture.rotate(90),
  };

  it.each([1, 2, 3, 4, 5, 6, 7, 8])('%i is applied once, to a TIFF and to a JPEG', async (orientation) => {
    const upright = sharp(drawQuarters(WIDTH, HEIGHT), {
      raw: { width: WIDTH, height: HEIGHT, channels: 3 },
    });
    const { data, info } = await (STORE[orientation] ?? ((picture) => picture))(upright)
      .raw()
      .toBuffer({ resolveWithObject: true });
    const tags = { [TIFF_TAG.orientation]: [orientation] };
    const stored = { ...RGB8, width: info.width, height: info.height, pixels: new Uint8Array(data), tags };
    const tiff = await readTiffPages([stored]);
    expect(tiff.pages[0]).toMatchObject({ width: WIDTH, height: HEIGHT, orientation });
    expect(await worstQuarter(large(tiff))).toBeLessThan(TOLERANCE);

    const exif = writeTiff([{ ...SMALL, tags }]);
    const jpeg = await sharp(data, { raw: { width: info.width, height: info.height, channels: 3 } })
      .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
      .toBuffer();
    const segment = Buffer.concat([Buffer.from('\xff\xe1\0\0Exif\0\0', 'latin1'), exif]);
    segment.writeUInt16BE(segment.length - 2, 2);
    const withExif = Buffer.concat([jpeg.subarray(0, 2), segment, jpeg.subarray(2)]);
    const reading = await read(withExif, 'a.jpg');
    expect(reading.pages[0]).toMatchObject({ width: WIDTH, height: HEIGHT, orientation });
    expect(await worstQuarter(large(reading))).toBeLessThan(TOLERANCE);
  });
});

describe('infrared', () => {
  const dusty = withSample(deepen(drawQuarters(WIDTH, HEIGHT)), (pixel) => (pixel % 7 === 0 ? 0 : 40_000));

  it.each([
    ['unspecified', [0]],
    ['associated alpha', [1]],
    ['unassociated alpha', [2]],
    ['not at all', null],
  ])('in a fourth sample tagged as %s never touches the picture', async (_, extra) => {
    const tags = extra === null ? {} : { [TIFF_TAG.extraSamples]: extra };
    for (const big of [false, true]) {
      const reading = await readTiffPages([{ ...RGB16, channels: 4, pixels: dusty, tags }], { big });
      expect(reading).toMatchObject({ state: 'complete', remarks: ['has_infrared'] });
      expect(reading.pages[0]?.infraredChannel).toBe(3);
      expect(await worstQuarter(large(reading))).toBeLessThan(TOLERANCE);
    }
  });

  it('in a second sample of a grey scan never touches the picture', async () => {
    const pixels = Uint16Array.from({ length: WIDTH * HEIGHT * 2 }, (_, i) =>
      i % 2 === 0 ? 100 * 257 : 20_000,
    );
    const grey = { ...RGB16, channels: 2, photometric: 1, pixels, tags: { [TIFF_TAG.extraSamples]: [2] } };
    const reading = await readTiffPages([grey]);
    expect(reading.pages[0]?.infraredChannel).toBe(1);
    expect((await readMean(large(reading)))[0]).toBeCloseTo(100, 0);
  });

  it('in a page of its own is no frame', async () => {
    const pixels = new Uint16Array(WIDTH * HEIGHT).fill(50_000);
    const reading = await readTiffPages([RGB16, { ...RGB16, channels: 1, photometric: 1, pixels }]);
    expect(reading.pages.map(({ role }) => role)).toEqual(['scan', 'infrared']);
    expect(reading.remarks).toContain('has_infrared');
  });
});

describe('pages', () => {
  it.each([
    ['marked as reduced', { [TIFF_TAG.newSubfileType]: [1] }],
    ['unmarked', {}],
  ])('that are a small copy, %s, are previews', async (_, tags) => {
    const reading = await readTiffPages([{ ...SMALL, tags }, RGB16]);
    expect(reading.pages.map(({ role }) => role)).toEqual(['preview', 'scan']);
    expect(reading).toMatchObject({ mainPage: 1 });
    expect(await worstQuarter(large(reading))).toBeLessThan(TOLERANCE);
  });

  it('of one size are the frames of a strip', async () => {
    const pages = [10, 20, 30, 40, 50, 60].map((value) => ({
      ...SMALL,
      pixels: new Uint8Array(30 * 20 * 3).fill(value * 4),
      tags: { [TIFF_TAG.newSubfileType]: [2] },
    }));
    const reading = await readTiffPages(pages);
    const means = await Promise.all(
      reading.pages.map(async ({ index }) => (await readMean(large(reading, index)))[0]),
    );
    expect(means.map((mean) => Math.round((mean ?? 0) / 4))).toEqual([10, 20, 30, 40, 50, 60]);
  });

  it('in sub-directories are previews of the page above', async () => {
    const preview = { ...SMALL, tags: { [TIFF_TAG.newSubfileType]: [1] } };
    const reading = await readTiffPages([{ ...RGB16, subPages: [preview] }]);
    expect(reading.pages.map(({ role }) => role)).toEqual(['scan', 'preview']);
  });
});

describe('scanner DNG', () => {
  const linear = deepen(drawQuarters(WIDTH, HEIGHT)).map((value) => {
    // The inverse of the sRGB curve, IEC 61966-2-1.
    const v = value / 65_535;
    return Math.round((v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4) * 65_535);
  });
  const dng = (tags: TiffPageToWrite['tags'], scan: Partial<TiffPageToWrite> = {}): TiffPageToWrite => ({
    ...SMALL,
    tags: { [TIFF_TAG.newSubfileType]: [1], [TIFF_TAG.dngVersion]: Buffer.from([1, 4, 0, 0]), ...tags },
    subPages: [{ ...RGB16, photometric: 34_892, pixels: linear, ...scan }],
  });

  it('shows the scan in its sub-directory, not the preview', async () => {
    const reading = await readTiffPages([dng({})]);
    expect(reading).toMatchObject({ kind: 'dng', state: 'complete', mainPage: 1 });
    expect(reading.pages[1]).toMatchObject({ width: WIDTH, height: HEIGHT, role: 'scan' });
    expect(await worstQuarter(large(reading))).toBeLessThan(TOLERANCE);
  });

  it('is turned as its first directory says', async () => {
    const reading = await readTiffPages([dng({ [TIFF_TAG.orientation]: [3] })]);
    expect(await worstQuarter(large(reading), [...QUARTERS].reverse())).toBeLessThan(TOLERANCE);
  });

  it('is shown by its embedded preview where the scan itself is not read', async () => {
    // 32803: a colour filter array, a camera's raw sensor picture.
    const reading = await readTiffPages([dng({}, { photometric: 32_803, channels: 1 })]);
    expect(reading).toMatchObject({ state: 'refused', reason: 'sensor_mosaic' });
    expect(reading.remarks).toContain('shows_embedded_preview');
    // A preview of 30 × 20 px has quarters narrower than the blocks of its JPEG.
    expect(await worstQuarter(large(reading, 0))).toBeLessThan(2 * TOLERANCE);
  });
});

describe('tones and colours', () => {
  it('follow a declaration that zero is white', async () => {
    const pixels = new Uint8Array(WIDTH * HEIGHT).fill(55);
    const reading = await readTiffPages([{ ...RGB8, channels: 1, photometric: 0, pixels }]);
    // 255 − 55 = 200.
    expect((await readMean(large(reading)))[0]).toBeCloseTo(200, 0);
  });

  it('of 8-bit Lab are shown though the decoder refuses it', async () => {
    // L* 50 is light 0.1842 (CIE 15: ((50 + 16) / 116)³), 0.4663 in sRGB, 119 of 255.
    const pixels = new Uint8Array(WIDTH * HEIGHT * 3);
    for (let at = 0; at < pixels.length; at += 3) pixels[at] = 127.5;
    for (const orientation of [1, 6]) {
      const tags = { [TIFF_TAG.orientation]: [orientation] };
      const reading = await readTiffPages([{ ...RGB8, photometric: 8, pixels, tags }]);
      for (const mean of await readMean(large(reading))) expect(Math.abs(mean - 119)).toBeLessThan(1.5);
    }
  });

  it('do without a profile that fits other pixels', async () => {
    const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: 'black' } })
      .withIccProfile('p3')
      .jpeg()
      .toBuffer();
    const profile = (await sharp(jpeg).metadata()).icc ?? Buffer.alloc(0);
    const pixels = new Uint8Array(WIDTH * HEIGHT).fill(140);
    const tags = { [TIFF_TAG.iccProfile]: profile };
    const reading = await readTiffPages([{ ...RGB8, channels: 1, photometric: 1, pixels, tags }]);
    expect(reading).toMatchObject({ state: 'complete', remarks: ['profile_does_not_fit'] });
    expect((await readMean(large(reading)))[0]).toBeCloseTo(140, 0);

    const cut = { [TIFF_TAG.iccProfile]: profile.subarray(0, 200) };
    const damaged = await readTiffPages([{ ...RGB8, tags: cut }]);
    expect(damaged).toMatchObject({ state: 'complete', remarks: ['profile_damaged'] });
    expect(await worstQuarter(large(damaged))).toBeLessThan(TOLERANCE);
  });

  it('of a linear scan without a word of it are brightened, unless asked not to', async () => {
    const pixels = new Uint16Array(WIDTH * HEIGHT * 3).fill(0.02 * 65_535);
    const path = join(tempFolder(), 'raw.tif');
    writeFileSync(path, writeTiff([{ ...RGB16, pixels }]));
    const reading = await readScan(path, { today: TODAY });
    expect(reading.remarks).toEqual(['linear']);
    // 1.055 · 0.02^(1/2.4) − 0.055 = 0.1518: 38.7 of 255; as stored 5.1.
    expect((await readMean(large(reading)))[0]).toBeCloseTo(38.7, 0);
    const stored = await makePreview(path, 0, { size: 'large', curve: 'as stored' });
    expect((await readMean(stored.large ?? Buffer.alloc(0)))[0]).toBeCloseTo(5.1, 0);
  });
});

describe('a file that is not whole', () => {
  it('is unfinished while it grows, and complete at the last byte', async () => {
    const whole = writeTiff([{ ...RGB8, width: 300, height: 200, pixels: drawQuarters(300, 200) }]);
    for (let twentieth = 0; twentieth < 20; twentieth++) {
      const reading = await read(whole.subarray(0, Math.floor((whole.length * twentieth) / 20)));
      expect(reading.state === 'complete').toBe(false);
    }
    expect((await read(whole)).state).toBe('complete');
  });

  it('is unfinished when its directory comes first and half of its pixels are missing, and shows the rest', async () => {
    const pixels = Buffer.from(drawQuarters(WIDTH, HEIGHT));
    const whole = Buffer.concat([writeTiff([RGB8]), pixels]);
    // The directory now stands before the pixels it speaks of: as a scanner writes that knows all sizes beforehand.
    const directory = whole.readUInt32LE(4);
    for (let i = 0; i < whole.readUInt16LE(directory); i++) {
      const entry = directory + 2 + i * 12;
      const isOffset = whole.readUInt16LE(entry) === TIFF_TAG.stripOffsets;
      if (isOffset) whole.writeUInt32LE(whole.length - pixels.length, entry + 8);
    }
    expect((await read(whole)).state).toBe('complete');
    const half = await read(whole.subarray(0, whole.length - pixels.length / 2));
    expect(half).toMatchObject({ state: 'unfinished', reason: 'cut_off' });
    expect(await worstQuarter(large(half), QUARTERS.slice(0, 2))).toBeLessThan(TOLERANCE);
  });

  it('is unfinished when a JPEG is cut off', async () => {
    const jpeg = await makeJpegScan(600, 400);
    const reading = await read(jpeg.subarray(0, Math.floor(jpeg.length * 0.6)), 'a.jpg');
    expect(reading).toMatchObject({ state: 'unfinished', reason: 'cut_off' });
    expect(large(reading).length).toBeGreaterThan(0);
  });

  it('is unfinished when a progressive JPEG lacks its last refinements', async () => {
    const raw = { raw: { width: 300, height: 200, channels: 3 as const } };
    const jpeg = await sharp(drawQuarters(300, 200), raw).jpeg({ progressive: true }).toBuffer();
    // Cut exactly before the last scan: what is left decodes without any complaint but for its end.
    const lastScan = jpeg.lastIndexOf(Buffer.from([0xff, 0xda]));
    const reading = await read(jpeg.subarray(0, lastScan), 'a.jpg');
    expect(reading).toMatchObject({ state: 'unfinished', reason: 'cut_off' });
  });

  it('is complete when only the end mark of a JPEG is missing', async () => {
    const jpeg = await makeJpegScan();
    for (const lost of [1, 2]) {
      const reading = await read(jpeg.subarray(0, -lost), 'a.jpg');
      expect(reading).toMatchObject({ state: 'complete', remarks: ['end_marker_missing'] });
    }
  });

  it('is complete with rubbish behind its end', async () => {
    const reading = await read(Buffer.concat([await makeJpegScan(), Buffer.alloc(20_000, 7)]), 'a.jpg');
    expect(reading).toMatchObject({ state: 'complete', remarks: [] });
  });

  it('is unfinished when a PNG is cut off, damaged when it is whole and wrong', async () => {
    const raw = { raw: { width: 300, height: 200, channels: 3 as const } };
    const png = await sharp(drawQuarters(300, 200), raw).png({ compressionLevel: 0 }).toBuffer();
    expect(await read(png.subarray(0, png.length / 2), 'a.png')).toMatchObject({ reason: 'cut_off' });
    const wrong = Buffer.from(png);
    wrong.fill(0xa5, png.length / 2, png.length / 2 + 300);
    expect(await read(wrong, 'a.png')).toMatchObject({ state: 'damaged', reason: 'pixels_damaged' });
  });

  it.each([
    ['empty', Buffer.alloc(0), 'unfinished', 'empty'],
    ['text', Buffer.from('Frame 7 is a scan of the red door.'), 'damaged', 'not_an_image'],
    ['a resource fork', Buffer.from('0005160700020000', 'hex'), 'refused', 'companion_file'],
    ['the first bytes of a TIFF', Buffer.from('II*\0', 'latin1'), 'damaged', 'not_an_image'],
    ['the first bytes of a JPEG', Buffer.from('ffd8ffe0', 'hex'), 'unfinished', 'cut_off'],
    ['the first bytes of a PNG', Buffer.from('89504e470d0a1a0a', 'hex'), 'damaged', 'directory_damaged'],
  ])('is an answer, not a failure: %s', async (_, bytes, state, reason) => {
    expect(await read(bytes, 'a.jpg')).toMatchObject({ state, reason, pages: [] });
  });

  it('is refused at once when it claims what it cannot hold', async () => {
    const start = performance.now();
    const claimed = writeTiff([{ ...RGB8, tags: { 256: [60_000], 257: [60_000] } }]);
    expect(await read(claimed)).toMatchObject({ state: 'damaged', reason: 'size_impossible' });
    const jpeg = await makeJpegScan();
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    jpeg.writeUInt16BE(65_000, frame + 5);
    jpeg.writeUInt16BE(65_000, frame + 7);
    expect(await read(jpeg, 'a.jpg')).toMatchObject({ state: 'damaged', reason: 'size_impossible' });
    expect(performance.now() - start).toBeLessThan(1000);
  });

  it.each([
    [{ 259: [6] }, 'old_style_jpeg'],
    [{ 258: [14, 14, 14] }, 'sample_depth'],
    [{ 258: [8, 16, 8] }, 'sample_depth'],
    [{ 262: [32_845] }, 'colour_layout'],
    [{ 259: [34_712] }, 'compression'],
  ])('is refused with its reason, and stays listed with its size: %o', async (tags, reason) => {
    const reading = await readTiffPages([{ ...RGB8, tags: { [TIFF_TAG.make]: 'ExampleScan', ...tags } }]);
    expect(reading).toMatchObject({ state: 'refused', reason });
    expect(reading.pages[0]).toMatchObject({ width: WIDTH, height: HEIGHT });
    expect(reading.metadata?.maker).toBe('ExampleScan');
  });

  it('cannot be previewed where nothing can be shown', async () => {
    const path = join(tempFolder(), 'a.jpg');
    writeFileSync(path, 'text');
    await expect(makePreview(path, 0)).rejects.toMatchObject({ code: 'scan_unreadable' });
    writeFileSync(path, await makeJpegScan());
    await expect(makePreview(path, 1)).rejects.toMatchObject({ code: 'scan_unreadable' });
  });

  it('has words for every reason and remark', () => {
    expect(describeReason('old_style_jpeg')).toContain('old-style JPEG');
    expect(describeRemark('has_infrared')).toContain('infrared');
  });
});

describe('the original', () => {
  it('is the same after everything was read from it', async () => {
    const path = join(tempFolder(), 'a.tif');
    const bytes = writeTiff([RGB16, SMALL]);
    writeFileSync(path, bytes);
    await readScan(path, { today: TODAY });
    await makePreview(path, 1);
    expect(readFileSync(path).equals(bytes)).toBe(true);
  });
});
