import { describe, expect, it } from 'vitest';
import { findFilmFormat } from '../../../../shared/domain/film/film-format.ts';
import {
  expectFrames,
  findFrameFormat,
  findFrameOnFilm,
  FRAME_FORMATS,
  frameFormatsOn,
  liesUpright,
  PITCH_135_MM,
} from '../../../../shared/domain/film/frame-format.ts';

describe('frames on 135', () => {
  it('advances eight perforations of 4.75 mm for 24×36: 38.00 mm', () => {
    // 8 × 4.750 mm = 38.00 mm. Source: KS-1870 pitch, 135 film (EPFL); es.knowpia.com/knowpedia/Formato_135.
    expect(PITCH_135_MM).toBe(38);
    expect(findFrameOnFilm('24x36', '135')?.pitchMm).toBe(38);
  });

  it('advances four perforations for half frame: 19.00 mm', () => {
    expect(findFrameOnFilm('18x24', '135')?.pitchMm).toBe(19);
  });

  it.each([
    // 36 × 38 mm = 1368 mm, 24 → 912, 12 → 456: hand arithmetic.
    ['24x36', 36, 36],
    ['24x36', 24, 24],
    ['24x36', 12, 12],
    ['18x24', 36, 72],
    ['18x24', 24, 48],
  ])('expects of %s on a film of %i exposures %i frames', (frame, exposures, frames) => {
    expect(expectFrames(frame, '135', exposures)).toEqual({ ok: true, value: frames });
  });

  it('expects the usual 36 when nobody said how long the film is', () => {
    expect(expectFrames('24x36', '135', null)).toEqual({ ok: true, value: 36 });
  });
});

describe('frames on 120', () => {
  // Source: liquisearch.com/120_film/frame_sizes, picture across × along in mm and frames on one roll.
  it.each([
    ['6x4.5', 41.5, 16],
    ['6x6', 56, 12],
    ['6x7', 70, 10],
    ['6x8', 77, 9],
    ['6x9', 84, 8],
    ['6x12', 118, 6],
    ['6x17', 168, 4],
    ['6x24', 224, 3],
  ])('gives %s 56 × %f mm', (id, alongMm, frames) => {
    expect(findFrameFormat(id)).toMatchObject({ acrossMm: 56, alongMm });
    expect(findFrameOnFilm(id, '120')?.counts[0]).toBe(frames);
  });

  it('knows that 6×4.5 gives 15 with some cameras', () => {
    expect(findFrameOnFilm('6x4.5', '120')?.counts).toContain(15);
  });

  it('fits every usual number of frames on 760 to 840 mm of film', () => {
    // Length of the film: liquisearch.com/120_film/characteristics, 76 cm at least, 81–84 cm at most.
    for (const format of frameFormatsOn('120')) {
      const on120 = findFrameOnFilm(format.id, '120');
      expect((on120?.counts[0] ?? 0) * (on120?.pitchMm ?? 0)).toBeLessThanOrEqual(760);
    }
  });

  it('takes the exposures of a 120 roll as frames', () => {
    expect(expectFrames('6x4.5', '120', 15)).toEqual({ ok: true, value: 15 });
  });
});

describe('frame formats', () => {
  it.each([
    ['6x4.5', true],
    ['18x24', true],
    ['3x4', true],
    ['24x36', false],
    ['6x6', false],
    ['6x7', false],
  ])('lays %s upright: %s', (id, upright) => {
    const format = findFrameFormat(id);
    expect(format && liesUpright(format)).toBe(upright);
  });

  it('fits every frame inside its film', () => {
    for (const format of FRAME_FORMATS) {
      for (const film of format.on) {
        expect(format.acrossMm).toBeLessThan(findFilmFormat(film.filmFormat)?.widthMm ?? 0);
      }
    }
  });

  it('keeps a gap between frames on every film', () => {
    for (const format of FRAME_FORMATS) {
      for (const film of format.on) expect(format.alongMm).toBeLessThan(film.pitchMm);
    }
  });

  it('uses every id once', () => {
    const ids = FRAME_FORMATS.map((format) => format.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each([
    ['24x36', '120', 36, 'frame_not_on_film'],
    ['24x36', 'wide gauge', 36, 'format_unknown'],
    ['5x5', '135', 36, 'format_unknown'],
    ['24x36', '135', 0, 'exposures_not_positive'],
    ['24x36', '135', 12.5, 'exposures_not_positive'],
  ])('refuses %s on %s with %d exposures', (frame, film, exposures, reason) => {
    expect(expectFrames(frame, film, exposures)).toEqual({ ok: false, reason });
  });
});
