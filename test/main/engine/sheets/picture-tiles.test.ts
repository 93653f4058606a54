import { writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { createFontShelf } from '../../../../main/engine/sheets/font-file.ts';
import { makeTiles } from '../../../../main/engine/sheets/picture-tiles.ts';
import type { Tile } from '../../../../main/engine/sheets/picture-tiles.ts';
import type { ImageItem } from '../../../../shared/sheet/display-list.ts';
import { makeQuarters } from '../../../support/make-picture.ts';
import { sharedData } from '../../../support/shared-data.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const shelf = createFontShelf(new URL('../../../../assets/fonts/', import.meta.url));

/** A place of 36 × 24 mm; at 127 ppi (5 pixels to a millimetre) 180 × 120 pixels. */
function makeItem(change: Partial<ImageItem> = {}): ImageItem {
  return {
    kind: 'image',
    xMm: 0,
    yMm: 0,
    widthMm: 36,
    heightMm: 24,
    frameKey: 'frame-1',
    pictureId: 'picture-1',
    region: { x: 0, y: 0, width: 1, height: 1 },
    turned: 0,
    mirrored: false,
    ground: '#000000',
    ...change,
  };
}

async function makeOne(
  item: ImageItem,
  file: string | null,
): Promise<{ tile: Tile; unreadable: number; reason: string }> {
  const { tiles, unreadable } = await makeTiles([item], 127, () => file, shelf, null);
  const [tile] = tiles;
  if (!tile) throw new Error('no tile');
  return { tile, unreadable: unreadable.length, reason: unreadable[0]?.reason ?? '' };
}

function colourAt({ pixels, widthPx, channels }: Tile, x: number, y: number): string {
  const at = (y * widthPx + x) * channels;
  const [red = 0, green = 0, blue = 0] = pixels.subarray(at, at + channels);
  if (red > 200 && green < 60 && blue < 60) return 'red';
  if (green > 200 && red < 60 && blue < 60) return 'green';
  if (blue > 200 && red < 60 && green < 60) return 'blue';
  return red > 100 && green > 100 && blue > 100 ? 'grey' : red + green + blue < 30 ? 'black' : 'other';
}

/** Colours in the middle of the four quarters: top left, top right, foot left, foot right. */
function quartersOf(tile: Tile): string[] {
  const xs = [Math.floor(tile.widthPx / 4), Math.floor((3 * tile.widthPx) / 4)];
  const ys = [Math.floor(tile.heightPx / 4), Math.floor((3 * tile.heightPx) / 4)];
  return ys.flatMap((y) => xs.map((x) => colourAt(tile, x, y)));
}

describe('a tile', () => {
  it('has exactly the pixels of its place', async () => {
    const file = await makeQuarters(tempFolder(), 'a.png', 600, 400);
    expect((await makeOne(makeItem(), file)).tile).toMatchObject({
      widthPx: 180,
      heightPx: 120,
      channels: 3,
    });
  });

  // A clockwise quarter turn brings the lower left corner to the top left.
  it.each([
    [0, false, ['red', 'green', 'blue', 'grey']],
    [90, false, ['blue', 'red', 'grey', 'green']],
    [180, false, ['grey', 'blue', 'green', 'red']],
    [270, false, ['green', 'grey', 'red', 'blue']],
    [0, true, ['green', 'red', 'grey', 'blue']],
    [90, true, ['grey', 'green', 'blue', 'red']],
  ] as const)('turned by %i, mirrored %s shows %j', async (turned, mirrored, expected) => {
    const upright = turned === 90 || turned === 270;
    const file = await makeQuarters(tempFolder(), 'a.png', upright ? 400 : 600, upright ? 600 : 400);
    expect(quartersOf((await makeOne(makeItem({ turned, mirrored }), file)).tile)).toEqual(expected);
  });

  it('shows the region of a scan that holds several frames', async () => {
    const file = await makeQuarters(tempFolder(), 'a.png', 600, 400);
    const region = { x: 0.5, y: 0, width: 0.5, height: 0.5 };
    expect(quartersOf((await makeOne(makeItem({ region }), file)).tile)).toEqual(Array(4).fill('green'));
  });

  it('leaves its ground free beside a picture of another shape, never cutting it', async () => {
    const file = await makeQuarters(tempFolder(), 'a.png', 400, 400);
    const { tile } = await makeOne(makeItem(), file);
    // 120 × 120 of 180 × 120: 30 pixels of ground on either side.
    expect([0, 29, 30, 149, 150, 179].map((x) => colourAt(tile, x, 10))).toEqual([
      'black',
      'black',
      'red',
      'green',
      'black',
      'black',
    ]);
  });

  it('turns a picture the way its own orientation tag says', async () => {
    const folder = tempFolder();
    const plain = await makeQuarters(folder, 'a.png', 400, 600);
    const tagged = join(folder, 'b.jpg');
    // Exif orientation 6: the camera was turned, the viewer turns it clockwise by 90 degrees. Source: Exif 2.32, 4.6.4.
    await sharp(plain).withMetadata({ orientation: 6 }).jpeg({ quality: 100 }).toFile(tagged);
    expect(quartersOf((await makeOne(makeItem(), tagged)).tile)).toEqual(['blue', 'red', 'grey', 'green']);
  });

  it('of a grey scan has one channel', async () => {
    const file = join(tempFolder(), 'grey.png');
    const raw = { width: 60, height: 40, channels: 1 } as const;
    await sharp(Buffer.alloc(2400, 100), { raw }).toColourspace('b-w').png().toFile(file);
    const { tile } = await makeOne(makeItem(), file);
    expect(tile.channels).toBe(1);
    expect(tile.pixels[500]).toBe(100);
  });

  it('of a scan with a fourth channel keeps the colours as they are', async () => {
    const file = join(tempFolder(), 'alpha.png');
    await sharp({
      create: { width: 60, height: 40, channels: 4, background: { r: 200, g: 10, b: 20, alpha: 0.3 } },
    })
      .png()
      .toFile(file);
    const { tile } = await makeOne(makeItem(), file);
    expect([...tile.pixels.subarray(0, 3)]).toEqual([200, 10, 20]);
  });
});

describe('a picture that cannot be shown', () => {
  it('becomes words on a dark tile of the same size', async () => {
    const file = join(tempFolder(), 'broken.jpg');
    writeFileSync(file, 'this is no picture');
    const { tile, unreadable } = await makeOne(makeItem(), file);
    expect(unreadable).toBe(1);
    expect(tile).toMatchObject({ widthPx: 180, heightPx: 120 });
    expect(Math.max(...tile.pixels)).toBeGreaterThan(200);
  });

  it('is told with its reason when its file is gone', async () => {
    expect((await makeOne(makeItem(), null)).reason).toBe('its file is not there');
  });

  it('stops none of the others', async () => {
    const file = await makeQuarters(tempFolder(), 'a.png', 600, 400);
    const items = [makeItem({ pictureId: 'gone', frameKey: 'one' }), makeItem({ frameKey: 'two' })];
    const { tiles, unreadable } = await makeTiles(
      items,
      127,
      (id) => (id === 'gone' ? null : file),
      shelf,
      null,
    );
    expect(unreadable.map((picture) => picture.frameKey)).toEqual(['one']);
    expect(tiles.map((tile) => quartersOf(tile)[0])).toEqual(['other', 'red']);
  });
});

const scans = sharedData('scans');
const truth = z.record(
  z.string(),
  z.looseObject({
    width: z.number().optional(),
    height: z.number().optional(),
    mean_srgb8: z.array(z.number()).nullish(),
    tol: z.number().optional(),
    patches: z.array(z.array(z.number())).optional(),
    patch_tol: z.number().optional(),
  }),
);
describe.runIf(scans !== null)('colours of scans', () => {
  const load = async () => truth.parse(JSON.parse(await readFile(join(scans ?? '', 'truth.json'), 'utf8')));

  // Expected: truth.json, made with libvips and Little CMS (see its MANIFEST).
  it.each([
    'colour/chart-srgb8.tif',
    'colour/chart-srgb16.tif',
    'colour/chart-wide22-16.tif',
    'colour/chart-wide22.jpg',
    'colour/chart-linear-16.tif',
  ])('%s come out in sRGB', async (name) => {
    const entry = (await load())[name];
    const item = makeItem({ widthMm: 120, heightMm: 80 });
    const { tile } = await makeOne(item, join(scans ?? '', name));
    expect(tile).toMatchObject({ widthPx: 600, heightPx: 400 });
    const wrong = (entry?.patches ?? []).filter(([x = 0, y = 0, ...rgb]) => {
      const at = (y * tile.widthPx + x) * 3;
      return rgb.some(
        (value, channel) => Math.abs((tile.pixels[at + channel] ?? 0) - value) > (entry?.patch_tol ?? 1.5),
      );
    });
    expect(wrong).toEqual([]);
  });

  it.each(['infrared/rgbi16-marked-as-alpha-zip.tif', 'infrared/rgbi16-no-extrasamples-zip.tif'])(
    '%s are not darkened by its infrared channel',
    async (name) => {
      const entry = (await load())[name];
      const item = makeItem({ widthMm: 96, heightMm: 64 });
      const { tile } = await makeOne(item, join(scans ?? '', name));
      const means = [0, 1, 2].map((channel) => {
        let sum = 0;
        for (let at = channel; at < tile.pixels.length; at += 3) sum += tile.pixels[at] ?? 0;
        return sum / (tile.pixels.length / 3);
      });
      for (const [channel, mean] of means.entries()) {
        expect(Math.abs(mean - (entry?.mean_srgb8?.[channel] ?? NaN))).toBeLessThanOrEqual(entry?.tol ?? 1.5);
      }
    },
  );
});
