import { describe, expect, it } from 'vitest';
import { findPageLayout } from '../../../../shared/domain/filing/page-layout.ts';
import type { PageLayout } from '../../../../shared/domain/filing/page-layout.ts';
import {
  excessLengthMm,
  excessWidthMm,
  findSheetAlongRowMm,
  pitchInPage,
  roomBeside,
} from '../../../../shared/domain/filing/pocket-fit.ts';

function layout(id: string): PageLayout {
  const found = findPageLayout(id, []);
  if (!found) throw new Error(`no layout ${id}`);
  return found;
}

describe('film against pocket', () => {
  it('measures how much too long a strip of seven is for a pocket of six', () => {
    // 7 × 38 = 266 mm; the pocket is 6 × 38 + 4 = 232 mm.
    expect(excessLengthMm(266, layout('35mm-6x6'))).toBe(34);
  });

  it('measures how much too wide 120 film is for a pocket of 35 mm', () => {
    // 61.5 − 37 = 24.5 mm.
    expect(excessWidthMm('120', layout('35mm-6x6'))).toBe(24.5);
  });

  it('lets 35 mm film lie loose in a pocket for 120', () => {
    expect(excessWidthMm('135', layout('120-4x3'))).toBeLessThan(0);
  });

  it('turns a sheet to make it go in', () => {
    // 125.4 × 176.2 mm sheet, pocket 180.2 × 129.4 mm: the long side lies along the row.
    expect(findSheetAlongRowMm('5x7in', layout('5x7in-2x1'))).toBe(176.2);
    expect(excessWidthMm('5x7in', layout('5x7in-2x1'))).toBeLessThanOrEqual(0);
  });

  it('measures how much too large a sheet of 8×10 is for a pocket of 5×7', () => {
    // Turned: 252.4 − 180.2 = 72.2 mm and 201.6 − 129.4 = 72.2 mm; upright: 252.4 − 129.4 = 123 mm.
    expect(excessWidthMm('8x10in', layout('5x7in-2x1'))).toBeCloseTo(72.2, 6);
  });

  it('has no side along the row for film on a roll', () => {
    expect(findSheetAlongRowMm('135', layout('35mm-6x6'))).toBeNull();
  });

  it('says that it does not know the pitch of an unknown frame', () => {
    expect(pitchInPage('own mask', '135', layout('35mm-6x6')).known).toBe(false);
  });

  it('has room for two more full frames beside a strip of four in a pocket of six', () => {
    // 232 − 152 = 80 mm; 80 / 38 = 2.1.
    expect(roomBeside(152, 38, layout('35mm-6x6'))).toBe(2);
  });

  it('has no room beside a strip longer than the pocket', () => {
    expect(roomBeside(266, 38, layout('35mm-6x6'))).toBe(0);
  });
});
