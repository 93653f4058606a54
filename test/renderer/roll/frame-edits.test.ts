import { describe, expect, it } from 'vitest';
import type { Frame } from '../../../shared/api/methods/film-methods.ts';
import { commonText, NO_EDITS, planFrameEdits, readText } from '../../../renderer/roll/frame-edits.ts';

const BARE: Frame = {
  id: 1,
  rollId: 1,
  ordinal: 1,
  label: '1',
  frameFormat: '24x36',
  caption: null,
  place: null,
  latitude: null,
  longitude: null,
  taken: null,
  shutter: null,
  aperture: null,
  lens: null,
  filter: null,
  note: null,
  turned: 0,
  mirrored: false,
  outing: null,
  tags: [],
  marks: [],
  faults: [],
  versions: [],
  lies: null,
};

const frames = (...parts: readonly Partial<Frame>[]): readonly Frame[] =>
  parts.map((part, index) => ({ ...BARE, id: index + 1, label: String(index + 1), ...part }));

const FOG = { kind: 'fog', edge: 'left', fromEdgeMm: 2, note: 'back opened' } as const;

describe('frame edits', () => {
  it('tells frames that differ from frames that have the same', () => {
    expect(commonText(frames({ caption: 'a' }, { caption: 'a' }), 'caption')).toEqual({
      kind: 'same',
      text: 'a',
    });
    expect(commonText(frames({ caption: 'a' }, {}, { caption: 'b' }), 'caption')).toEqual({
      kind: 'mixed',
      filled: 2,
    });
  });

  it('puts frames that get the same change into one group', () => {
    const plan = planFrameEdits(frames({}, {}, { place: 'Torrow' }), {
      ...NO_EDITS,
      texts: { place: { text: 'Torrow', mode: 'replace' }, lens: { text: '50 mm', mode: 'replace' } },
    });
    expect(plan.groups).toEqual([
      { ids: [1, 2], change: { place: 'Torrow', lens: '50 mm' } },
      { ids: [3], change: { lens: '50 mm' } },
    ]);
    expect(plan.says).toBe('2 places, 3 lenses');
  });

  it('keeps the faults a frame has when another is added', () => {
    const plan = planFrameEdits(frames({ faults: [FOG] }, {}), {
      ...NO_EDITS,
      addFault: { kind: 'dust', edge: null },
    });
    const dust = { kind: 'dust', edge: null, fromEdgeMm: null, note: null };
    expect(plan.groups.map(({ change }) => change.faults)).toEqual([[FOG, dust], [dust]]);
  });

  it('adds tags only where they are not, and takes them off only where they are', () => {
    const plan = planFrameEdits(frames({ tags: ['sea'] }, { tags: ['hut'] }), {
      ...NO_EDITS,
      addTags: 'sea, , boats',
      removeTags: ['hut'],
    });
    expect(plan.groups).toEqual([
      { ids: [1], change: { addTags: ['boats'] } },
      { ids: [2], change: { addTags: ['sea', 'boats'], removeTags: ['hut'] } },
    ]);
  });

  it('does not take an exposure time without a unit', () => {
    expect(readText('shutter', '125')).toEqual({
      ok: false,
      problem: 'Seconds, or a part of one? Write 125 s or 1/125.',
    });
  });

  it('empties a field where all have the same', () => {
    const plan = planFrameEdits(frames({ caption: 'a' }, { caption: 'a' }), {
      ...NO_EDITS,
      texts: { caption: { text: ' ', mode: 'replace' } },
    });
    expect(plan.groups).toEqual([{ ids: [1, 2], change: { caption: null } }]);
  });
});
