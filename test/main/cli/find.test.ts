import { describe, expect, it } from 'vitest';
import { askCli, runCli } from '../../support/run-cli.ts';
import { makeSearchArchive } from '../../support/search-archive.ts';

describe('find on the command line', () => {
  it('answers frames with roll, place, outing and development, and counts facets', async () => {
    const { folder, frames } = makeSearchArchive(11, 8);
    const wanted = frames.filter((frame) => frame.stock === 'Slow 25' && frame.scan !== null);
    const { code, json } = await askCli([
      'find',
      'stock:"Slow 25" has:scan',
      '--facets',
      '--archive',
      folder,
    ]);
    expect(code).toBe(0);
    expect(json).toMatchObject({ total: wanted.length, frames: wanted.length, as: 'frames' });
    expect(json).toHaveProperty('facets.stock', [{ value: 'Slow 25', frames: wanted.length }]);
    for (const key of ['roll', 'frame', 'binder', 'page', 'row', 'position', 'outing', 'development'])
      expect(json).toHaveProperty(`hits.0.${key}`);
  });

  it('answers rolls, and joins the options to the query', async () => {
    const { folder, frames } = makeSearchArchive(11, 8);
    const wanted = new Set(frames.filter((frame) => frame.camera === 'Box six').map((frame) => frame.roll));
    const args = ['find', 'not zzz or zzz', '--camera', 'Box six', '--as', 'rolls', '--archive', folder];
    const { json } = await askCli(args);
    expect(json).toMatchObject({ total: wanted.size, as: 'rolls' });
  });

  it('tells a mistake as it may have been meant and ends with 1', async () => {
    const { folder } = makeSearchArchive(11, 1);
    const { code, stderr } = await runCli(['find', 'stok:slow', '--archive', folder]);
    expect(code).toBe(1);
    expect(stderr).toContain('Perhaps: stock:slow');
  });
});
