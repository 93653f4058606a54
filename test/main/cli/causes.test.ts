import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../../main/engine/engine.ts';
import { askOf } from '../../support/make-archive.ts';
import { askCli } from '../../support/run-cli.ts';
import { tempFolder } from '../../support/temp-folder.ts';

describe('causes on the command line', () => {
  it('notes repairs and storage, and says what faults and casts go with', async () => {
    const archive = join(tempFolder(), 'archive');
    const engine = createEngine();
    const ask = askOf(engine);
    await ask('archive.create', { folder: archive });
    const stock = await ask('stocks.add', { name: 'Fenn', process: 'c41', iso: 200 });
    await ask('cameras.add', { name: 'Box' });
    await ask('rolls.add', { number: 'A', stockId: stock.id, filmFormat: '135', frameFormat: '24x36' });
    await engine.close();
    const run = (...words: string[]) => askCli([...words, '--archive', archive]);

    const repair = await run('camera', 'repair', 'Box', '--date', 'May 2024', '--what', 'seals replaced');
    expect(repair).toMatchObject({ code: 0, json: { camera: 'Box', what: 'seals replaced' } });

    const batch = await run(
      'batch',
      'add',
      '--stock',
      'Fenn',
      '--format',
      '135',
      '--expires',
      '2006-02',
      '--storage',
      'freezer:2005,room:2023-06',
      '--rolls',
      'A',
    );
    expect(batch).toMatchObject({ code: 0, json: { stock: 'Fenn', rolls: ['A'] } });
    const place = await run('batch', 'add', '--stock', 'Fenn', '--format', '135', '--storage', 'cellar');
    expect(place.code).toBe(2);

    const causes = await run('causes', '--per', 'development');
    expect(causes).toMatchObject({
      code: 0,
      json: { rolls: [{ name: 'A', stock: 'Fenn' }], faults: [] },
    });
    expect((await run('causes', '--fault', 'leak')).code).toBe(1);
  }, 120_000);
});
