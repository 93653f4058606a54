import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine, measureLine } from '../../../shared/sheet/font-metrics.ts';

describe('measuring a line', () => {
  it('finds a face for Latin with accents, Greek, Cyrillic and Han', () => {
    expect(measureLine('京都 Łódź Ελλάδα Москва', 3, 'bold').missing).toEqual([]);
  });

  it('finds a face for simplified and traditional Chinese, kana, Hangul and Vietnamese', () => {
    expect(measureLine('简体字 繁體字 ひらがな カタカナ 한국어 Tiếng Việt', 3, 'regular').missing).toEqual(
      [],
    );
  });

  it('tells every character that no face has, once each', () => {
    expect(measureLine('Tel Aviv שלום שלום 🎞', 3, 'regular').missing).toEqual(['ש', 'ל', 'ו', 'ם', '🎞']);
  });

  it('puts one sign in the place of each missing character', () => {
    const line = measureLine('a🎞b', 3, 'regular');
    expect(line.runs.map((run) => run.text).join('')).toBe('a□b');
  });

  it('composes letters and their accents', () => {
    expect(measureLine('Cafe\u0301', 3, 'regular').text).toBe('Café');
  });

  it('turns line breaks and tabs into spaces', () => {
    expect(measureLine('one\r\n\ttwo\u00A0three', 3, 'regular').text).toBe('one two three');
  });

  it('leaves out joiners and direction marks, which show nothing', () => {
    expect(measureLine('a\u200Db\u202Ec\uFE0F', 3, 'regular')).toMatchObject({ text: 'abc', missing: [] });
  });

  it('is as wide as a Han character is high, one em each', () => {
    // Noto Sans CJK is designed on full-width squares: 2 characters × 3 mm.
    expect(measureLine('京都', 3, 'regular').widthMm).toBeCloseTo(6, 9);
  });

  it('is the sum of its runs', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (text) => {
        const line = measureLine(text, 3, 'regular');
        const sum = line.runs.reduce((total, run) => total + run.widthMm, 0);
        expect(line.widthMm).toBeCloseTo(sum, 9);
      }),
    );
  });
});

describe('fitting a line', () => {
  it('leaves a line that fits as it is', () => {
    expect(fitLine('Torrow', 3, 'regular', 50)).toMatchObject({ text: 'Torrow', shortened: false });
  });

  it('never takes more than its room when the room holds the ellipsis', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 60 }),
        fc.double({ min: 3, max: 60, noNaN: true }),
        (text, roomMm) => {
          expect(fitLine(text, 3, 'regular', roomMm).widthMm).toBeLessThanOrEqual(roomMm);
        },
      ),
    );
  });

  it('shows that it was cut by an ellipsis', () => {
    const line = fitLine('Moor road to Torrow', 3, 'regular', 15);
    expect(line.shortened).toBe(true);
    expect(line.text).toMatch(/^Moor.*…$/);
  });
});
