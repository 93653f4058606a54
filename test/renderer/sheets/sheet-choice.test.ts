import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  describeScaleChoice,
  readRollIds,
  readScale,
  readSpec,
  writeSpec,
} from '../../../renderer/sheets/sheet-choice.ts';
import { suggestName } from '../../../renderer/sheets/sheet-file.ts';
import { PAPERS } from '../../../shared/sheet/paper.ts';
import { sheetSpec } from '../../../shared/sheet/sheet-spec.ts';

function params(of: Record<string, string | null>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(of).flatMap(([name, value]) => (value === null ? [] : [[name, value] as const])),
  );
}

const spec = fc.record({
  paperId: fc.constantFrom(...PAPERS.map(({ id }) => id)),
  customMm: fc.constant(null),
  orientation: fc.constantFrom('auto', 'upright', 'wide'),
  marginMm: fc.integer({ min: 0, max: 100 }),
  look: fc.constantFrom('film', 'ink-saving'),
  scale: fc.oneof(
    fc.constant('fit'),
    fc.integer({ min: 1, max: 80 }).map((tenths) => tenths / 10),
  ),
  trim: fc.constantFrom('none', 'outer', 'all'),
  sheets: fc.constantFrom('one', 'as-needed'),
  captions: fc.boolean(),
  pencilMarks: fc.boolean(),
  ruler: fc.boolean(),
  heading: fc.boolean(),
  title: fc.option(fc.constantFrom('Harbour', 'yes', '24', 'Łódź, 1998')),
});

describe('the choices for a sheet in an address', () => {
  it('come back as they were chosen', () => {
    fc.assert(
      fc.property(spec, (chosen) => {
        const parsed = sheetSpec.parse(chosen);
        expect(readSpec(params(writeSpec(parsed, 'letter')), 'letter')).toEqual(parsed);
      }),
    );
  });

  it('are not there for a sheet that is as usual', () => {
    expect(params(writeSpec(sheetSpec.parse({ paperId: 'letter' }), 'letter'))).toEqual({});
  });

  it('hold a paper of another size', () => {
    const own = sheetSpec.parse({ paperId: 'custom', customMm: { widthMm: 203.2, heightMm: 254 } });
    expect(readSpec(params(writeSpec(own, 'a4')), 'a4')).toEqual(own);
  });

  it('are as usual where the address says nonsense', () => {
    const nonsense = { scale: 'huge', lying: 'sideways', captions: 'maybe', margin: '-3', custom: 'x' };
    expect(readSpec(nonsense, 'a4')).toEqual(sheetSpec.parse({}));
  });

  it('name each roll once', () => {
    expect(readRollIds({ rolls: '3,1,3,zero,-1', roll: '7' })).toEqual([3, 1, 7]);
  });
});

describe('a scale as typed', () => {
  it('is read in per cent', () => {
    expect([readScale('150 %'), readScale('66,7'), readScale('')]).toEqual([1.5, 0.667, null]);
  });

  it('is refused beyond a tenth and eight times', () => {
    expect([readScale('9'), readScale('801'), readScale('abc')]).toEqual([null, null, null]);
  });

  it('is said in words', () => {
    expect([1, 0.885, 'fit' as const].map(describeScaleChoice)).toEqual([
      'true size',
      '88.5 %',
      'as large as fits',
    ]);
  });
});

describe('the name offered for a file', () => {
  it('has nothing in it that a system forbids', () => {
    expect(suggestName('Binder 7/8: "coast"?', 'tiff')).toBe('Binder 7-8- -coast-.tif');
    expect(suggestName('..', 'pdf')).toBe('contact sheet.pdf');
  });

  it('never leaves its folder', () => {
    fc.assert(
      fc.property(fc.string(), (words) => {
        expect(suggestName(words, 'pdf')).not.toMatch(/[/\\\0]|^\./);
      }),
    );
  });
});
