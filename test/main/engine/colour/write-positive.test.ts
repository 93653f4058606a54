import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  writePositive,
  type Positive,
  type PositiveFile,
} from '../../../../main/engine/colour/write-positive.ts';
import { sharp } from '../../../../main/engine/scans/image-library.ts';
import { makePositiveLook, UNADJUSTED, type Adjust } from '../../../../shared/domain/colour/look.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const WHOLE = { x: 0, y: 0, width: 1, height: 1 };
const NEVER = new AbortController().signal;

/** A 16-bit picture without a profile; `sampleAt` gives the three samples of a pixel. */
async function drawDeep(
  file: string,
  width: number,
  height: number,
  sampleAt: (x: number, y: number) => readonly [number, number, number],
): Promise<void> {
  const samples = new Uint16Array(width * height * 3);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) samples.set(sampleAt(x, y), (y * width + x) * 3);
  const raw = { width, height, channels: 3, premultiplied: false } as const;
  await sharp(samples, { raw }).toColourspace('rgb16').tiff({ compression: 'deflate' }).toFile(file);
}

async function samplesOf(file: string): Promise<{ data: Uint16Array; width: number; height: number }> {
  const pipeline = sharp(file).keepIccProfile().pipelineColourspace('rgb16').toColourspace('rgb16');
  const { data, info } = await pipeline.raw({ depth: 'ushort' }).toBuffer({ resolveWithObject: true });
  return {
    data: new Uint16Array(data.buffer, data.byteOffset, data.length / 2),
    width: info.width,
    height: info.height,
  };
}

function positiveOf(scan: string, adjust: Adjust, change: Partial<Positive> = {}): Positive {
  const look = makePositiveLook({ kind: 'as-scanned' }, adjust);
  return { scan, page: 0, linear: false, look, region: WHOLE, turned: 0, mirrored: false, ...change };
}

function fileAt(path: string, change: Partial<PositiveFile> = {}): PositiveFile {
  return { path, format: 'png', bits: 16, longSide: null, overwrite: false, ...change };
}

describe('a positive written as a file', () => {
  it('keeps every pixel and 16 bits of a scan that is left as it is', async () => {
    const folder = tempFolder();
    const scan = join(folder, 'scan.tif');
    // Every sample differs from its neighbours by far less than one of 255 steps.
    await drawDeep(scan, 300, 200, (x, y) => [x * 217 + y, x * 217 + y + 40, x * 217 + y + 80]);
    for (const [name, format] of [
      ['a.png', 'png'],
      ['a.tif', 'tiff'],
    ] as const) {
      const out = join(folder, name);
      const written = await writePositive(positiveOf(scan, UNADJUSTED), fileAt(out, { format }), NEVER);
      expect(written).toEqual({ path: out, width: 300, height: 200, bits: 16 });
      const before = await samplesOf(scan);
      const after = await samplesOf(out);
      // The colour engine takes sRGB for sRGB with less than a tenth of one of 255 steps lost: 26 of 65 535.
      const most = before.data.reduce(
        (far, sample, at) => Math.max(far, Math.abs(sample - (after.data[at] ?? 0))),
        0,
      );
      expect(most).toBeLessThan(26);
    }
  });

  it('writes one stop lighter as twice the light', async () => {
    const folder = tempFolder();
    const scan = join(folder, 'scan.tif');
    // IEC 61966-2-1: code 0.5 is light 0.2140; twice that, 0.4281, is code 0.6858.
    await drawDeep(scan, 64, 64, () => [32_768, 32_768, 32_768]);
    const out = join(folder, 'a.png');
    await writePositive(positiveOf(scan, { ...UNADJUSTED, brightnessStops: 1 }), fileAt(out), NEVER);
    const { data } = await samplesOf(out);
    expect((data[0] ?? 0) / 65_535).toBeCloseTo(0.6858, 3);
  });

  it('cuts out the part of the frame, mirrors it, then turns it clockwise', async () => {
    const folder = tempFolder();
    const scan = join(folder, 'scan.tif');
    // Left half black but for its right upper quarter, which is red; the right half is not the frame.
    await drawDeep(scan, 80, 40, (x, y) => {
      if (x >= 40) return [65_535, 65_535, 65_535];
      return x >= 20 && y < 20 ? [65_535, 0, 0] : [0, 0, 0];
    });
    const out = join(folder, 'a.png');
    const region = { x: 0, y: 0, width: 0.5, height: 1 };
    await writePositive(
      positiveOf(scan, UNADJUSTED, { region, turned: 90, mirrored: true }),
      fileAt(out),
      NEVER,
    );
    const { data, width, height } = await samplesOf(out);
    expect([width, height]).toEqual([40, 40]);
    const redAt = (x: number, y: number) => data[(y * width + x) * 3] ?? 0;
    // Mirrored it is left above; turned clockwise that comes to the right above.
    expect([redAt(10, 10), redAt(30, 10), redAt(10, 30), redAt(30, 30)]).toEqual([0, 65_535, 0, 0]);
  });

  it('leaves a file that is there alone, and nothing of its own beside it', async () => {
    const folder = tempFolder();
    const scan = join(folder, 'scan.tif');
    await drawDeep(scan, 16, 16, () => [1, 2, 3]);
    const out = join(folder, 'a.png');
    writeFileSync(out, 'mine');
    await expect(writePositive(positiveOf(scan, UNADJUSTED), fileAt(out), NEVER)).rejects.toMatchObject({
      code: 'file_exists',
    });
    expect(readFileSync(out, 'utf8')).toBe('mine');
    await expect(
      writePositive(positiveOf(join(folder, 'none.tif'), UNADJUSTED), fileAt(join(folder, 'b.png')), NEVER),
    ).rejects.toMatchObject({ code: 'file_missing' });
    const stopped = AbortSignal.abort();
    await expect(
      writePositive(positiveOf(scan, UNADJUSTED), fileAt(join(folder, 'c.png')), stopped),
    ).rejects.toMatchObject({ code: 'cancelled' });
    expect(readdirSync(folder).sort()).toEqual(['a.png', 'scan.tif']);
  });
});
