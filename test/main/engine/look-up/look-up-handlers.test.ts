import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { drawSampleScan } from '../../../../main/engine/sample/sample-scans.ts';
import { isAppError } from '../../../../shared/api/errors.ts';
import { makeArchive } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const FORMAT = { width: 900, height: 600 };
const PHOTOGRAPHS = ['harbour', 'hut', 'mountains', 'river'];

/** An archive with one roll of four photographs (CC0, see assets/sample/SOURCES.md), described and filed. */
async function archiveOfPhotographs() {
  const { ask, engine } = await makeArchive();
  const folder = join(tempFolder(), 'scans');
  mkdirSync(folder);
  for (const [at, photograph] of PHOTOGRAPHS.entries()) {
    const picture = { photograph, left: 0.5, top: 0.5, size: 0.95, light: null };
    writeFileSync(join(folder, `frame ${at + 1}.jpg`), await drawSampleScan(picture, FORMAT, at));
  }
  const { id } = await ask('rolls.add', { number: '1', filmFormat: '135', frameFormat: '24x36' });
  await engine.jobReport((await ask('scans.read', { folder })).id);
  const { files } = await ask('scans.propose', { folder, rollId: id, options: {} });
  await ask('scans.accept', {
    rollId: id,
    files: files.flatMap(({ scanId, version, reason, confidence, frames }) =>
      scanId === null ? [] : [{ scanId, version, reason, confidence, frames }],
    ),
  });
  await ask('filing.file', { rollId: id, binder: 'A', page: 1, layoutId: '35mm-7x5', cut: null });
  const job = await ask('pictures.describe', {});
  if (job) await engine.jobReport(job.id);
  return { ask, folder };
}

describe('finding a frame by picture', () => {
  it(
    'finds the frame of a small re-compressed crop, with its pocket and the part of the frame it shows',
    { timeout: 120_000 },
    async () => {
      const { ask, folder } = await archiveOfPhotographs();
      expect(await ask('pictures.indexed', {})).toEqual({ described: 4, waiting: 0 });
      const crop = join(tempFolder(), 'from the web.jpg');
      await sharp(join(folder, 'frame 1.jpg'))
        .extract({ left: 90, top: 60, width: 540, height: 360 })
        .resize(360)
        .jpeg({ quality: 60 })
        .toFile(crop);
      const { answer, hits } = await ask('pictures.which', { file: crop });
      expect({ answer, hits }).toMatchObject({
        answer: 'frame',
        hits: [
          {
            roll: '1',
            frame: '1',
            turned: 0,
            mirrored: false,
            negative: false,
            lies: { binder: 'A', page: 1, row: 1, position: 1 },
          },
        ],
      });
      // The crop was cut from 10 % to 70 % of the width and of the height.
      const region = hits[0]?.region;
      expect(Math.abs((region?.x ?? 1) - 0.1)).toBeLessThan(0.02);
      expect(Math.abs((region?.width ?? 0) - 0.6)).toBeLessThan(0.03);
      const corners = hits[0]?.corners ?? [];
      [
        [0.1, 0.1],
        [0.7, 0.1],
        [0.7, 0.7],
        [0.1, 0.7],
      ].forEach(([x = 9, y = 9], at) => {
        expect(Math.abs((corners[at]?.x ?? 1) - x)).toBeLessThan(0.02);
        expect(Math.abs((corners[at]?.y ?? 1) - y)).toBeLessThan(0.02);
      });
      expect(hits[0]?.comparedWith).toEqual({
        pictureId: hits[0]?.pictureId,
        frame: { x: 0, y: 0, width: 1, height: 1 },
      });

      const negative = join(tempFolder(), 'negative.png');
      await sharp(join(folder, 'frame 2.jpg')).negate().flop().resize(500).png().toFile(negative);
      expect((await ask('pictures.which', { file: negative })).hits[0]).toMatchObject({
        frame: '2',
        mirrored: true,
        negative: true,
      });

      const absent = join(tempFolder(), 'absent.jpg');
      const flower = { photograph: 'flower', left: 0.5, top: 0.1, size: 0.9, light: null };
      writeFileSync(absent, await drawSampleScan(flower, FORMAT, 99));
      expect(await ask('pictures.which', { file: absent })).toEqual({ answer: 'none', hits: [] });

      const plain = join(tempFolder(), 'plain.jpg');
      await sharp({ create: { width: 400, height: 300, channels: 3, background: '#888888' } })
        .jpeg()
        .toFile(plain);
      expect(await ask('pictures.which', { file: plain })).toEqual({ answer: 'cannot-tell', hits: [] });

      const text = join(tempFolder(), 'text.jpg');
      writeFileSync(text, 'no picture');
      await expect(ask('pictures.which', { file: text })).rejects.toSatisfy((error) =>
        isAppError(error, 'picture_unreadable'),
      );
      expect(await ask('pictures.duplicates', {})).toEqual([]);
    },
  );
});
