import { describe, expect, it } from 'vitest';
import { FACES } from '../../../shared/sheet/display-list.ts';
import { PACKED_FACES } from '../../../shared/sheet/font-advances.ts';
import { advanceEm } from '../../../shared/sheet/font-metrics.ts';
import { readFace } from '../../support/extract-font-advances.ts';

// Expected: the font files themselves, read by fontkit.
describe('advances of the bundled faces', () => {
  it.each(FACES)('are those of the file for every character of %s', (face) => {
    const file = readFace(face);
    const wrong = [...file.advances].filter(
      ([code, advance]) => Math.abs((advanceEm(face, code) ?? -1) - advance / file.unitsPerEm) > 1e-9,
    );
    expect(wrong).toEqual([]);
  });

  it.each(FACES)('know no character that the file of %s lacks', (face) => {
    const { advances } = readFace(face);
    const made: number[] = [];
    for (let code = 0; code < 0x30000; code += 1) {
      if (!advances.has(code) && advanceEm(face, code) !== null) made.push(code);
    }
    expect(made).toEqual([]);
  });

  it.each(FACES)('come with the measures of the file of %s', (face) => {
    const { unitsPerEm, capHeight, ascent, descent } = readFace(face);
    expect(PACKED_FACES[face]).toMatchObject({ unitsPerEm, capHeight, ascent, descent });
  });
});
