import { describe, expect, it } from 'vitest';
import { describeCutRefusal, explainCut } from '../../../../shared/domain/filing/cut-words.ts';
import type { CutRequest } from '../../../../shared/domain/filing/cut.ts';
import { proposeCut } from '../../../../shared/domain/filing/cut.ts';
import { findPageLayout } from '../../../../shared/domain/filing/page-layout.ts';

function request(change: Partial<CutRequest>): CutRequest {
  const layout = findPageLayout('35mm-6x6', []);
  if (!layout) throw new Error('no layout');
  return {
    filmFormat: '135',
    frames: Array.from({ length: 38 }, (_frame, index) => ({
      label: String(index),
      frameFormat: '24x36',
    })),
    layout,
    cut: null,
    pages: [{ occupied: [] }],
    morePages: false,
    ...change,
  };
}

function explain(change: Partial<CutRequest>): readonly string[] {
  const asked = request(change);
  const answer = proposeCut(asked);
  if (!answer.ok) throw new Error(answer.reason);
  return explainCut(asked, answer.value, (page) => `Page ${String(page + 12)}`);
}

describe('the words of a cut', () => {
  it('tells the sum, the cut, the rows, what is left over', () => {
    // 6 × 38 = 228 mm, hand arithmetic.
    expect(explain({})).toEqual([
      'A pocket of 232 mm holds 6 frames of 24×36: 6 × 38 mm = 228 mm.',
      '38 frames cut 6, 6, 6, 6, 6, 6, 2.',
      'Page 12: rows 1, 2, 3, 4, 5 and 6.',
      'Left over: 2 frames in one strip (36, 37). Another page takes them, or they stay loose.',
    ]);
  });

  it('names the second page by the name it was given', () => {
    expect(explain({ morePages: true })).toContain('Page 13: row 1.');
  });

  it('says when the size of a frame is not known', () => {
    expect(explain({ frames: [{ label: '1', frameFormat: 'own mask' }] })[0]).toContain(
      'own mask is not known',
    );
  });

  it('says by how many millimetres a strip is too long', () => {
    // 7 × 38 − 232 = 34.
    const answer = proposeCut(request({ cut: [7, 7, 7, 7, 7, 3] }));
    expect(!answer.ok && describeCutRefusal(answer)).toBe(
      'Strip 1 (7 frames) is 34 mm longer than the pocket.',
    );
  });

  it.each<[Partial<CutRequest>, string]>([
    [{ frames: [] }, 'The roll has no frames to file.'],
    [{ filmFormat: '120' }, '120 film does not go into a page for 35 mm, 6 strips of 6.'],
    [{ cut: [6, 6] }, 'The strips add up to 12 frames, the roll has 38.'],
    [{ cut: [6, 0] }, 'Strip 2 needs a whole number of frames, at least 1.'],
    [{ pages: [] }, 'There is no free pocket on the page.'],
  ])('refuses %o in a sentence', (change, words) => {
    const answer = proposeCut(request(change));
    expect(!answer.ok && describeCutRefusal(answer)).toBe(words);
  });
});
