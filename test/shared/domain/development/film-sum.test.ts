import { describe, expect, it } from 'vitest';
import { addUpFilm, type FilmItem } from '../../../../shared/domain/development/film-sum.ts';

const item = (filmFormat: string, pieces: number, exposures: number | null = null): FilmItem => ({
  name: filmFormat,
  filmFormat,
  exposures,
  pieces,
});

describe('the film of a load', () => {
  it('of one 135, two 120 and twelve 4×5 is six units', () => {
    const sum = addUpFilm([item('135', 1, 36), item('120', 2), item('4x5in', 12)]);
    // Field log R47: 1 + 2 + 12 / 4 = 6; 6 × 80 × 2.54² = 3096.768 cm².
    expect(sum.ok && sum.value.value.rolls).toBeCloseTo(6, 9);
    expect(sum.ok && sum.value.value.areaCm2).toBeCloseTo(3096.768, 6);
  });

  it('has a line for each kind and one for the whole', () => {
    const sum = addUpFilm([item('135', 1, 36), item('220', 0), item('8x10in', 2)]);
    expect(sum.ok && sum.value.lines.map((line) => line.label)).toEqual([
      '1 × 135',
      '2 × 8x10in',
      'In rolls of 80 sq in',
    ]);
  });

  it.each([
    ['no_film', [item('135', 0)]],
    ['pieces_not_positive', [item('135', -1)]],
    ['pieces_not_positive', [item('135', 1.5)]],
    ['format_unknown', [item('136', 1)]],
    ['exposures_not_positive', [item('135', 1, 0)]],
  ] as const)('is refused with %s', (reason, items) => {
    const sum = addUpFilm(items);
    expect(sum.ok ? null : sum.reason).toBe(reason);
  });
});
