import { describe, expect, it } from 'vitest';
import { findPhysicalSize } from '../../../../main/engine/scans/physical-size.ts';

describe('size on film', () => {
  it('follows from pixels per inch', () => {
    // 5669 px at 4000 ppi: 5669 / 4000 × 25.4 = 36.00 mm; 3780 px: 24.00 mm.
    const size = findPhysicalSize(5669, 3780, { unit: 2, x: 4000, y: 4000 });
    expect(size?.widthMm).toBeCloseTo(36.0, 1);
    expect(size?.heightMm).toBeCloseTo(24.0, 1);
  });

  it('follows from pixels per centimetre', () => {
    // 240 px at 66.667 per cm: 3.6 cm; 66.667 × 2.54 = 169.3 ppi.
    const size = findPhysicalSize(240, 160, { unit: 3, x: 66.6667, y: 66.6667 });
    expect(size?.widthMm).toBeCloseTo(36.0, 2);
    expect(size?.ppi).toBeCloseTo(169.33, 1);
  });

  it.each([
    ['no resolution', null],
    ['an aspect ratio', { unit: 1, x: 4000, y: 4000 }],
    ['one by one', { unit: 2, x: 1, y: 1 }],
    ['zero', { unit: 2, x: 0, y: 0 }],
    ['nought over nought', { unit: 2, x: Number.NaN, y: Number.NaN }],
    ['a default of 72', { unit: 2, x: 72, y: 72 }],
    ['a film of two millimetres', { unit: 2, x: 20_000, y: 20_000 }],
    ['a film of a metre', { unit: 2, x: 101, y: 101 }],
  ])('is unknown with %s', (_, resolution) => {
    const wide = resolution !== null && resolution.x === 101 ? 4000 : 1600;
    expect(findPhysicalSize(wide, 1000, resolution)).toBeNull();
  });
});
