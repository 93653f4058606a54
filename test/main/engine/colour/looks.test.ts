import { converter, differenceCiede2000 } from 'culori';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sharp } from '../../../../main/engine/scans/image-library.ts';
import { bringInRoll, drawNegative, drawPositive, REBATE_PX } from '../../../support/cast-rolls.ts';
import { makeArchive, type TestArchive } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const FRAMES = 4;

async function makeRoll(kind: 'negative' | 'positive') {
  const made = await makeArchive();
  const scans = await Promise.all(
    Array.from({ length: FRAMES }, async (_frame, at) =>
      kind === 'negative'
        ? ({ ending: 'png', bytes: await drawNegative(at * 9, at) } as const)
        : ({ ending: 'jpg', bytes: await drawPositive(at * 9, at, null) } as const),
    ),
  );
  const folder = join(tempFolder(), 'scans');
  const rollId = await bringInRoll(made.engine, folder, { number: '2026-001', stockId: null }, scans);
  const frames = await made.ask('frames.ofRoll', { rollId });
  return { ...made, rollId, frameIds: frames.map(({ id }) => id) };
}
type Made = Awaited<ReturnType<typeof makeRoll>>;

async function namesOf({ ask, rollId }: Pick<Made, 'ask' | 'rollId'>): Promise<string[]> {
  const frames = await ask('frames.ofRoll', { rollId });
  return frames.map(({ versions }) => versions[0]?.pictureId ?? '');
}

const GRID = { width: 9, height: 6 } as const;
const toLab = converter('lab65');
const deltaE = differenceCiede2000();

/** Mean colours of a grid laid over a part of a picture, in sRGB codes 0..1. */
async function gridOf(
  picture: string | Buffer,
  part: { left: number; top: number; width: number; height: number },
): Promise<{ mode: 'rgb'; r: number; g: number; b: number }[]> {
  // A box filter on whole blocks, so that the same places are averaged whatever the size of the picture.
  const { data } = await sharp(picture)
    .extract(part)
    .toColourspace('srgb')
    .resize({ ...GRID, fit: 'fill', kernel: 'lanczos3', fastShrinkOnLoad: false })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return Array.from({ length: GRID.width * GRID.height }, (_, at) => ({
    mode: 'rgb' as const,
    r: (data[at * 3] ?? 0) / 255,
    g: (data[at * 3 + 1] ?? 0) / 255,
    b: (data[at * 3 + 2] ?? 0) / 255,
  }));
}

/** The picture without its rebate, in pixels of a picture that shows all of the scan. */
async function insideOf(picture: string | Buffer, turned: boolean) {
  const { width, height } = await sharp(picture).metadata();
  const edge = Math.round(((2 * REBATE_PX) / 256) * (turned ? height : width));
  return { left: edge, top: edge, width: width - 2 * edge, height: height - 2 * edge };
}

/** The picture of a frame as it lies on a sheet that was written, cut out of it. */
async function cutFromSheet(
  { ask, rollId }: Made,
  folder: TestArchive['folder'],
  frameId: number,
): Promise<Buffer> {
  const file = join(folder, 'sheet.tif');
  const sheet = { rollIds: [rollId], spec: { paperId: 'a4' } };
  await ask('sheets.write', { ...sheet, file, overwrite: true, ppi: 300 });
  const { layout } = await ask('sheets.layOut', sheet);
  const item = layout.pages
    .flatMap((page) => page.items)
    .find((each) => each.kind === 'image' && each.frameKey === String(frameId));
  if (item?.kind !== 'image') throw new Error('The frame is not on the sheet');
  const px = (mm: number) => Math.round((mm * 300) / 25.4);
  const part = { left: px(item.xMm), top: px(item.yMm), width: px(item.widthMm), height: px(item.heightMm) };
  const cut = await sharp(file).extract(part).png().toBuffer();
  return sharp(cut)
    .rotate((360 - item.turned) % 360)
    .png()
    .toBuffer();
}

function differences(
  one: Awaited<ReturnType<typeof gridOf>>,
  other: Awaited<ReturnType<typeof gridOf>>,
): number[] {
  return one.map((colour, at) => deltaE(toLab(colour), toLab(other[at] ?? colour)));
}
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('an adjusted roll', () => {
  it('is the same on screen, sheet and export, and not what it was', async () => {
    const made = await makeRoll('negative');
    const { ask, engine, rollId, frameIds } = made;
    const [first = 0, second = 0] = frameIds;
    const before = await engine.previewFile((await namesOf(made))[0] ?? '', 'large');
    if (before === null) throw new Error('No preview');
    const plain = await gridOf(before, await insideOf(before, false));
    const { grey } = await ask('looks.greyAt', { frameId: first, x: 0.5, y: 0.6 });
    await ask('looks.ofRoll', { rollId, adjust: { brightnessStops: 0.6, contrast: 1.25, grey } });
    await ask('looks.ofFrames', {
      frameIds: [second],
      adjust: { brightnessStops: -0.7, contrast: 0.9, grey: [1.1, 1, 0.9] },
    });
    const folder = tempFolder();
    const changes: number[] = [];
    for (const [at, frameId] of [first, second].entries()) {
      const screen = await engine.previewFile((await namesOf(made))[at] ?? '', 'large');
      if (screen === null) throw new Error('No preview');
      const out = join(folder, `${at}.png`);
      await ask('positives.write', { frameId, out });
      const sheet = await cutFromSheet(made, folder, frameId);
      const onScreen = await gridOf(screen, await insideOf(screen, false));
      const exported = differences(onScreen, await gridOf(out, await insideOf(out, false)));
      const printed = differences(onScreen, await gridOf(sheet, await insideOf(sheet, false)));
      // Stated: sheet and screen are one preview, under ΔE00 1 in the mean (about what is just seen side by side); the
      // export comes from all bits of the scan, the preview from a JPEG of the negative, which blue suffers from: under 2.
      expect(mean(exported)).toBeLessThan(2);
      expect(mean(printed)).toBeLessThan(1);
      changes.push(mean(differences(plain, onScreen)));
    }
    // Plainly something else than the same frame unadjusted.
    expect(changes[0]).toBeGreaterThan(4);
  }, 60_000);

  it('has other names for its pictures, and the old ones after an undo', async () => {
    const made = await makeRoll('negative');
    const { ask, rollId, frameIds } = made;
    const plain = await namesOf(made);
    await ask('looks.ofRoll', { rollId, adjust: { brightnessStops: 1, contrast: 1, grey: [1, 1, 1] } });
    const lighter = await namesOf(made);
    expect(lighter.filter((name, at) => name === plain[at])).toEqual([]);
    const [first = 0] = frameIds;
    await ask('looks.ofFrames', {
      frameIds: [first],
      adjust: { brightnessStops: 0, contrast: 1, grey: [1, 1, 1] },
    });
    // A frame that is set to nothing is shown plain, whatever its roll has.
    expect((await namesOf(made))[0]).toBe(plain[0]);
    await ask('archive.undo', {});
    expect(await namesOf(made)).toEqual(lighter);
    await ask('archive.undo', {});
    expect(await namesOf(made)).toEqual(plain);
    await ask('archive.redo', {});
    expect(await namesOf(made)).toEqual(lighter);
  }, 60_000);

  it('leaves positives as scanned until the user asks for more', async () => {
    const made = await makeRoll('positive');
    const { ask, engine, rollId, frameIds } = made;
    const asScanned = await namesOf(made);
    for (const name of asScanned) expect(name).toMatch(/^[0-9a-f]{64}-0$/);
    await ask('looks.ofRoll', { rollId, adjust: { brightnessStops: 1, contrast: 1, grey: [1, 1, 1] } });
    const [name = ''] = await namesOf(made);
    expect(name).toMatch(/^[0-9a-f]{64}-0-[0-9a-f]{16}$/);
    const [dark, light] = await Promise.all(
      [asScanned[0] ?? '', name].map(async (each) => {
        const file = await engine.previewFile(each, 'small');
        return (await sharp(file ?? '').stats()).channels[1]?.mean ?? 0;
      }),
    );
    expect(light).toBeGreaterThan((dark ?? 0) + 10);
    await ask('looks.ofRoll', { rollId, adjust: null, follow: frameIds });
    expect(await namesOf(made)).toEqual(asScanned);
  }, 60_000);
});

describe('how a roll is read', () => {
  it('is said by its frames, can be set, and is measured anew after an undo', async () => {
    const made = await makeRoll('negative');
    const { ask, engine, rollId, frameIds } = made;
    const [frameId = 0] = frameIds;
    const { reading } = await ask('looks.ofFrame', { frameId });
    expect(reading).toMatchObject({
      polarity: 'negative',
      colour: 'colour',
      meant: { polarity: 'auto', tone: 'auto' },
      frames: { negative: FRAMES, positive: 0, undecided: 0, blank: 0 },
      own: 'negative',
    });
    const job = await ask('looks.read', { rollId, polarity: 'negative', tone: 'monochrome' });
    await engine.jobReport(job.id);
    const grey = await ask('looks.ofFrame', { frameId });
    expect(grey.rendering.kind).toBe('monochrome-negative');
    await expect(ask('looks.greyAt', { frameId, x: 0.5, y: 0.5 })).rejects.toMatchObject({
      code: 'value_not_valid',
    });
    await ask('archive.undo', {});
    const running = (await ask('jobs.list', {})).filter(
      ({ kind, state }) => kind === 'measure' && state === 'running',
    );
    expect(running).toHaveLength(1);
    await engine.jobReport(running[0]?.id ?? 0);
    expect((await ask('looks.ofFrame', { frameId })).rendering.kind).toBe('colour-negative');
  }, 60_000);
});

describe('writing a roll into a folder', () => {
  it('writes every frame once and leaves what is there', async () => {
    const { ask, engine, frameIds } = await makeRoll('positive');
    const folder = join(tempFolder(), 'new');
    const input = { frameIds, folder, format: 'jpeg' } as const;
    const plan = await ask('positives.plan', input);
    expect(plan.files.map(({ name, exists }) => ({ name, exists }))).toEqual(
      ['1', '2', '3', '4'].map((label) => ({ name: `2026-001_${label}.jpg`, exists: false })),
    );
    const job = await ask('positives.export', { ...input, longSide: 120 });
    await engine.jobReport(job.id);
    const after = await ask('positives.plan', input);
    expect(after.files.every(({ exists }) => exists)).toBe(true);
    const { width, height } = await sharp(join(folder, '2026-001_1.jpg')).metadata();
    expect(Math.max(width, height)).toBe(120);
    const again = await ask('positives.export', input);
    await engine.jobReport(again.id);
    const ended = (await ask('jobs.list', {})).find(({ id }) => id === again.id);
    expect(ended).toMatchObject({ state: 'done', done: FRAMES, failed: FRAMES });
    expect((await sharp(join(folder, '2026-001_1.jpg')).metadata()).width).toBe(width);
  }, 60_000);
});
