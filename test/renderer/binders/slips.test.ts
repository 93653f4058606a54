import { describe, expect, it } from 'vitest';
import { MATERIALS, warnOfMaterial } from '../../../renderer/binders/page-material.ts';
import { formatCut, readCut } from '../../../renderer/binders/read-cut.ts';
import { usualLayout } from '../../../renderer/binders/use-filing-choice.ts';
import { layoutNamed } from '../film/some-film.ts';

describe('material of a page', () => {
  it('is warned of when it is PVC, and only then', () => {
    // Wilhelm, The Permanence and Care of Color Photographs, ch. 14: PVC among the plastics to avoid.
    expect(MATERIALS.filter((material) => warnOfMaterial(material) !== null)).toEqual(['PVC']);
  });

  it.each(['soft pvc', 'vinyl, 1980s', 'Polyvinyl chloride'])('is recognised in “%s”', (words) => {
    expect(warnOfMaterial(words)).toContain('Wilhelm');
  });

  it('is not guessed where none is noted', () => {
    expect(warnOfMaterial(null)).toBeNull();
  });
});

describe('a cut as typed', () => {
  it.each([
    ['6 6 6 4', [6, 6, 6, 4]],
    ['6,6, 4', [6, 6, 4]],
    ['5x3 2', [5, 5, 5, 2]],
    ['5×2+1', [5, 5, 1]],
  ])('reads %s', (text, strips) => {
    expect(readCut(text)).toEqual({ ok: true, value: strips });
  });

  it('is none when nothing is typed', () => {
    expect(readCut('  ')).toEqual({ ok: true, value: null });
  });

  it.each(['six', '6 0', '6x0', '-1', '3.5', '1x201'])('refuses %s', (text) => {
    expect(readCut(text).ok).toBe(false);
  });

  it('comes back as it was written', () => {
    expect(readCut(formatCut([6, 6, 4]))).toEqual({ ok: true, value: [6, 6, 4] });
  });
});

describe('the layout to begin with', () => {
  const layouts = ['35mm-7x5', '35mm-6x6', '35mm-7x6', '35mm-7x4'].map(layoutNamed);
  const pages = (...ids: string[]) => ids.map((id) => ({ layout: layoutNamed(id) }));
  const choose = (frames: number, ...ids: string[]) =>
    usualLayout({ frames, exposures: 36 }, layouts, pages(...ids))?.id;

  it('is that of the binder’s pages which takes the whole roll', () => {
    expect(choose(38, '35mm-7x5', '35mm-7x5', '35mm-7x6')).toBe('35mm-7x6'); // 7 × 5 = 35 < 38 ≤ 42
  });

  it('is the most frequent of the binder where none takes the whole roll', () => {
    expect(choose(60, '35mm-7x5', '35mm-7x6', '35mm-7x6')).toBe('35mm-7x6');
  });

  it('is the smallest that takes the roll in an empty binder', () => {
    expect(choose(36)).toBe('35mm-6x6'); // 28, 35, 36 and 42 places
  });

  it('is the largest where none takes the roll', () => {
    expect(choose(80)).toBe('35mm-7x6');
  });

  it('is none where no layout takes the film', () => {
    expect(usualLayout({ frames: 1, exposures: null }, [], [])).toBeNull();
  });
});
