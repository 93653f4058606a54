import { expect, it } from 'vitest';
import { makeArchive } from '../../../support/make-archive.ts';

// Hand: 38.3 °C against the 37.8 °C of Kodak Z-131, Table 4-1, is 0.5 too warm.
it('holds a C-41 developer that was only noted against the published temperature', async () => {
  const { ask } = await makeArchive();
  const { id } = await ask('rolls.add', { number: '1', filmFormat: '135', frameFormat: '24x36' });
  await ask('frames.add', { rollId: id, labels: ['1', '2'] });
  await ask('developments.record', {
    rollIds: [id],
    process: 'c41',
    date: '2026-04-02',
    developerTempC: 38.3,
  });
  expect((await ask('search.find', { query: 'off:0.5' })).total).toBe(2);
  expect((await ask('search.find', { query: 'off:0.1' })).total).toBe(0);
});
