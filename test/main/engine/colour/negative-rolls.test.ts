import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sharp } from '../../../../main/engine/scans/image-library.ts';
import { bringInRoll, drawNegative, drawPositive, REBATE_PX } from '../../../support/cast-rolls.ts';
import { makeArchive } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const FRAMES = 4;
/** The sights of the roll: a step that takes different ones. */
const sightOf = (at: number) => at * 9;

async function makeNegatives() {
  const made = await makeArchive();
  const scans = await Promise.all(
    Array.from({ length: FRAMES }, async (_frame, at) => ({
      ending: 'png' as const,
      bytes: await drawNegative(sightOf(at), at),
    })),
  );
  const folder = join(tempFolder(), 'scans');
  const rollId = await bringInRoll(made.engine, folder, { number: '2026-001', stockId: null }, scans);
  return { ...made, rollId };
}

/** Greys of a picture in a small grid, without `edgePx` around it: grain hardly counts in them. */
async function greysOf(file: string | Buffer, edgePx: number): Promise<number[]> {
  const { width, height } = await sharp(file).metadata();
  const inside = { left: edgePx, top: edgePx, width: width - 2 * edgePx, height: height - 2 * edgePx };
  const grid = { width: 12, height: 8, fit: 'fill' } as const;
  return [...(await sharp(file).extract(inside).resize(grid).greyscale().raw().toBuffer())];
}

/** Pearson's correlation, by its definition: Σxy / √(Σx² Σy²) about the means. */
function correlationOf(one: readonly number[], other: readonly number[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [middle, otherMiddle] = [mean(one), mean(other)];
  const sum = (of: (at: number) => number) => one.reduce((total, _value, at) => total + of(at), 0);
  const x = (at: number) => (one[at] ?? 0) - middle;
  const y = (at: number) => (other[at] ?? 0) - otherMiddle;
  return sum((at) => x(at) * y(at)) / Math.sqrt(sum((at) => x(at) ** 2) * sum((at) => y(at) ** 2));
}

/** How the previews of the roll's frames go with the scenes that were photographed: 1 as they were, −1 inverted. */
async function likenessToScenes(made: Awaited<ReturnType<typeof makeNegatives>>): Promise<number[]> {
  const frames = await made.ask('frames.ofRoll', { rollId: made.rollId });
  return Promise.all(
    frames.map(async ({ versions }, at) => {
      const file = await made.engine.previewFile(versions[0]?.pictureId ?? '', 'large');
      if (file === null) throw new Error('No preview');
      return correlationOf(
        await greysOf(file, REBATE_PX),
        await greysOf(await drawPositive(sightOf(at), at, null), 0),
      );
    }),
  );
}

describe('a roll scanned as negatives', () => {
  it('is shown as positives under another name, until the user says that they are positives', async () => {
    const made = await makeNegatives();
    const { ask, rollId } = made;
    const { kind, frames } = await ask('colour.ofRoll', { rollId });
    expect(kind).toMatchObject({ polarity: 'negative', colour: 'colour' });
    expect(frames).toHaveLength(FRAMES);
    const shown = await ask('frames.ofRoll', { rollId });
    for (const { versions } of shown) expect(versions[0]?.pictureId).toMatch(/^[0-9a-f]{64}-0-[0-9a-f]{16}$/);
    // Film and print bend tones but keep their order; 0.7 and −0.7 are our choice of what is plain.
    for (const likeness of await likenessToScenes(made)) expect(likeness).toBeGreaterThan(0.7);

    await ask('rolls.change', { id: rollId, change: { scanPolarity: 'positive' } });
    const left = await ask('colour.ofRoll', { rollId });
    expect(left.kind).toMatchObject({ polarity: 'positive', confidence: 1 });
    const asScanned = await ask('frames.ofRoll', { rollId });
    for (const { versions } of asScanned) expect(versions[0]?.pictureId).toMatch(/^[0-9a-f]{64}-0$/);
    for (const likeness of await likenessToScenes(made)) expect(likeness).toBeLessThan(-0.7);
  }, 120_000);
});
