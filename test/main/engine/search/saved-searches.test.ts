import { describe, expect, it } from 'vitest';
import { makeArchive } from '../../../support/make-archive.ts';

describe('saved searches', () => {
  it('keeps a search under its name until it is removed, and takes either back', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('searches.add', { name: 'Boats', query: 'boat or tag:boat', shownAs: 'rolls' });
    const kept = [{ id, name: 'Boats', query: 'boat or tag:boat', shownAs: 'rolls' }];
    expect(await ask('searches.list', {})).toEqual(kept);
    await ask('searches.remove', { id });
    expect(await ask('searches.list', {})).toEqual([]);
    await ask('archive.undo', {});
    expect(await ask('searches.list', {})).toEqual(kept);
  });

  it('refuses a name twice', async () => {
    const { ask } = await makeArchive();
    await ask('searches.add', { name: 'Boats', query: 'boat', shownAs: 'frames' });
    await expect(
      ask('searches.add', { name: 'Boats', query: 'ship', shownAs: 'frames' }),
    ).rejects.toMatchObject({ code: 'search_name_taken', details: { name: 'Boats' } });
  });

  it('refuses a search that is not understood, pointing at the place', async () => {
    const { ask } = await makeArchive();
    await expect(
      ask('searches.add', { name: 'Wrong', query: 'boat stok:x', shownAs: 'frames' }),
    ).rejects.toMatchObject({
      code: 'search_not_understood',
      details: { at: 5, length: 4, suggestion: 'stock' },
    });
  });

  it('says of an unknown one that it is not there', async () => {
    const { ask } = await makeArchive();
    await expect(ask('searches.remove', { id: 7 })).rejects.toMatchObject({ code: 'search_not_found' });
  });
});

describe('search.understand', () => {
  it('tells the parts of a search, and names that the archive does not have', async () => {
    const { ask } = await makeArchive();
    await ask('cameras.add', { name: 'Grey rangefinder', filmFormat: null, frameFormat: null, note: null });
    expect(
      await ask('search.understand', { query: 'boat camera:"Gray rangefinder" (iso:100..400 or no:scan)' }),
    ).toEqual({
      mistake: null,
      printed: 'boat camera:"Gray rangefinder" (iso:100..400 or no:scan)',
      words:
        'a word beginning with boat, and camera “Gray rangefinder”, and (box speed 100 to 400 ISO, or has no scan)',
      filters: [
        { text: 'boat', words: 'a word beginning with boat' },
        { text: 'camera:"Gray rangefinder"', words: 'camera “Gray rangefinder”' },
        { text: 'iso:100..400 or no:scan', words: 'box speed 100 to 400 ISO, or has no scan' },
      ],
      unknownNames: [{ field: 'camera', name: 'Gray rangefinder', suggestion: 'Grey rangefinder' }],
    });
  });

  it('tells where a mistake stands', async () => {
    const { ask } = await makeArchive();
    expect((await ask('search.understand', { query: 'state:fild' })).mistake).toEqual({
      at: 6,
      length: 4,
      reason: 'this is none of the values of the field',
      suggestion: 'filed',
    });
  });
});
