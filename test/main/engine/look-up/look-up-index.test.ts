import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createFastKernels } from '../../../../main/engine/look-up/fast-kernels.ts';
import {
  openLookUpIndex,
  type LookUpIndex,
  type Preview,
} from '../../../../main/engine/look-up/look-up-index.ts';
import { readCodebook } from '../../../../shared/domain/look-up/codebook.ts';
import { describePicture } from '../../../../shared/domain/look-up/describe-picture.ts';
import { changePicture, CHANGE_NAMES } from '../../../support/changes.ts';
import { drawScene, FIRST_SHOT, type Grey } from '../../../support/scene.ts';

const codebook = readCodebook(readFileSync(new URL('../../../../assets/codebook.bin', import.meta.url)));
if (!codebook.ok) throw new Error(codebook.reason);
const kernels = createFastKernels();

/** Twelve scenes; 21, 22 and 23 are one more, as a burst. */
const frames = new Map<number, Grey>();
const previews = new Map<number, Preview>();
let top = '';
let index: LookUpIndex;

async function previewOf(frame: Grey): Promise<Preview> {
  const raw = { width: frame.width, height: frame.height, channels: 1 } as const;
  const { data, info } = await sharp(frame.data, { raw })
    .resize(512, 512, { fit: 'inside' })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { luma: new Uint8Array(data), width: info.width, height: info.height };
}

function open(folder: string): LookUpIndex {
  if (!codebook.ok) throw new Error(codebook.reason);
  return openLookUpIndex({
    folder: join(top, folder),
    codebook: codebook.value,
    kernels,
    verify: async (id) => previews.get(id) ?? null,
    neighbours: (id) => [id - 1, id + 1],
  });
}

function add(to: LookUpIndex, ids: Iterable<number>): void {
  for (const id of ids) {
    const preview = previews.get(id);
    if (preview) to.add(id, id, describePicture(preview.luma, preview.width, preview.height, kernels));
  }
  to.flush();
}

beforeAll(async () => {
  top = mkdtempSync(join(tmpdir(), 'look-up-'));
  for (let id = 1; id <= 12; id++) frames.set(id, await drawScene(500 + id, id));
  for (let id = 21; id <= 23; id++) {
    const shot =
      id === 21
        ? FIRST_SHOT
        : { shiftX: 0.01 * (id - 20), shiftY: -0.012, turnDegrees: 0.4, zoom: 1.01, moment: id };
    frames.set(id, await drawScene(521, 1, shot));
  }
  for (const [id, frame] of frames) previews.set(id, await previewOf(frame));
  index = open('index');
  add(index, frames.keys());
});
afterAll(() => {
  index.close();
  rmSync(top, { recursive: true, force: true });
});

describe('look-up by picture', () => {
  for (const [number, kind] of CHANGE_NAMES.entries()) {
    it(`finds a frame changed by “${kind}” and where it lies`, async () => {
      const id = (number % 12) + 1;
      const frame = frames.get(id);
      if (!frame) throw new Error('the frame was drawn');
      const changed = await changePicture(frame, kind, 77);
      const { answer, hits } = await index.find(
        changed.picture.data,
        changed.picture.width,
        changed.picture.height,
        { limit: 5 },
      );
      expect(answer).toBe('frame');
      expect(hits[0]).toMatchObject({
        pictureId: id,
        turned: changed.turned,
        mirrored: changed.mirrored,
        negative: changed.negative,
      });
      const region = hits[0]?.region ?? { x: 9, y: 9, width: 9, height: 9 };
      // 2 % of the frame: about 10 px of the preview.
      expect(Math.abs(region.x - changed.region.x)).toBeLessThan(0.02);
      expect(Math.abs(region.y - changed.region.y)).toBeLessThan(0.02);
      expect(Math.abs(region.width - changed.region.width)).toBeLessThan(0.02);
      expect(Math.abs(region.height - changed.region.height)).toBeLessThan(0.02);
    });
  }

  it('says that a picture is not in the archive', async () => {
    for (const seed of [901, 902, 903]) {
      const scene = await drawScene(seed, seed);
      const found = await index.find(scene.data, scene.width, scene.height, { limit: 5 });
      expect(found).toEqual({ answer: 'none', hits: [] });
    }
  });

  it('says that it cannot tell for a picture without detail', async () => {
    const paper = Uint8Array.from({ length: 300 * 200 }, (_, i) => 230 + ((i * 7919) % 5));
    expect(await index.find(paper, 300, 200, { limit: 5 })).toEqual({ answer: 'cannot-tell', hits: [] });
  });

  it('puts the right frame of a burst first and its neighbours behind it', async () => {
    for (const id of [21, 22, 23]) {
      const frame = frames.get(id);
      if (!frame) throw new Error('the frame was drawn');
      const { picture } = await changePicture(frame, 'small', 5);
      const { hits } = await index.find(picture.data, picture.width, picture.height, { limit: 5 });
      expect(hits[0]?.pictureId).toBe(id);
      expect(hits.map((hit) => hit.pictureId).sort()).toEqual([21, 22, 23]);
    }
  });
});

describe('the look-up index on disk', () => {
  const query = async () =>
    (await changePicture(frames.get(3) ?? { data: new Uint8Array(1), width: 1, height: 1 }, 'crop50', 8))
      .picture;

  it('answers the same whether filled at once, piece by piece, or opened again', async () => {
    const piecewise = open('piecewise');
    add(piecewise, [1, 2, 3, 4]);
    piecewise.close();
    const again = open('piecewise');
    add(again, [...frames.keys()].slice(4));
    const { data, width, height } = await query();
    const expected = await index.find(data, width, height, { limit: 5 });
    expect(await again.find(data, width, height, { limit: 5 })).toEqual(expected);
    again.close();
    const opened = open('piecewise');
    expect(opened.size()).toBe(frames.size);
    expect(await opened.find(data, width, height, { limit: 5 })).toEqual(expected);
    opened.close();
  });

  it('forgets a removed picture, also after it is opened again', async () => {
    const removing = open('removing');
    add(removing, [2, 3, 4]);
    removing.remove(3);
    const { data, width, height } = await query();
    expect((await removing.find(data, width, height, { limit: 5 })).answer).toBe('none');
    removing.close();
    const opened = open('removing');
    expect([opened.size(), opened.has(3)]).toEqual([2, false]);
    opened.close();
  });

  it('keeps what was flushed when its process is killed', async () => {
    const script = fileURLToPath(new URL('fill-index.ts', import.meta.url));
    const child = spawn(process.execPath, [script, join(top, 'killed')], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const flushed = await new Promise<number>((resolve) => {
      let count = 0;
      child.stdout.on('data', (chunk: Buffer) => {
        count += chunk.toString().split('\n').length - 1;
        if (count >= 3) child.kill('SIGKILL');
      });
      child.on('close', () => resolve(count));
    });
    const opened = open('killed');
    // It may have been killed after a flush and before it said so.
    expect(opened.size()).toBeGreaterThanOrEqual(flushed);
    expect(opened.size()).toBeLessThanOrEqual(flushed + 2);
    opened.close();
  });
});
