import { describe, expect, it } from 'vitest';
import { filingHolesMm, fitPage, pageSizeMm, rowLengthMm } from '../../../renderer/film/page-geometry.ts';
import { layoutNamed } from './some-film.ts';

describe('page geometry', () => {
  it('has four filing holes 80 mm apart, the same distance from top and foot', () => {
    // ISO 838: 80 mm between centres, symmetrical about the page's axis.
    const holes = filingHolesMm(290);
    expect(holes).toHaveLength(4);
    expect(holes.slice(1).map((mm, index) => mm - (holes[index] ?? 0))).toEqual([80, 80, 80]);
    expect((holes[0] ?? 0) + (holes[3] ?? 0)).toBe(290);
  });

  it('has two on a page that is too low for four', () => {
    expect(filingHolesMm(200)).toEqual([60, 140]); // 100 ± 40
  });

  it('counts the pockets of a row where each position is one', () => {
    const sheets = layoutNamed('4x5in-2x2');
    expect(rowLengthMm(sheets)).toBe(2 * sheets.pocketLengthMm);
  });

  it('fits the page into the room it has, either way', () => {
    const layout = layoutNamed('35mm-7x6');
    const { widthMm, heightMm } = pageSizeMm(layout);
    const scale = fitPage(layout, { widthPx: 800, heightPx: 600 }, 50);
    expect(scale * widthMm).toBeLessThanOrEqual(800);
    expect(scale * heightMm + 50).toBeLessThanOrEqual(600);
  });

  it('gives a frame of 38 mm whole pixels', () => {
    const scale = fitPage(layoutNamed('35mm-7x6'), { widthPx: 733, heightPx: null });
    expect(scale * 38).toBeCloseTo(Math.round(scale * 38), 9);
  });
});
