import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { openArchive } from '../../../../main/engine/archive/open-archive.ts';
import { command } from '../../../../main/engine/db/query.ts';
import { describePictures } from '../../../../main/engine/look-up/describe-pictures.ts';
import { makeArchive, TEST_DAY } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

it(
  'counts pictures that come in while it describes, so that it never says 49 of 38',
  { timeout: 60_000 },
  async () => {
    const { ask, engine, folder } = await makeArchive();
    const scans = join(tempFolder(), 'scans');
    mkdirSync(scans);
    for (const name of ['1', '2', '3']) {
      const noise = sharp({
        create: {
          width: 300,
          height: 200,
          channels: 3,
          noise: { type: 'gaussian', mean: 128, sigma: 40 },
          background: '#888',
        },
      });
      writeFileSync(join(scans, `frame ${name}.jpg`), await noise.jpeg().toBuffer());
    }
    const { id } = await ask('rolls.add', { number: '1', filmFormat: '135', frameFormat: '24x36' });
    await engine.jobReport((await ask('scans.read', { folder: scans })).id);
    const { files } = await ask('scans.propose', { folder: scans, rollId: id, options: {} });
    await ask('scans.accept', {
      rollId: id,
      files: files.flatMap(({ scanId, version, reason, confidence, frames }) =>
        scanId === null ? [] : [{ scanId, version, reason, confidence, frames }],
      ),
    });
    await engine.close();

    const archive = openArchive(folder, () => TEST_DAY);
    try {
      const describe = (described: string, which: string) =>
        command(
          archive.db,
          `UPDATE picture SET described_at = ${described} WHERE id IN (SELECT id FROM picture ORDER BY id ${which})`,
        )();
      describe(`'2026-05-02'`, 'LIMIT -1');
      describe('NULL', 'LIMIT 1');
      let total = 0;
      let done = 0;
      const progress = {
        total: (count: number) => {
          total = count;
        },
        step: () => {
          done += 1;
          // Two more come in while the first is described.
          if (done === 1) describe('NULL', 'LIMIT 2 OFFSET 1');
        },
      };
      expect(await describePictures(archive, {}, progress, new AbortController().signal)).toEqual({
        described: 3,
      });
      expect([done, total]).toEqual([3, 3]);
    } finally {
      archive.close();
    }
  },
);
