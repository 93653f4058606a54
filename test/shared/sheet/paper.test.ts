import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findPaper, formatPaperSize, PAPERS, parsePaperSize } from '../../../shared/sheet/paper.ts';

describe('papers', () => {
  // ISO 216: A4 = 210 × 297 mm, A3 = 297 × 420 mm. Inches × 25.4 by hand.
  it.each([
    ['a4', 210, 297],
    ['a3', 297, 420],
    ['letter', 215.9, 279.4],
    ['8x10in', 203.2, 254],
    ['9.5x12in', 241.3, 304.8],
    ['11x14in', 279.4, 355.6],
    ['24x30cm', 240, 300],
  ])('knows %s as %f × %f mm', (id, widthMm, heightMm) => {
    expect(findPaper(id)?.widthMm).toBeCloseTo(widthMm, 6);
    expect(findPaper(id)?.heightMm).toBeCloseTo(heightMm, 6);
  });

  it('lists every paper upright, each id once', () => {
    for (const paper of PAPERS) expect(paper.widthMm).toBeLessThanOrEqual(paper.heightMm);
    expect(new Set(PAPERS.map((paper) => paper.id)).size).toBe(PAPERS.length);
  });

  it('finds none of an unknown id', () => {
    expect(findPaper('custom')).toBeNull();
  });

  it.each([
    ['210x297', 210, 297],
    ['210 × 297 mm', 210, 297],
    ['24x30cm', 240, 300],
    ['24cm x 30cm', 240, 300],
    ['8.5 x 11 in', 215.9, 279.4],
    ['8,5x11"', 215.9, 279.4],
    ['297*210', 297, 210],
  ])('reads %s', (text, widthMm, heightMm) => {
    const read = parsePaperSize(text);
    expect(read.ok && read.value.widthMm).toBeCloseTo(widthMm, 6);
    expect(read.ok && read.value.heightMm).toBeCloseTo(heightMm, 6);
  });

  it.each([
    ['', 'paper_unreadable'],
    ['A4', 'paper_unreadable'],
    ['210', 'paper_unreadable'],
    ['-210x297', 'paper_unreadable'],
    ['10x297', 'paper_too_small'],
    ['0x0', 'paper_too_small'],
    ['210x2970', 'paper_too_large'],
  ])('refuses %j as %s', (text, reason) => {
    expect(parsePaperSize(text)).toEqual({ ok: false, reason });
  });

  it('reads what it writes', () => {
    const tenths = fc.integer({ min: 200, max: 20_000 }).map((value) => value / 10);
    fc.assert(
      fc.property(tenths, tenths, (widthMm, heightMm) => {
        expect(parsePaperSize(formatPaperSize({ widthMm, heightMm }))).toEqual({
          ok: true,
          value: { widthMm, heightMm },
        });
      }),
    );
  });
});
