import { describe, expect, it } from 'vitest';
import type { DisplayItem } from '../../../shared/sheet/display-list.ts';
import { halfNumberAfter, PERFORATION } from '../../../shared/sheet/draw-strip.ts';
import { findSheetPaper, layOutSheet } from '../../../shared/sheet/layout.ts';
import { turnToLie } from '../../../shared/sheet/sheet-plan.ts';
import { sheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import type { SheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import { FILM_135, FILM_6X6, FILM_HALF, makePage, makePlan } from '../../support/make-plan.ts';

const bare = { heading: false, ruler: false } as const;

function spec(change: Partial<SheetSpec> = {}): SheetSpec {
  return { ...sheetSpec.parse({}), ...change };
}

function textsOf(items: readonly DisplayItem[]): string[] {
  return items.flatMap((item) => (item.kind === 'text' ? [item.runs.map((run) => run.text).join('')] : []));
}

function rectsOf(items: readonly DisplayItem[]) {
  return items.flatMap((item) => (item.kind === 'rect' ? [item] : []));
}

// Hand arithmetic on the film geometry of facts of the trade, 1 and 2.
describe('frames at true size', () => {
  it('lays 7 strips of 5 on 8 × 10 in where the sums say', () => {
    const layout = layOutSheet(makePlan([5, 5, 5, 5, 5, 5, 5]), spec({ paperId: '8x10in', ...bare }));
    // Upright, 203.2 × 254 mm, margins 4: x from 4, y from 4. Film 7 × 35 = 245 of 246 mm: gap (246 − 245) / 6.
    // Picture: (38 − 36) / 2 = 1 into its cell, (35 − 24) / 2 = 5.5 below the film's edge.
    const expected = Array.from({ length: 35 }, (_, index) => ({
      key: `frame-${index + 1}`,
      page: 0,
      xMm: 4 + 1 + 38 * (index % 5),
      yMm: 4 + 5.5 + (35 + 1 / 6) * Math.floor(index / 5),
      widthMm: 36,
      heightMm: 24,
    }));
    expect(layout.frames.map((frame) => frame.key)).toEqual(expected.map((frame) => frame.key));
    for (const [index, frame] of layout.frames.entries()) {
      expect(frame.xMm).toBeCloseTo(expected[index]?.xMm ?? NaN, 9);
      expect(frame.yMm).toBeCloseTo(expected[index]?.yMm ?? NaN, 9);
      expect(frame.widthMm).toBe(36);
      expect(frame.heightMm).toBe(24);
    }
  });

  it('lays 6×6 in 4 strips of 3 on A4 where the sums say', () => {
    const { frames } = layOutSheet(makePlan([3, 3, 3, 3], FILM_6X6), spec(bare));
    // Margins 4. Film 4 × 61.5 = 246 of 289 mm: gap the full 2 mm. Picture 2.5 into its cell of 61, 2.75 below the edge.
    expect(frames[0]).toMatchObject({ xMm: 6.5, yMm: 6.75, widthMm: 56, heightMm: 56 });
    expect(frames[11]?.xMm).toBeCloseTo(4 + 2 * 61 + 2.5, 9);
    expect(frames[11]?.yMm).toBeCloseTo(4 + 3 * 63.5 + 2.75, 9);
  });

  it('lets half frames stand upright, 19 mm apart', () => {
    const { frames } = layOutSheet(makePlan([6, 6], FILM_HALF), spec(bare));
    expect(frames[1]).toMatchObject({ xMm: 4 + 19 + 0.5, yMm: 4 + 5.5, widthMm: 18, heightMm: 24 });
  });

  it('starts a strip where it lies in its pocket', () => {
    const page = makePage([2]);
    const [row] = page.rows;
    const [strip] = row?.strips ?? [];
    if (!row || !strip) throw new Error('the plan is empty');
    const moved = { ...page, rows: [{ ...row, strips: [{ ...strip, startMm: 76 }] }] };
    expect(layOutSheet({ pages: [moved] }, spec(bare)).frames[0]?.xMm).toBeCloseTo(4 + 76 + 1, 9);
  });

  it('never lays a strip over the one before it in the pocket', () => {
    const page = makePage([2, 2]);
    const strips = page.rows.flatMap((row) => row.strips);
    const layout = layOutSheet({ pages: [{ ...page, rows: [{ row: 1, strips }] }] }, spec(bare));
    expect(layout.frames.map((frame) => frame.xMm)).toEqual([5, 43, 81, 119]);
  });

  it('gives each page of a plan a sheet of its own', () => {
    const layout = layOutSheet({ pages: [makePage([5]), makePage([5])] }, spec());
    expect(layout.frames.map((frame) => frame.page)).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 1, 1]);
  });
});

describe('ruler and check box', () => {
  const page = layOutSheet(makePlan([5, 5, 5]), spec()).pages[0];
  const lines = page?.items.flatMap((item) => (item.kind === 'line' ? [item] : [])) ?? [];

  it('draws a line of exactly 100 mm', () => {
    const spans = lines.map((line) => Math.abs((line.points[1]?.[0] ?? 0) - (line.points[0]?.[0] ?? 0)));
    expect(spans.filter((span) => Math.abs(span - 100) < 1e-9)).toHaveLength(1);
  });

  it('draws a box of 36 × 24 mm', () => {
    const boxes = lines.filter((line) => line.closed && line.points.length === 4).map((line) => line.points);
    const sizes = boxes.map(([a, , c]) => [(c?.[0] ?? 0) - (a?.[0] ?? 0), (c?.[1] ?? 0) - (a?.[1] ?? 0)]);
    expect(
      sizes.some(
        ([width, height]) => Math.abs((width ?? 0) - 36) < 1e-9 && Math.abs((height ?? 0) - 24) < 1e-9,
      ),
    ).toBe(true);
  });

  it('keeps the ruler at 100 mm on a sheet that is scaled', () => {
    const scaled = layOutSheet(makePlan([5, 5, 5]), spec({ scale: 0.5 })).pages[0];
    const spans = (scaled?.items ?? []).map((item) =>
      item.kind === 'line' ? Math.abs((item.points[1]?.[0] ?? 0) - (item.points[0]?.[0] ?? 0)) : 0,
    );
    expect(spans.filter((span) => Math.abs(span - 100) < 1e-9)).toHaveLength(1);
  });
});

describe('scale', () => {
  it('is printed on the sheet when it is not 1', () => {
    const { pages } = layOutSheet(makePlan([5, 5]), spec({ scale: 0.5 }));
    expect(textsOf(pages[0]?.items ?? []).join(' ')).toContain('Film printed at 50.0 % of its true size');
  });

  it('is printed even on a sheet without heading', () => {
    const { pages } = layOutSheet(makePlan([5, 5]), spec({ scale: 0.5, ...bare }));
    expect(textsOf(pages[0]?.items ?? []).join(' ')).toContain('50.0 %');
  });

  it('is not mentioned at true size', () => {
    const { pages } = layOutSheet(makePlan([5, 5]), spec());
    expect(textsOf(pages[0]?.items ?? []).join(' ')).not.toContain('%');
  });

  it('fits 6 strips of 6 on A4 at 202 over 210 when asked', () => {
    // 210 − 2 × 4 = 202 mm; 202 / 210 = 0.9619…, in steps of 0.1 %: 96.1 %.
    expect(layOutSheet(makePlan([6, 6, 6, 6, 6, 6]), spec({ scale: 'fit' })).scale).toBe(0.961);
  });

  it('enlarges when asked to fit a short roll', () => {
    // One strip of 2: 76 mm long, 35 mm high; A4 wide has 289 × 202 mm: 289 / 76 = 3.802…
    expect(layOutSheet(makePlan([2]), spec({ scale: 'fit', ...bare })).scale).toBeGreaterThan(3);
  });
});

describe('film look', () => {
  const { pages } = layOutSheet(makePlan([2]), spec(bare));
  const rects = rectsOf(pages[0]?.items ?? []);

  it('draws eight perforations to a frame along either edge', () => {
    expect(rects.filter((rect) => rect.radiusMm > 0)).toHaveLength(2 * 2 * 8);
  });

  it('spaces perforations by 4.75 mm', () => {
    // 0.1870 in. Source: facts of the trade, 1.1.
    const holes = rects.filter((rect) => rect.radiusMm > 0);
    expect((holes[1]?.xMm ?? 0) - (holes[0]?.xMm ?? 0)).toBeCloseTo(4.75, 9);
  });

  it('leaves 25.4 mm of film between the two rows of holes, within 0.05', () => {
    // One inch between the perforation rows of 35 mm film: from memory, no source.
    const between = 35 - 2 * (PERFORATION.fromEdgeMm + PERFORATION.acrossMm);
    expect(Math.abs(between - 25.4)).toBeLessThan(0.05);
  });

  it('draws no holes on 120 film', () => {
    const roll = layOutSheet(makePlan([3], FILM_6X6), spec(bare)).pages[0];
    expect(rectsOf(roll?.items ?? []).filter((rect) => rect.radiusMm > 0)).toEqual([]);
  });

  it('prints number and half-number of each frame', () => {
    expect(textsOf(pages[0]?.items ?? [])).toEqual(expect.arrayContaining(['1', '1A', '2', '2A']));
  });

  it('prints the texts of the edge in turn', () => {
    expect(textsOf(pages[0]?.items ?? [])).toEqual(expect.arrayContaining(['SEDGE PAN 100', '2207']));
  });
});

describe('half-numbers', () => {
  // Edge numbers step n, nA, n+1: facts of the trade, 1.2 (the A from memory).
  it.each([
    ['12', '12A'],
    ['12A', '13'],
    ['00', '00A'],
    ['00A', '0'],
    ['holder', null],
  ])('after %s comes %s', (label, half) => {
    expect(halfNumberAfter(label)).toBe(half);
  });
});

describe('frames that want telling', () => {
  it('shows a frame without scan as an empty frame that says so', () => {
    const { pages, frames } = layOutSheet(
      makePlan([2], FILM_135, (number) => (number === 2 ? { scan: null } : {})),
      spec(bare),
    );
    expect(frames).toHaveLength(2);
    expect(textsOf(pages[0]?.items ?? [])).toContain('no scan');
    expect(pages[0]?.items.filter((item) => item.kind === 'image')).toHaveLength(1);
  });

  it('says a remark in words on its picture', () => {
    const { pages } = layOutSheet(
      makePlan([1], FILM_135, () => ({ remark: 'scan damaged' })),
      spec(bare),
    );
    expect(textsOf(pages[0]?.items ?? [])).toContain('scan damaged');
  });

  it('prints captions only when asked', () => {
    const plan = makePlan([1], FILM_135, () => ({ caption: 'Old hull' }));
    expect(textsOf(layOutSheet(plan, spec(bare)).pages[0]?.items ?? [])).not.toContain('Old hull');
    expect(textsOf(layOutSheet(plan, spec({ ...bare, captions: true })).pages[0]?.items ?? [])).toContain(
      'Old hull',
    );
  });

  it('tells which texts were cut short', () => {
    const caption = 'The long stone quay and its tiled sheds at the lowest tide of the year';
    const plan = makePlan([1], FILM_135, () => ({ caption }));
    expect(layOutSheet(plan, spec({ captions: true })).shortened).toEqual([caption]);
  });

  it('tells which characters no face has', () => {
    expect(layOutSheet(makePlan([1]), spec({ title: 'שבת' })).missingGlyphs).toEqual(['ש', 'ב', 'ת']);
  });

  it('draws pencil marks only when asked', () => {
    const plan = makePlan([1], FILM_135, () => ({ marks: [{ kind: 'box' }] }));
    const pencils = (change: Partial<SheetSpec>) =>
      layOutSheet(plan, spec({ ...bare, ...change })).pages[0]?.items.filter(
        (item) => item.kind === 'line' && item.colour === '#ff5a38',
      ).length;
    expect(pencils({})).toBe(1);
    expect(pencils({ pencilMarks: false })).toBe(0);
  });
});

describe('ink-saving look', () => {
  it('fills nothing black', () => {
    const { pages } = layOutSheet(makePlan([5, 5]), spec({ look: 'ink-saving' }));
    expect(rectsOf(pages[0]?.items ?? []).filter((rect) => rect.fill !== '#ffffff')).toEqual([]);
  });

  it('lays the pictures where the film look has them', () => {
    const film = layOutSheet(makePlan([5, 5]), spec()).frames;
    expect(layOutSheet(makePlan([5, 5]), spec({ look: 'ink-saving' })).frames).toEqual(film);
  });
});

describe('paper', () => {
  it('is the custom size where that was chosen', () => {
    const customMm = { widthMm: 300, heightMm: 200 };
    expect(findSheetPaper(spec({ paperId: 'custom', customMm }))).toEqual(customMm);
  });

  it('is none for an unknown id', () => {
    expect(findSheetPaper(spec({ paperId: 'vellum' }))).toBeNull();
  });

  it('turns to the side that fits', () => {
    // 228 mm of film do not fit into 210 − 8, but into 297 − 8.
    const [page] = layOutSheet(makePlan([6, 6]), spec()).pages;
    expect(page).toMatchObject({ widthMm: 297, heightMm: 210 });
  });
});

describe('laying a scan on the film', () => {
  it.each([
    [{ width: 3000, height: 2000 }, { widthMm: 36, heightMm: 24 }, 0],
    [{ width: 2000, height: 3000 }, { widthMm: 36, heightMm: 24 }, 90],
    [{ width: 3000, height: 2000 }, { widthMm: 18, heightMm: 24 }, 90],
    [{ width: 2000, height: 3000 }, { widthMm: 41.5, heightMm: 56 }, 0],
    [{ width: 2000, height: 3000 }, { widthMm: 56, heightMm: 56 }, 0],
  ])('turns %o for a picture of %o by %i degrees', (scan, picture, turned) => {
    expect(turnToLie(scan, picture)).toBe(turned);
  });
});
