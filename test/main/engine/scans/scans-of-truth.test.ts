import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { findLitter } from '../../../../main/engine/scans/litter.ts';
import { readScan, type ScanReading } from '../../../../main/engine/scans/read-scan.ts';
import { stateFor } from '../../../../main/engine/scans/scan-reason.ts';
import { readQuarters } from '../../../support/make-scan.ts';
import { sharedData } from '../../../support/shared-data.ts';

const truthOf = z.looseObject({
  width: z.number().optional(),
  height: z.number().optional(),
  mean_srgb8: z.tuple([z.number(), z.number(), z.number()]).nullish(),
  tol: z.number().optional(),
  patches: z.array(z.tuple([z.number(), z.number(), z.number(), z.number(), z.number()])).optional(),
  patch_tol: z.number().optional(),
  phys_mm: z.tuple([z.number(), z.number()]).nullish(),
  ppi: z.number().optional(),
  main_page: z.number().optional(),
  preview_page: z.number().optional(),
  ir_page: z.number().optional(),
  ir_channel: z.number().optional(),
  frames: z.union([z.number(), z.array(z.unknown())]).optional(),
  pages: z.number().optional(),
  page_sizes: z.array(z.tuple([z.number(), z.number()])).optional(),
  preview: z.tuple([z.number(), z.number()]).optional(),
  bits: z.number().optional(),
  samples: z.number().optional(),
  capture: z.string().nullish(),
  scanned: z.string().nullish(),
  ok: z.union([z.boolean(), z.literal('warn')]).optional(),
  ignore: z.boolean().optional(),
});
type Truth = z.output<typeof truthOf>;

const folder = sharedData('scans');
const truth: [string, Truth][] =
  folder === null
    ? []
    : Object.entries(
        z.record(z.string(), truthOf).parse(JSON.parse(readFileSync(join(folder, 'truth.json'), 'utf8'))),
      );
const scans = truth.filter(([, { ignore }]) => ignore !== true);

/** Previews are JPEGs: a level of rounding that the truth of the files does not know. */
const JPEG_ROUNDING = 1;
const TODAY = '2026-01-01';

const hasSha256sum = spawnSync('sha256sum', ['--version']).status === 0;
if (!hasSha256sum) process.stdout.write('sha256sum is not here: the comparison with it is left out\n');

function mainPage(reading: ScanReading) {
  return reading.pages.find((page) => page.index === reading.mainPage);
}

async function meanOf(jpeg: Buffer): Promise<number[]> {
  const { channels } = await sharp(jpeg).stats();
  return channels.map((channel) => channel.mean);
}

async function worstPatch(jpeg: Buffer, patches: NonNullable<Truth['patches']>): Promise<number> {
  const { data, info } = await sharp(jpeg).raw().toBuffer({ resolveWithObject: true });
  const differences = patches.flatMap(([x, y, ...colour]) =>
    colour.map((value, channel) =>
      Math.abs(value - (data[(y * info.width + x) * info.channels + channel] ?? 0)),
    ),
  );
  return Math.max(...differences);
}

async function whatIsWrong(name: string, expected: Truth, reading: ScanReading): Promise<string[]> {
  const wrong: string[] = [];
  const check = (what: string, fine: boolean, got: unknown) => {
    if (!fine) wrong.push(`${name}: ${what} is ${JSON.stringify(got)}`);
  };
  const page = mainPage(reading);
  const preview = page?.preview?.large ?? null;
  const complete = reading.state === 'complete';
  check('state', expected.ok === false ? !complete : complete, [reading.state, reading.reason]);
  if (expected.ok === 'warn') check('remarks', reading.remarks.length > 0, reading.remarks);
  if (expected.ok !== false) check('preview', preview !== null, null);
  if (expected.width !== undefined) {
    check('size', page?.width === expected.width && page.height === expected.height, [
      page?.width,
      page?.height,
    ]);
  }
  if (expected.bits !== undefined) check('bits', page?.bits === expected.bits, page?.bits);
  if (expected.samples !== undefined) check('samples', page?.channels === expected.samples, page?.channels);
  if (expected.main_page !== undefined) {
    check('main page', reading.mainPage === expected.main_page, reading.mainPage);
  }
  const scanPages = reading.pages.filter(({ role }) => role === 'scan');
  // Files of defects/ say how many frames lie on one picture; here, how many pages are frames.
  if (expected.frames !== undefined && expected.pages !== undefined) {
    check('frames', scanPages.length === expected.frames, scanPages.length);
  }
  if (expected.page_sizes !== undefined) {
    const sizes = scanPages.map(({ width, height }) => [width, height]);
    check('page sizes', JSON.stringify(sizes) === JSON.stringify(expected.page_sizes), sizes);
  }
  const roleAt = (index: number) => reading.pages[index]?.role;
  if (expected.preview_page !== undefined) {
    check(
      'preview page',
      roleAt(expected.preview_page) === 'preview',
      reading.pages.map(({ role }) => role),
    );
  }
  if (expected.ir_page !== undefined) {
    check(
      'infrared page',
      roleAt(expected.ir_page) === 'infrared',
      reading.pages.map(({ role }) => role),
    );
  }
  if (expected.preview !== undefined) {
    const small = reading.pages.find(({ role }) => role === 'preview');
    check(
      'embedded preview',
      small?.width === expected.preview[0] && small.height === expected.preview[1],
      small,
    );
  }
  if (expected.ir_channel !== undefined) {
    check('infrared channel', page?.infraredChannel === expected.ir_channel, page?.infraredChannel);
    check('remark on infrared', reading.remarks.includes('has_infrared'), reading.remarks);
  }
  const { metadata } = reading;
  if (expected.capture !== undefined)
    check('capture', metadata?.captured === expected.capture, metadata?.captured);
  if (expected.scanned !== undefined)
    check('scanned', metadata?.scanned === expected.scanned, metadata?.scanned);
  if (expected.phys_mm === null) check('size on film', metadata?.widthMm === null, metadata?.widthMm);
  else if (expected.phys_mm !== undefined) {
    const off = Math.hypot(
      (metadata?.widthMm ?? 0) - expected.phys_mm[0],
      (metadata?.heightMm ?? 0) - expected.phys_mm[1],
    );
    // The truth is given to a tenth of a millimetre.
    check('size on film', off < 0.1, [metadata?.widthMm, metadata?.heightMm]);
  }
  if (preview !== null && expected.mean_srgb8) {
    const mean = await meanOf(preview);
    const tolerance = expected.tol ?? 1.5;
    const off = expected.mean_srgb8.map((value, i) => Math.abs(value - (mean[i] ?? 0)));
    check('mean colour', Math.max(...off) <= tolerance, mean);
  }
  if (preview !== null && expected.patches) {
    const worst = await worstPatch(preview, expected.patches);
    check('worst patch', worst <= (expected.patch_tol ?? 3) + JPEG_ROUNDING, worst);
  }
  return wrong;
}

function checksums(top: string): string[] {
  return readdirSync(top, { recursive: true, encoding: 'utf8' })
    .map((name) => join(top, name))
    .filter((path) => statSync(path).isFile())
    .map((path) => `${createHash('sha256').update(readFileSync(path)).digest('hex')} ${path}`);
}

describe.runIf(folder !== null)('every file of the scans whose truth is known', () => {
  const top = folder ?? '';
  const before = folder === null ? [] : checksums(top);

  it('is there in number', () => {
    expect(scans.length).toBeGreaterThan(280);
  });

  it('is read as its truth says', async () => {
    const wrong: string[] = [];
    for (const [name, expected] of scans) {
      const reading = await readScan(join(top, name), { today: TODAY });
      wrong.push(...(await whatIsWrong(name, expected, reading)));
    }
    expect(wrong).toEqual([]);
  }, 120_000);

  it('is passed over by name where it is litter', () => {
    const litter = truth.filter(([, { ignore }]) => ignore === true).map(([name]) => name);
    const kept = litter.filter((name) => {
      const names = name.split('/').slice(1);
      return names.every((part, i) => findLitter(part, i < names.length - 1) === null);
    });
    expect(litter.length).toBeGreaterThan(8);
    expect(kept).toEqual([]);
  });

  it.runIf(hasSha256sum)('has the checksum that the system works out', async () => {
    const names = ['broken/empty.tif', 'tiff/rgb16-none.tif', 'large/6x7-8800x11000-rgb16-zip.tif'];
    for (const name of names) {
      const path = join(top, name);
      // An independent program: GNU coreutils.
      const expected = execFileSync('sha256sum', [path], { encoding: 'utf8' }).split(' ')[0];
      expect((await readScan(path, { today: TODAY, size: 'small' })).sha256).toBe(expected);
    }
  });

  it('is afterwards what it was before', () => {
    expect(checksums(top)).toEqual(before);
  });

  it('is refused for the reason that fits', async () => {
    // Source: data/scans/MANIFEST.md, tables "broken" and "Third-party files".
    const expected = {
      'broken/empty.tif': 'empty',
      'broken/directory-not-yet-written.tif': 'directory_not_written',
      'broken/directory-beyond-end.tif': 'directory_not_written',
      'broken/ifd-first-half-written.tif': 'cut_off',
      'broken/truncated-60pct.jpg': 'cut_off',
      'broken/truncated-progressive-50pct.jpg': 'cut_off',
      'broken/claims-60000x60000.tif': 'size_impossible',
      'broken/text-named.jpg': 'not_an_image',
      'third-party/value-beyond-eof.tif': 'directory_damaged',
      'third-party/zackthecat.tif': 'old_style_jpeg',
      'third-party/flower-rgb-contig-14.tif': 'sample_depth',
    } as const;
    for (const [name, reason] of Object.entries(expected)) {
      const reading = await readScan(join(top, name), { today: TODAY });
      expect({ name, reason: reading.reason, state: reading.state }).toEqual({
        name,
        reason,
        state: stateFor(reason),
      });
    }
  });

  it('keeps name, size and pixel size of what the decoder refuses', async () => {
    const reading = await readScan(join(top, 'third-party/zackthecat.tif'), { today: TODAY });
    // Source: MANIFEST.md: 234x213; 8258 bytes on the disk.
    expect(mainPage(reading)).toMatchObject({ width: 234, height: 213, preview: null });
    expect(reading.sizeBytes).toBe(8258);
  });

  it('refuses an impossible size at once', async () => {
    const start = performance.now();
    await readScan(join(top, 'broken/claims-60000x60000.tif'), { today: TODAY });
    expect(performance.now() - start).toBeLessThan(1000);
  });
});

describe.runIf(folder !== null)('scans made elsewhere, without a line in truth.json', () => {
  const top = folder ?? '';
  // Source of sizes: MANIFEST.md. Of means: `vips avg` of each band of the file (÷ 257 for 16 bits), where the file has
  // no profile and its values therefore are sRGB as they stand; where none is given the manifest names no number.
  const files: Record<string, { size: [number, number]; mean?: [number, number, number] }> = {
    'third-party/planar-rgb-u8.tif': { size: [374, 499] },
    'third-party/quad-tile.jpg.tiff': { size: [512, 384] },
    'third-party/rgb-3c-16b.tiff': { size: [157, 151], mean: [149.9, 115.8, 66.6] },
    'third-party/minisblack-1c-16b.tiff': { size: [157, 151], mean: [120, 120, 120] },
    'third-party/cmyk-3c-8b.tiff': { size: [157, 151] },
    'third-party/tiled-cmyk-i8.tif': { size: [490, 367] },
    'third-party/cmyk_jpeg.tif': { size: [100, 100] },
    'third-party/predictor-3-rgb-f32.tif': { size: [200, 200] },
    'third-party/BigTIFFMotorola.tif': { size: [64, 64] },
    'third-party/no_rows_per_strip.tiff': { size: [512, 512], mean: [137, 129, 113] },
    'third-party/flower-rgb-planar-16.tif': { size: [73, 43] },
    'third-party/extra-channels.tif': { size: [100, 100] },
    'third-party/lab-a-16.tiff': { size: [589, 340] },
    'metadata/makernote-canon.jpg': { size: [683, 512] },
    'metadata/makernote-zero-dates.jpg': { size: [132, 99] },
    'real-scans/film-scan-red-door-lzw.tif': { size: [768, 512] },
    'real-scans/film-scan-window-lzw.tif': { size: [768, 512], mean: [117.6, 110.8, 85.4] },
    'real-scans/minilab-blank-dates.jpg': { size: [3088, 2048] },
    'real-scans/central-lab-digitized-only.jpg': { size: [1536, 1024] },
  };

  it('are complete, of the right size and, where it is known, of the right colour', async () => {
    for (const [name, expected] of Object.entries(files)) {
      const reading = await readScan(join(top, name), { today: TODAY });
      const page = mainPage(reading);
      expect({ name, state: reading.state, size: [page?.width, page?.height] }).toEqual({
        name,
        state: 'complete',
        size: expected.size,
      });
      const mean = await meanOf(page?.preview?.large ?? Buffer.alloc(0));
      const off = (expected.mean ?? []).map((value, i) => Math.abs(value - (mean[i] ?? 0)));
      expect({ name, off: Math.max(0, ...off) < 2 }).toEqual({ name, off: true });
    }
  });

  it('show CMYK the right way round', async () => {
    const profiled = await readScan(join(top, 'third-party/cmyk_jpeg.tif'), { today: TODAY });
    // Source: MANIFEST.md: quarters cyan, magenta / yellow, black.
    const [cyan, magenta, yellow, black] = await readQuarters(
      mainPage(profiled)?.preview?.large ?? Buffer.alloc(0),
    );
    expect(cyan?.[0]).toBeLessThan(100);
    expect(cyan?.[2]).toBeGreaterThan(150);
    expect(magenta?.[1]).toBeLessThan(100);
    expect(yellow?.[2]).toBeLessThan(100);
    expect(yellow?.[0]).toBeGreaterThan(180);
    expect(Math.max(...(black ?? [255]))).toBeLessThan(90);
    const plain = await readScan(join(top, 'colour/chart-cmyk8-noprofile.tif'), { today: TODAY });
    expect(plain.remarks).toContain('colours_approximate');
  });

  it('show JPEG inside TIFF without a pink or green shift', async () => {
    const { pages } = await readScan(join(top, 'third-party/quad-tile.jpg.tiff'), { today: TODAY });
    const { data, info } = await sharp(pages[0]?.preview?.large ?? '')
      .raw()
      .toBuffer({ resolveWithObject: true });
    // Source: MANIFEST.md: coloured solids on black. The corner is black.
    expect([0, 1, 2].map((channel) => (data[channel] ?? 255) < 12)).toEqual([true, true, true]);
    expect(info.channels).toBe(3);
  });

  it('do not come out black from 16-bit Lab with alpha', async () => {
    const { pages } = await readScan(join(top, 'third-party/lab-a-16.tiff'), { today: TODAY });
    const mean = await meanOf(pages[0]?.preview?.large ?? Buffer.alloc(0));
    // Source: MANIFEST.md: balloons over water: bluish, of middle brightness.
    expect(mean.every((value) => value > 50)).toBe(true);
    expect(mean[2]).toBeGreaterThan(mean[0] ?? 255);
  });

  it('say that a raw linear scan is one, and show it brighter than it is stored', async () => {
    const reading = await readScan(join(top, 'tiff/rgb16-linear-untagged-dark-zip.tif'), { today: TODAY });
    expect(reading.remarks).toContain('linear');
    // Source: truth.json raw_mean16 = 3006, 2616, 1650 of 65535: as stored 11.7 of 255.
    const mean = await meanOf(mainPage(reading)?.preview?.large ?? Buffer.alloc(0));
    expect(mean[0]).toBeGreaterThan(40);
    const others = scans.filter(([name]) => name.startsWith('tiff/') && !name.includes('linear'));
    for (const [name] of others) {
      const other = await readScan(join(top, name), { today: TODAY, size: 'small' });
      expect({ name, linear: other.remarks.includes('linear') }).toEqual({ name, linear: false });
    }
  });

  it('keep all captions where they differ', async () => {
    const path = join(top, 'metadata/description-in-three-places-conflict.jpg');
    const { metadata, remarks } = await readScan(path, { today: TODAY });
    // Source: exiftool 12.57: ImageDescription, Caption-Abstract, XMP dc:description.
    expect(metadata?.captions).toEqual([
      { where: 'exif', text: 'from exif' },
      { where: 'iptc', text: 'from iptc' },
      { where: 'xmp', text: 'from xmp' },
    ]);
    expect(remarks).toContain('captions_differ');
  });

  it('remark on dates that cannot be', async () => {
    for (const name of ['dates/far-future.jpg', 'dates/clock-reset-1980.jpg']) {
      const { remarks } = await readScan(join(top, name), { today: TODAY });
      expect({ name, odd: remarks.includes('scan_date_implausible') }).toEqual({ name, odd: true });
    }
  });

  it('fit in memory when they are large', async () => {
    const before = process.resourceUsage().maxRSS;
    for (const name of ['large/6x7-8800x11000-rgb16-zip.tif', 'large/pano-40000x7000-gray8-zip.tif']) {
      expect((await readScan(join(top, name), { today: TODAY })).state).toBe('complete');
    }
    const grownMiB = (process.resourceUsage().maxRSS - before) / 1024;
    // Decoded whole they would take 581 and 280 MB. Our choice of limit: strips, tiles and the picture of 1600 px.
    expect(grownMiB).toBeLessThan(250);
  });
});
