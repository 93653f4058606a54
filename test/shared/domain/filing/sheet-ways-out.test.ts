import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutStrip } from '../../../../shared/domain/filing/sheet-fit.ts';
import { fitOnPaper } from '../../../../shared/domain/filing/sheet-fit.ts';
import { findLargestBlock, findWaysOut } from '../../../../shared/domain/filing/sheet-ways-out.ts';
import type { OtherPaper, WayOut } from '../../../../shared/domain/filing/sheet-ways-out.ts';
import { findPaper, PAPERS } from '../../../../shared/sheet/paper.ts';

function paper(id: string, marginMm = 0): OtherPaper {
  const found = findPaper(id);
  if (!found) throw new Error(`no paper ${id}`);
  return { id, widthMm: found.widthMm, heightMm: found.heightMm, marginMm };
}

const ALL = PAPERS.map((each) => paper(each.id));

const SIX_BY_SIX: CutStrip[] = Array.from({ length: 6 }, () => ({
  lengthMm: 228,
  heightMm: 35,
  pictureHeightMm: 24,
}));

function ofKind<Kind extends WayOut['kind']>(ways: readonly WayOut[], kind: Kind) {
  return ways.filter((way): way is Extract<WayOut, { kind: Kind }> => way.kind === kind);
}

/** Tries a way out: lays the film out once more, changed as it says. */
function helps(way: WayOut, film: readonly CutStrip[], here: OtherPaper): boolean {
  switch (way.kind) {
    case 'trim':
      return fitOnPaper(film, here, way.trimmed, 1).fits;
    case 'paper':
      return fitOnPaper(film, paper(way.paperId), 'none', 1).fits;
    case 'scale': {
      const small = film.map((strip) => ({
        ...strip,
        lengthMm: strip.lengthMm * way.scale,
        heightMm: strip.heightMm * way.scale,
      }));
      return fitOnPaper(small, here, 'none', way.scale).fits;
    }
    case 'sheets': {
      const ends = way.stripsPerSheet.map((_count, sheet) =>
        way.stripsPerSheet.slice(0, sheet + 1).reduce((sum, count) => sum + count, 0),
      );
      const sheets = ends.map((end, sheet) => film.slice(ends[sheet - 1] ?? 0, end));
      return ends.at(-1) === film.length && sheets.every((part) => fitOnPaper(part, here, 'none', 1).fits);
    }
  }
}

describe('ways out for six strips of six on 8 × 10 in', () => {
  const ways = findWaysOut(SIX_BY_SIX, paper('8x10in'), ALL, 0);

  it('offers to trim the outer edges as well as all edges', () => {
    // 5 × 35 + 24 = 199 and 6 × 24 = 144, both below 203.2.
    expect(ofKind(ways, 'trim').map((way) => way.trimmed)).toEqual(['outer', 'all']);
  });

  it('offers the papers that take it, the smallest first', () => {
    // Areas: Letter 603 cm², A4 624, 24 × 30 cm 720, 9.5 × 12 in 735, 11 × 14 in 994, 30 × 40 cm 1200, A3 1247.
    expect(ofKind(ways, 'paper').map((way) => way.paperId)).toEqual([
      'letter',
      'a4',
      '24x30cm',
      '9.5x12in',
      '11x14in',
      '30x40cm',
      'a3',
    ]);
  });

  it('offers a second sheet for the sixth strip', () => {
    // 5 × 35 = 175 ≤ 203.2 < 210.
    expect(ofKind(ways, 'sheets').map((way) => way.stripsPerSheet)).toEqual([[5, 1]]);
  });

  it('offers the largest scale that fits', () => {
    // 203.2 / 210 = 0.96762 (254 / 228 > 1 is no limit).
    expect(ofKind(ways, 'scale')[0]?.scale).toBeCloseTo(203.2 / 210, 9);
  });
});

describe('ways out', () => {
  it('are none when the film fits', () => {
    expect(findWaysOut(SIX_BY_SIX, paper('letter'), ALL, 0)).toEqual([]);
  });

  it('are no second sheet when one strip alone is too long', () => {
    // 7 × 38 = 266 mm on 254.
    const film = [{ lengthMm: 266, heightMm: 35, pictureHeightMm: 24 }];
    expect(ofKind(findWaysOut(film, paper('8x10in'), [], 0), 'sheets')).toEqual([]);
  });

  it('are no trimming for film without a known picture height', () => {
    const film = SIX_BY_SIX.map((strip) => ({ ...strip, pictureHeightMm: null }));
    expect(ofKind(findWaysOut(film, paper('8x10in'), [], 0), 'trim')).toEqual([]);
  });

  it('always fit', () => {
    const anyStrip = fc.record({
      lengthMm: fc.integer({ min: 10, max: 300 }),
      heightMm: fc.constantFrom(35, 61.5),
      pictureHeightMm: fc.constantFrom(24, null),
    });
    fc.assert(
      fc.property(fc.array(anyStrip, { minLength: 1, maxLength: 15 }), (film) => {
        const here = paper('8x10in', 4);
        const failing = findWaysOut(film, here, ALL, 1).filter((way) => !helps(way, film, here));
        expect(failing).toEqual([]);
      }),
    );
  });
});

describe('the most frames on a paper', () => {
  // 135 on 8 × 10 in: 35 as 7 rows of 5 (Society of American Archivists, Dictionary, "contact sheet").
  // 6×7 with 75 mm per frame and 61.5 mm film: 9 as 3 × 3; on 9.5 × 12 in 12 as 3 × 4 or 4 × 3: hand arithmetic.
  it.each([
    ['24×36', 38, 35, '8x10in', 7, 5],
    ['6×7', 75, 61.5, '8x10in', 3, 3],
    ['6×7', 75, 61.5, 'letter', 3, 3],
    ['6×7', 75, 61.5, 'a4', 3, 3],
    ['6×7', 75, 61.5, '9.5x12in', 3, 4],
    // 6×6 with 62 mm per frame: 3 × 61.5 = 184.5 across 203.2 and 4 × 62 = 248 along 254.
    ['6×6', 62, 61.5, '8x10in', 3, 4],
  ])(
    'of %s with %f mm per frame, %f mm wide, on %s',
    (_name, pitchMm, filmWidthMm, id, count, framesPerStrip) => {
      expect(findLargestBlock({ pitchMm, filmWidthMm }, paper(id))).toEqual({
        strips: count,
        framesPerStrip,
      });
    },
  );

  it('are none when the frame is larger than the paper', () => {
    // 224 + 5 = 229 mm on 20 × 20 cm.
    const small = { widthMm: 200, heightMm: 200, marginMm: 0 };
    expect(findLargestBlock({ pitchMm: 229, filmWidthMm: 61.5 }, small)).toBeNull();
  });
});
