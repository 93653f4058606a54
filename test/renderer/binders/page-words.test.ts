import { describe, expect, it } from 'vitest';
import {
  binderWords,
  firstFreePocket,
  fullnessWords,
  obstacleTo,
  pocketWords,
  rollInPocket,
  rollsOnPage,
  rowWords,
  yearWords,
} from '../../../renderer/binders/page-words.ts';
import type { StripOnPage } from '../../../shared/api/methods/filing-methods.ts';
import { layoutNamed } from '../film/some-film.ts';

function strip(stripId: number, row: number, frames: number, change: Partial<StripOnPage> = {}): StripOnPage {
  return {
    stripId,
    rollId: 1,
    roll: '2026-001',
    title: null,
    filmFormat: '135',
    row,
    position: 1,
    frames: Array.from({ length: frames }, (_, index) => ({
      id: stripId * 100 + index,
      label: String(index + 1),
      frameFormat: '24x36',
      pictureId: null,
      caption: null,
    })),
    ...change,
  };
}

const other = { rollId: 2, roll: '2026-002' };
const page = (strips: StripOnPage[], layout = '35mm-7x5') => ({ layout: layoutNamed(layout), strips });

describe('pockets of a page', () => {
  it('counts those that hold film', () => {
    expect(fullnessWords(page([strip(1, 1, 5), strip(2, 3, 2)]))).toBe('2 of 7 pockets');
  });

  it('counts each sheet’s own', () => {
    const sheets = page([strip(1, 1, 1, { filmFormat: '4x5in', position: 2 })], '4x5in-2x2');
    expect(fullnessWords(sheets)).toBe('1 of 4 pockets');
    expect(firstFreePocket(sheets)).toEqual({ row: 1, position: 1 });
    expect(rollInPocket(sheets, { row: 1, position: 2 })).toBe('2026-001');
    expect(pocketWords(sheets, { row: 1, position: 2 })).toBe('row 1, place 2');
  });

  it('takes a whole row where the row is one pocket', () => {
    expect(rollInPocket(page([strip(1, 2, 2, { position: 4 })]), { row: 2, position: 1 })).toBe('2026-001');
  });

  it('finds the first free one between taken ones, or none', () => {
    expect(firstFreePocket(page([strip(1, 1, 5), strip(2, 3, 5)]))).toEqual({ row: 2, position: 1 });
    const full = Array.from({ length: 7 }, (_, index) => strip(index + 1, index + 1, 5));
    expect(firstFreePocket(page(full))).toBeNull();
  });

  it('counts a strip’s own pocket as free for itself', () => {
    const full = Array.from({ length: 7 }, (_, index) => strip(index + 1, index + 1, 5));
    expect(firstFreePocket(page(full), 4)).toEqual({ row: 4, position: 1 });
  });
});

describe('what stands against laying a strip into a pocket', () => {
  it('is film of another roll', () => {
    const there = page([strip(9, 2, 5, other)]);
    expect(obstacleTo(strip(1, 1, 5), there, { row: 2, position: 1 })).toBe('taken by roll 2026-002');
  });

  it('is a pocket that is too short', () => {
    // Six frames of 38 mm are 228 mm; the pocket of a page for 5 holds 5 × 38 + 4 = 194 mm.
    expect(obstacleTo(strip(1, 1, 6), page([]), { row: 2, position: 1 })).toBe(
      '34 mm too short for 6 frames',
    );
  });

  it('is a page for other film', () => {
    const answer = obstacleTo(strip(1, 1, 2), page([], '120-4x3'), { row: 1, position: 1 });
    expect(answer).toBe('not for 135 film');
  });

  it('is nothing where it fits', () => {
    expect(obstacleTo(strip(1, 1, 5), page([]), { row: 2, position: 1 })).toBeNull();
  });
});

describe('words of a page', () => {
  it('tells its rolls in the order they lie, each with its rows and frames', () => {
    const rolls = rollsOnPage(page([strip(3, 4, 2, other), strip(1, 1, 5), strip(2, 2, 3)]));
    expect(rolls.map(({ number, rows, frames }) => [number, rows, frames])).toEqual([
      ['2026-001', [1, 2], 8],
      ['2026-002', [4], 2],
    ]);
  });

  it.each([
    [[3], 'row 3'],
    [[1, 2], 'rows 1 and 2'],
    [[1, 2, 3, 4], 'rows 1 to 4'],
    [[1, 3, 5], 'rows 1, 3 and 5'],
  ])('says rows %j as %s', (rows, words) => {
    expect(rowWords(rows)).toBe(words);
  });

  it.each([
    [null, null],
    [{ earliest: '2023-05-01', latest: '2023-08-09' }, '2023'],
    [{ earliest: '2023-05-01', latest: '2024-01-02' }, '2023–24'],
    [{ earliest: '1998-05-01', latest: '2003-01-02' }, '1998–2003'],
    [{ earliest: null, latest: '1999-12-31' }, '1999'],
  ])('says the years %j as %s', (shot, words) => {
    expect(yearWords(shot)).toBe(words);
  });

  it('does not say binder twice', () => {
    expect([binderWords('9'), binderWords('Binder A')]).toEqual(['Binder 9', 'Binder A']);
  });
});
