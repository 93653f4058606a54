import { describe, expect, it } from 'vitest';
import { layLines, looseRows } from '../../../renderer/roll/film-rows.ts';
import type { Frame } from '../../../shared/api/methods/film-methods.ts';

const frame = (id: number, frameFormat: string): Frame => ({
  id,
  rollId: 1,
  ordinal: id,
  label: String(id),
  frameFormat,
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
});
const film = (count: number, frameFormat: string) =>
  Array.from({ length: count }, (_, index) => frame(index + 1, frameFormat));

describe('rows of film', () => {
  it('lays lines that are together as high as the strip', () => {
    // 104 px for 6 places: 17.33 px each. 12 places of a half-frame strip are too low for one column: 2 × 6.
    expect(layLines(6, 104)).toEqual({ lines: 6, columns: 1, linePx: 104 / 6 });
    expect(layLines(12, 104)).toEqual({ lines: 6, columns: 2, linePx: 104 / 6 });
  });

  it('lays loose film in rows as long as six frames of 35 mm', () => {
    // 6 × 38 mm = 228 mm: six frames of 38 mm, twelve of 19 mm, three of 61 mm (56 and a gap of 5).
    expect(looseRows(film(14, '24x36'), '135').map((row) => row.frames.length)).toEqual([6, 6, 2]);
    expect(looseRows(film(13, '18x24'), '135').map((row) => row.frames.length)).toEqual([12, 1]);
    expect(looseRows(film(12, '6x6'), '120').map((row) => row.frames.length)).toEqual([3, 3, 3, 3]);
  });
});
