import { describe, expect, it } from 'vitest';
import { FILM_FORMATS, findFilmFormat } from '../../../../shared/domain/film/film-format.ts';
import { findFrameOnFilm } from '../../../../shared/domain/film/frame-format.ts';

describe('film formats', () => {
  // Widths: 135 film (EPFL, after ISO 1007) 35 mm; 120 between 61 and 62 mm (infogalactic, videophoto.studio);
  // 127 46 mm (professionalfilmscanning.com); 110 is 16 mm stock (wikiwand.com).
  it.each([
    ['135', 35],
    ['127', 46],
    ['110', 16],
    ['126', 35],
  ])('gives %s its published width', (id, widthMm) => {
    expect(findFilmFormat(id)?.widthMm).toBe(widthMm);
  });

  it.each(['120', '220', '620'])('keeps %s between the two published widths', (id) => {
    expect(findFilmFormat(id)?.widthMm).toBeGreaterThanOrEqual(61);
    expect(findFilmFormat(id)?.widthMm).toBeLessThanOrEqual(62);
  });

  it('keeps the real sheet under its name of 4×5 inches', () => {
    const sheet = findFilmFormat('4x5in');
    expect(sheet?.widthMm).toBeLessThan(4 * 25.4);
    expect(sheet?.lengthMm).toBeLessThan(5 * 25.4);
  });

  it('does not know a format that nobody defined', () => {
    expect(findFilmFormat('135 ')).toBeNull();
  });

  it('uses every id once', () => {
    const ids = FILM_FORMATS.map((format) => format.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each(FILM_FORMATS)('counts $id in a frame that goes on it', (format) => {
    expect(findFrameOnFilm(format.standardFrame, format.id)).not.toBeNull();
  });

  it.each(FILM_FORMATS)('gives a length to $id only if it is a sheet', (format) => {
    expect(format.lengthMm !== null).toBe(format.kind === 'sheet');
  });
});
