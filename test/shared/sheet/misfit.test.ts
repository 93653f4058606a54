import { describe, expect, it } from 'vitest';
import { layOutSheet } from '../../../shared/sheet/layout.ts';
import { sheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import type { SheetSpec } from '../../../shared/sheet/sheet-spec.ts';
import { FILM_135, FILM_6X6, makePlan } from '../../support/make-plan.ts';

const bare = { heading: false, ruler: false } as const;
const sixBySix = makePlan([6, 6, 6, 6, 6, 6]);

function spec(change: Partial<SheetSpec> = {}): SheetSpec {
  return { ...sheetSpec.parse({}), ...change };
}

// Published fits: facts of the trade, 2 (whole film width, no gap, no margin).
describe('whole film on paper without margins', () => {
  const film6x7 = { ...FILM_6X6, alongMm: 70, pitchMm: 75 };
  const film6x9 = { ...FILM_6X6, alongMm: 84, pitchMm: 89 };
  const film6x45 = { ...FILM_6X6, alongMm: 41.5, pitchMm: 46.5 };
  it.each([
    [
      '135, 7 strips of 5',
      [5, 5, 5, 5, 5, 5, 5],
      FILM_135,
      { '8x10in': true, letter: true, a4: true, '9.5x12in': true },
    ],
    [
      '135, 6 strips of 6',
      [6, 6, 6, 6, 6, 6],
      FILM_135,
      { '8x10in': false, letter: true, a4: true, '9.5x12in': true },
    ],
    [
      '6×6, 4 strips of 3',
      [3, 3, 3, 3],
      FILM_6X6,
      { '8x10in': true, letter: true, a4: true, '9.5x12in': true },
    ],
    [
      '6×4.5, 4 strips of 4',
      [4, 4, 4, 4],
      film6x45,
      { '8x10in': true, letter: true, a4: true, '9.5x12in': true },
    ],
    // Ten 6×7 in strips of 3: 3 × 75 = 225 mm long, 4 × 61.5 = 246 mm high.
    [
      '6×7, 10 frames',
      [3, 3, 3, 1],
      film6x7,
      { '8x10in': false, letter: false, a4: false, '9.5x12in': true },
    ],
    [
      '6×9, 4 strips of 2',
      [2, 2, 2, 2],
      film6x9,
      { '8x10in': true, letter: true, a4: true, '9.5x12in': true },
    ],
  ])('%s', (_, cut, film, fits) => {
    for (const [paperId, expected] of Object.entries(fits)) {
      const { misfit } = layOutSheet(makePlan(cut, film), spec({ paperId, marginMm: 0, ...bare }));
      expect(`${paperId} ${misfit === null}`).toBe(`${paperId} ${expected}`);
    }
  });
});

describe('six strips of six on 8 × 10 in', () => {
  it('lack 6.8 mm without margins', () => {
    // 6 × 35 − 8 × 25.4 = 210 − 203.2 = 6.8. Source of both sizes: facts of the trade, 2.
    const { misfit } = layOutSheet(sixBySix, spec({ paperId: '8x10in', marginMm: 0, ...bare }));
    expect(misfit?.byMm).toBeCloseTo(6.8, 9);
    expect(misfit?.sentence).toBe('6 strips of 35 mm make 210 mm; the paper has 203.2 mm.');
  });

  it('lack 14.8 mm inside margins of 4 mm', () => {
    // 210 − (203.2 − 8).
    const { misfit } = layOutSheet(sixBySix, spec({ paperId: '8x10in' }));
    expect(misfit?.byMm).toBeCloseTo(14.8, 9);
    expect(misfit?.sentence).toContain('195.2 mm between its margins of 4 mm');
  });

  it('give no pages and no frames, at a scale left as it was', () => {
    expect(layOutSheet(sixBySix, spec({ paperId: '8x10in' }))).toMatchObject({
      pages: [],
      frames: [],
      scale: 1,
    });
  });

  it('fit once the outer edges run off, with 4.2 mm to spare', () => {
    // 5 × 35 + 24 = 199 of 203.2 mm. Source: facts of the trade, 2.
    const layout = layOutSheet(sixBySix, spec({ paperId: '8x10in', marginMm: 0, trim: 'outer', ...bare }));
    expect(layout.misfit).toBeNull();
    const last = layout.frames.at(-1);
    // The film starts at y = 0 with the picture and uses the spare as gaps: 0.84 mm each, 4.2 in all.
    expect(layout.frames[0]?.yMm).toBeCloseTo(0, 9);
    expect((last?.yMm ?? 0) + (last?.heightMm ?? 0)).toBeCloseTo(199 + 4.2, 9);
  });

  it('keep every number where the outer edges run off', () => {
    const layout = layOutSheet(sixBySix, spec({ paperId: '8x10in', marginMm: 0, trim: 'outer', ...bare }));
    const texts = layout.pages[0]?.items.flatMap((item) =>
      item.kind === 'text' ? [item.runs.map((run) => run.text).join('')] : [],
    );
    expect(texts).toEqual(
      expect.arrayContaining(Array.from({ length: 36 }, (_, index) => String(index + 1))),
    );
  });

  it('go over two sheets of three strips each when asked', () => {
    const layout = layOutSheet(sixBySix, spec({ paperId: '8x10in', sheets: 'as-needed' }));
    expect(layout.pages).toHaveLength(2);
    expect(layout.frames.map((frame) => frame.page)).toEqual([...Array(18).fill(0), ...Array(18).fill(1)]);
  });

  it('offer trimming, other papers, a second sheet and a scale', () => {
    const kinds = layOutSheet(sixBySix, spec({ paperId: '8x10in' })).misfit?.offers.map(
      (offer) => offer.kind,
    );
    expect(kinds).toEqual(['trim-perforations', 'paper', 'paper', 'second-sheet', 'scale']);
  });

  it('offer only what then fits', () => {
    const offers = layOutSheet(sixBySix, spec({ paperId: '8x10in' })).misfit?.offers ?? [];
    for (const offer of offers) {
      const tried = layOutSheet(sixBySix, offer.spec);
      expect(tried).toMatchObject({ misfit: null, scale: offer.scale });
      expect(tried.pages).toHaveLength(offer.sheets);
    }
  });
});

describe('other misfits', () => {
  it('says when a strip is longer than the paper', () => {
    // 10 × 38 = 380 mm; A4 has 297 − 2 × 4 = 289.
    const { misfit } = layOutSheet(makePlan([10]), spec());
    expect(misfit?.byMm).toBeCloseTo(91, 9);
    expect(misfit?.sentence).toBe(
      'A strip of 10 frames is 380 mm; the paper has 297 mm, 289 mm between its margins of 4 mm.',
    );
  });

  it('offers no second sheet where one strip alone is too long', () => {
    const kinds = layOutSheet(makePlan([10]), spec()).misfit?.offers.map((offer) => offer.kind);
    expect(kinds).not.toContain('second-sheet');
  });

  it('tells that only the notes lack room', () => {
    const { misfit } = layOutSheet(
      makePlan([5, 5, 5, 5, 5, 5, 5]),
      spec({ paperId: '8x10in', marginMm: 4.4 }),
    );
    // Film 190 of 203.2 − 8.8 = 194.4 mm: 4.4 mm are left beside it; 245 of 254 − 8.8 = 245.2: 0.2 mm below it.
    expect(misfit?.sentence).toMatch(/^The film fits; the heading and the ruler beside it lack 0\.4 mm/);
    expect(misfit?.offers.map((offer) => offer.kind)).toContain('without-margin-notes');
  });

  it('offers to leave out captions that are one too many', () => {
    const plan = makePlan([5, 5, 5, 5, 5, 5, 5], FILM_135, () => ({ caption: 'Still water' }));
    const { misfit } = layOutSheet(plan, spec({ paperId: '8x10in', captions: true }));
    expect(misfit?.offers[0]?.kind).toBe('without-captions');
  });

  it('speaks of the page that is worst', () => {
    const pages = [...makePlan([5]).pages, ...sixBySix.pages];
    expect(layOutSheet({ pages }, spec({ paperId: '8x10in' })).misfit?.page).toBe(1);
  });

  it('lets nothing fit on paper that is all margin', () => {
    const { misfit } = layOutSheet(
      makePlan([1]),
      spec({ paperId: 'custom', customMm: { widthMm: 50, heightMm: 60 }, marginMm: 40, ...bare }),
    );
    // 38 − (60 − 80) = 58 along, 35 − (50 − 80) = 65 across; upright: 38 − (50 − 80) = 68, 35 − (60 − 80) = 55. The lesser worst: 65.
    expect(misfit?.byMm).toBeCloseTo(65, 9);
  });
});
