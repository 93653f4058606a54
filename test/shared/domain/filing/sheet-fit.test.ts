import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutStrip, PaperToFit } from '../../../../shared/domain/filing/sheet-fit.ts';
import { fitOnPaper, stackHeightMm } from '../../../../shared/domain/filing/sheet-fit.ts';
import { findPaper } from '../../../../shared/sheet/paper.ts';

function paper(id: string, marginMm = 0): PaperToFit {
  const found = findPaper(id);
  if (!found) throw new Error(`no paper ${id}`);
  return { widthMm: found.widthMm, heightMm: found.heightMm, marginMm };
}

function strips(count: number, lengthMm: number, heightMm: number, pictureHeightMm: number): CutStrip[] {
  return Array.from({ length: count }, () => ({ lengthMm, heightMm, pictureHeightMm }));
}

/** Film as in the table: strips × (length × height of one), and of 6×7 the cuts that carry all ten frames. */
const FILM: Readonly<Record<string, CutStrip[]>> = {
  '135, 7 strips of 5': strips(7, 190, 35, 24),
  '135, 6 strips of 6': strips(6, 228, 35, 24),
  '135, 7 strips of 6': strips(7, 228, 35, 24),
  '6×6, 4 strips of 3': strips(4, 186, 61.5, 56),
  '6×4.5, 4 strips of 4': strips(4, 184, 61.5, 56),
  '6×9, 4 strips of 2': strips(4, 180, 61.5, 56),
  '6×7, 4 strips of 3': strips(4, 225, 61.5, 56),
  '6×7, 3 strips of 3': strips(3, 225, 61.5, 56),
  '6×7, 4 strips of 2': strips(4, 150, 61.5, 56),
  '4×5 in, 2 rows of 2': strips(2, 200, 125.4, 120),
};

/**
 * Whole film width, no gap between strips, no margin. Each row is arithmetic on the film's size (35 mm; 61.5 mm;
 * 38, 62, 46, 75, 90 mm per frame; sheets of 100.0 × 125.4 mm) and the paper's: film longer or higher than the
 * paper the better way round → mm that are missing, 0 when it fits.
 */
const TABLE: readonly (readonly [string, readonly [string, number][]])[] = [
  [
    // 245 × 190
    '135, 7 strips of 5',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 210 × 228: 210 − 203.2 = 6.8; 210 on A4 exactly.
    '135, 6 strips of 6',
    [
      ['8x10in', 6.8],
      ['letter', 0],
      ['a4', 0],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 245 × 228: 228 − 203.2, 228 − 215.9, 228 − 210.
    '135, 7 strips of 6',
    [
      ['8x10in', 24.8],
      ['letter', 12.1],
      ['a4', 18],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 246 × 186
    '6×6, 4 strips of 3',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 246 × 184
    '6×4.5, 4 strips of 4',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 246 × 225 for ten frames: 225 − 203.2, 225 − 215.9, 225 − 210; 241.3 × 304.8 takes it.
    '6×7, 4 strips of 3',
    [
      ['8x10in', 21.8],
      ['letter', 9.1],
      ['a4', 15],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 184.5 × 225, nine frames
    '6×7, 3 strips of 3',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
    ],
  ],
  [
    // 246 × 150, eight frames
    '6×7, 4 strips of 2',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
    ],
  ],
  [
    // 246 × 180
    '6×9, 4 strips of 2',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
      ['9.5x12in', 0],
    ],
  ],
  [
    // 200 × 250.8
    '4×5 in, 2 rows of 2',
    [
      ['8x10in', 0],
      ['letter', 0],
      ['a4', 0],
      ['9.5x12in', 0],
    ],
  ],
];

const CELLS = TABLE.flatMap(([film, cells]) => cells.map(([id, overMm]) => ({ film, id, overMm })));

describe('whole film on paper at true size', () => {
  it.each(CELLS)('$film on $id lacks $overMm mm', ({ film, id, overMm }) => {
    const fit = fitOnPaper(FILM[film] ?? [], paper(id), 'none', 0);
    expect(fit.overMm).toBeCloseTo(overMm, 6);
    expect(fit.fits).toBe(overMm === 0);
  });

  it('has 5.9 mm to spare for six strips of six on Letter', () => {
    // 215.9 − 210 = 5.9.
    const fit = fitOnPaper(FILM['135, 6 strips of 6'] ?? [], paper('letter'), 'none', 0);
    expect(fit.spareHeightMm).toBeCloseTo(5.9, 6);
  });

  it('has no margin left for six strips of six on A4', () => {
    const film = FILM['135, 6 strips of 6'] ?? [];
    expect(fitOnPaper(film, paper('a4'), 'none', 0).spareHeightMm).toBe(0);
    // With 4 mm on each side 2 × 4 mm are missing.
    expect(fitOnPaper(film, paper('a4', 4), 'none', 0).overMm).toBeCloseTo(8, 6);
  });

  it('fits six strips of six on 8 × 10 in once the outer perforations may fall away', () => {
    // 5 × 35 + 24 = 199 mm.
    const film = FILM['135, 6 strips of 6'] ?? [];
    expect(stackHeightMm(film, 'outer', 0)).toBe(199);
    expect(fitOnPaper(film, paper('8x10in'), 'outer', 0).fits).toBe(true);
  });

  it('fits the pictures alone with labels between on A4 with margins', () => {
    // 6 × 24 + 5 × 4 = 164 mm high, 228 mm long, in 289 × 202 mm.
    const film = FILM['135, 6 strips of 6'] ?? [];
    expect(stackHeightMm(film, 'all', 4)).toBe(164);
    expect(fitOnPaper(film, paper('a4', 4), 'all', 4)).toMatchObject({ fits: true, along: 'height' });
  });

  it('leaves the edge on film whose picture height nobody knows', () => {
    expect(stackHeightMm([{ lengthMm: 190, heightMm: 35, pictureHeightMm: null }], 'outer', 0)).toBe(35);
  });

  it('counts the gaps between strips only', () => {
    // 3 × 35 + 2 × 2 = 109.
    expect(stackHeightMm(strips(3, 190, 35, 24), 'none', 2)).toBe(109);
  });

  it('takes a sheet without film as fitting', () => {
    expect(fitOnPaper([], paper('a4'), 'none', 2)).toMatchObject({ fits: true, filmHeightMm: 0 });
  });

  it('never minds which way round the paper lies', () => {
    const side = fc.integer({ min: 50, max: 500 });
    fc.assert(
      fc.property(
        side,
        side,
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 10, max: 300 }),
        (widthMm, heightMm, count, lengthMm) => {
          const film = strips(count, lengthMm, 35, 24);
          const one = fitOnPaper(film, { widthMm, heightMm, marginMm: 4 }, 'none', 1);
          const turned = fitOnPaper(film, { widthMm: heightMm, heightMm: widthMm, marginMm: 4 }, 'none', 1);
          expect(turned.overMm).toBe(one.overMm);
        },
      ),
    );
  });
});
