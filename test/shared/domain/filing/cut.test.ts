import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutProposal, CutRequest, FrameToFile } from '../../../../shared/domain/filing/cut.ts';
import {
  findLayoutsThatHold,
  freePockets,
  pocketsOf,
  proposeCut,
} from '../../../../shared/domain/filing/cut.ts';
import type { PageLayout } from '../../../../shared/domain/filing/page-layout.ts';
import { findPageLayout, PAGE_LAYOUTS } from '../../../../shared/domain/filing/page-layout.ts';

function layout(id: string): PageLayout {
  const found = findPageLayout(id, []);
  if (!found) throw new Error(`no layout ${id}`);
  return found;
}

function frames(count: number, frameFormat = '24x36', firstLabel = 1): FrameToFile[] {
  return Array.from({ length: count }, (_frame, index) => ({
    label: String(index + firstLabel),
    frameFormat,
  }));
}

const EMPTY_PAGE = [{ occupied: [] }];

function request(change: Partial<CutRequest>): CutRequest {
  return {
    filmFormat: '135',
    frames: frames(36),
    layout: layout('35mm-7x5'),
    cut: null,
    pages: EMPTY_PAGE,
    morePages: false,
    ...change,
  };
}

function propose(change: Partial<CutRequest>): CutProposal {
  const answer = proposeCut(request(change));
  if (!answer.ok) throw new Error(answer.reason);
  return answer.value;
}

function cutOf(proposal: CutProposal): number[] {
  return proposal.strips.map((strip) => strip.count);
}

describe('cutting a roll to a page', () => {
  it('leaves a strip of 2 over when 38 frames are cut 6,6,6,6,6,6,2 into a page of 6 by 6', () => {
    const proposal = propose({
      frames: frames(38),
      layout: layout('35mm-6x6'),
      cut: [6, 6, 6, 6, 6, 6, 2],
    });
    // 6 rows × 6 = 36 places, 38 − 36 = 2.
    expect(proposal.strips.filter((strip) => strip.place !== null).flatMap((strip) => strip.labels)).toEqual(
      frames(36).map((frame) => frame.label),
    );
    expect(proposal.leftover).toEqual(['37', '38']);
    expect(proposal.strips.at(-1)).toMatchObject({ count: 2, place: null });
  });

  it('leaves 2 of 37 frames over on a page of 7 by 5', () => {
    const proposal = propose({ frames: frames(37) });
    expect(cutOf(proposal)).toEqual([5, 5, 5, 5, 5, 5, 5, 2]);
    expect(proposal.leftover).toEqual(['36', '37']);
  });

  it('puts what is left over on a second page when asked', () => {
    const proposal = propose({ frames: frames(37), morePages: true });
    expect(proposal.leftover).toEqual([]);
    expect(proposal.strips.at(-1)).toMatchObject({ count: 2, place: { page: 1, row: 1, position: 1 } });
    expect(proposal.pagesUsed).toBe(2);
  });

  it('names the single frame that a 36-exposure roll leaves over on 7 by 5', () => {
    expect(propose({}).leftover).toEqual(['36']);
  });

  it('places frame n of a page of 7 by 5 in row ⌈n/5⌉', () => {
    const proposal = propose({ frames: frames(35) });
    for (const strip of proposal.strips) {
      expect(strip.place?.row).toBe(Math.ceil(strip.firstOrdinal / 5));
    }
  });

  it('keeps labels 00 and 0 at the head of the film', () => {
    const odd = ['00', '0', '1', '2', '3', '4'].map((label) => ({ label, frameFormat: '24x36' }));
    const proposal = propose({ frames: odd });
    expect(proposal.strips.map((strip) => strip.labels)).toEqual([['00', '0', '1', '2', '3'], ['4']]);
  });

  it('takes 72 half frames in six strips of twelve on a page of 6 by 6', () => {
    // 12 × 19 = 228 mm = 6 × 38.
    const proposal = propose({ frames: frames(72, '18x24'), layout: layout('35mm-6x6') });
    expect(cutOf(proposal)).toEqual([12, 12, 12, 12, 12, 12]);
    expect(proposal.strips[0]?.lengthMm).toBe(228);
    expect(proposal.leftover).toEqual([]);
  });

  it('counts a panorama by its own length among full frames', () => {
    // 194 mm pocket: 66.5 + 3 × 38 = 180.5 goes in, 218.5 does not; then 5 × 38 = 190.
    const mixed = [{ label: '1', frameFormat: '24x65' }, ...frames(8, '24x36', 2)];
    const proposal = propose({ frames: mixed });
    expect(cutOf(proposal)).toEqual([4, 5]);
    expect(proposal.strips.map((strip) => strip.lengthMm)).toEqual([180.5, 190]);
  });

  it('cuts panoramas made with a mask like full frames', () => {
    const mixed = [...frames(3), ...frames(2, '13x36', 4)];
    expect(cutOf(propose({ frames: mixed }))).toEqual([5]);
  });

  it('files a second short roll below the first', () => {
    const taken = [1, 2, 3].map((row) => ({ row, position: 1 }));
    const proposal = propose({ frames: frames(12), pages: [{ occupied: taken }] });
    expect(proposal.strips.map((strip) => strip.place?.row)).toEqual([4, 5, 6]);
  });

  it('fills gaps between occupied rows', () => {
    const taken = [{ row: 2, position: 3 }];
    const proposal = propose({ frames: frames(10), pages: [{ occupied: taken }] });
    expect(proposal.strips.map((strip) => strip.place?.row)).toEqual([1, 3]);
  });

  it('goes on to the next page offered', () => {
    const taken = [1, 2, 3, 4, 5, 6].map((row) => ({ row, position: 1 }));
    const proposal = propose({ frames: frames(12), pages: [{ occupied: taken }, { occupied: [] }] });
    expect(proposal.strips.map((strip) => strip.place)).toEqual([
      { page: 0, row: 7, position: 1 },
      { page: 1, row: 1, position: 1 },
      { page: 1, row: 2, position: 1 },
    ]);
  });

  it('puts each sheet in a pocket of its own', () => {
    const sheets = ['1A', '1B', '2A', '2B', '3A'].map((label) => ({ label, frameFormat: '4x5in' }));
    const proposal = propose({ filmFormat: '4x5in', frames: sheets, layout: layout('4x5in-2x2') });
    expect(proposal.strips.map((strip) => strip.place && [strip.place.row, strip.place.position])).toEqual([
      [1, 1],
      [1, 2],
      [2, 1],
      [2, 2],
      null,
    ]);
    expect(proposal.leftover).toEqual(['3A']);
  });

  it('cuts ten 6×7 frames 3, 3, 3, 1 on the wide page', () => {
    const proposal = propose({
      filmFormat: '120',
      frames: frames(10, '6x7'),
      layout: layout('120-4x3-wide'),
    });
    expect(cutOf(proposal)).toEqual([3, 3, 3, 1]);
    expect(proposal.leftover).toEqual([]);
  });

  it('counts a frame of unknown size as one place of the page', () => {
    expect(cutOf(propose({ frames: frames(12, 'own mask') }))).toEqual([5, 5, 2]);
  });

  it('takes 35 mm film from a 6×6 camera by the length of its frames', () => {
    // 61 mm each: 3 in 194 mm.
    expect(cutOf(propose({ frames: frames(6, '6x6') }))).toEqual([3, 3]);
  });
});

describe('refusing a cut', () => {
  it('says by how much a strip is longer than the pocket', () => {
    // 6 × 38 = 228 mm against a pocket of 5 × 38 + 4 = 194 mm: 34 mm.
    expect(proposeCut(request({ cut: [6, 6, 6, 6, 6, 6] }))).toEqual({
      ok: false,
      reason: 'strip_longer_than_pocket',
      strip: 1,
      count: 6,
      overMm: 34,
    });
  });

  it('says by how much a frame is longer than the pocket', () => {
    // 6×17: 168 + 5 mm gap = 173 mm. 40 mm pocket: 133 mm over.
    const narrow = { ...layout('120-4x3'), pocketLengthMm: 40 };
    expect(
      proposeCut(request({ filmFormat: '120', frames: frames(1, '6x17'), layout: narrow })),
    ).toMatchObject({ reason: 'frame_longer_than_pocket', label: '1', overMm: 133 });
  });

  it('says by how much film is wider than the pocket', () => {
    // 61.5 mm film in a pocket 37 mm high.
    const own = { ...layout('35mm-7x5'), filmFormats: ['120'] };
    expect(proposeCut(request({ filmFormat: '120', frames: frames(1, '6x6'), layout: own }))).toMatchObject({
      reason: 'film_wider_than_pocket',
      overMm: 24.5,
    });
  });

  it.each<[string, Partial<CutRequest>]>([
    ['no_frames', { frames: [] }],
    ['film_not_for_page', { filmFormat: '120' }],
    ['cut_not_whole_roll', { cut: [5, 5, 5, 5, 5, 5, 5] }],
    ['cut_not_whole_roll', { cut: [] }],
    ['strip_not_counted', { cut: [36, 0] }],
    ['strip_not_counted', { cut: [35.5, 0.5] }],
    ['no_free_pocket', { pages: [] }],
    ['no_free_pocket', { pages: [{ occupied: pocketsOf(layout('35mm-7x5')) }] }],
    ['strip_not_one_frame', { filmFormat: '4x5in', layout: layout('4x5in-2x2'), cut: [2, 34] }],
  ])('gives the reason %s', (reason, change) => {
    expect(proposeCut(request(change))).toMatchObject({ ok: false, reason });
  });

  it('tells the two sums that differ', () => {
    expect(proposeCut(request({ cut: [5, 5] }))).toMatchObject({ cutFrames: 10, frames: 36 });
  });
});

describe('pages that hold a roll', () => {
  it('offers 7 by 6 for 38 frames of 35 mm', () => {
    // 7 × 6 = 42 places; 35, 36 and 28 are too few.
    expect(findLayoutsThatHold('135', frames(38), PAGE_LAYOUTS).map((usual) => usual.id)).toEqual([
      '35mm-7x6',
    ]);
  });

  it('offers nothing for a roll that no page takes', () => {
    expect(findLayoutsThatHold('135', frames(400), PAGE_LAYOUTS)).toEqual([]);
  });
});

const anyRequest = fc
  .record({
    usual: fc.constantFrom(...PAGE_LAYOUTS.filter((usual) => usual.filmFormats.includes('135'))),
    formats: fc.array(fc.constantFrom('24x36', '18x24', '24x65', '13x36', '24x24', 'own mask'), {
      minLength: 1,
      maxLength: 90,
    }),
    pages: fc.array(
      fc.array(fc.record({ row: fc.integer({ min: 1, max: 7 }), position: fc.integer({ min: 1, max: 6 }) })),
      { minLength: 1, maxLength: 3 },
    ),
    morePages: fc.boolean(),
  })
  .map(({ usual, formats, pages, morePages }) =>
    request({
      layout: usual,
      frames: formats.map((frameFormat, index) => ({ label: String(index), frameFormat })),
      pages: pages.map((occupied) => ({ occupied })),
      morePages,
    }),
  );

describe('every cut', () => {
  it('holds every frame exactly once and in order', () => {
    fc.assert(
      fc.property(anyRequest, (any) => {
        const answer = proposeCut(any);
        fc.pre(answer.ok);
        if (!answer.ok) return;
        expect(answer.value.strips.flatMap((strip) => strip.labels)).toEqual(
          any.frames.map((frame) => frame.label),
        );
        let next = 1;
        for (const strip of answer.value.strips) {
          expect(strip.firstOrdinal).toBe(next);
          expect(strip.labels).toHaveLength(strip.count);
          next += strip.count;
        }
      }),
    );
  });

  it('never overfills a row', () => {
    fc.assert(
      fc.property(anyRequest, (any) => {
        const answer = proposeCut(any);
        fc.pre(answer.ok);
        if (!answer.ok) return;
        const rows = answer.value.strips.flatMap(({ place }) =>
          place ? [`${String(place.page)}/${String(place.row)}`] : [],
        );
        expect(new Set(rows).size).toBe(rows.length);
        for (const strip of answer.value.strips) {
          expect(strip.lengthMm).toBeLessThanOrEqual(any.layout.pocketLengthMm + 1e-6);
          const taken = strip.place ? (any.pages[strip.place.page]?.occupied ?? []) : [];
          expect(taken.some((pocket) => pocket.row === strip.place?.row)).toBe(false);
        }
      }),
    );
  });

  it('leaves nothing over while a pocket is free', () => {
    fc.assert(
      fc.property(anyRequest, (any) => {
        const answer = proposeCut(any);
        fc.pre(answer.ok);
        if (!answer.ok) return;
        const free = any.pages.flatMap((page) => freePockets(any.layout, page.occupied)).length;
        const placed = answer.value.strips.filter((strip) => strip.place !== null).length;
        expect(placed).toBe(
          any.morePages ? answer.value.strips.length : Math.min(free, answer.value.strips.length),
        );
      }),
    );
  });

  it('comes out the same a second time', () => {
    fc.assert(
      fc.property(anyRequest, (any) => {
        expect(proposeCut(any)).toEqual(proposeCut(any));
      }),
    );
  });
});
