import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { makeArchive } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

it('says that a sheet does not fit without measuring its rolls first', async () => {
  const { ask, engine } = await makeArchive();
  const folder = join(tempFolder(), 'scans');
  mkdirSync(folder);
  const plain = sharp({ create: { width: 300, height: 200, channels: 3, background: '#785' } });
  writeFileSync(join(folder, 'frame 1.jpg'), await plain.jpeg().toBuffer());
  const { id } = await ask('rolls.add', { number: '1', filmFormat: '135', frameFormat: '24x36' });
  await ask('frames.add', { rollId: id, labels: Array.from({ length: 120 }, (_, at) => String(at + 1)) });
  await engine.jobReport((await ask('scans.read', { folder })).id);
  const { files } = await ask('scans.propose', { folder, rollId: id, options: {} });
  await ask('scans.accept', {
    rollId: id,
    files: files.flatMap(({ scanId, version, reason, confidence, frames }) =>
      scanId === null ? [] : [{ scanId, version, reason, confidence, frames }],
    ),
  });
  const measuring = async () => (await ask('jobs.list', {})).filter((job) => job.kind === 'measure').length;
  const before = await measuring();
  const { misfit, files: written } = await ask('sheets.write', {
    rollIds: [id],
    spec: { paperId: 'a4' },
    file: join(tempFolder(), 'sheet.pdf'),
  });
  expect(misfit).not.toBeNull();
  expect(written).toEqual([]);
  expect(await measuring()).toBe(before);
});
