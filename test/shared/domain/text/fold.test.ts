import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldDigits } from '../../../../shared/domain/text/digits.ts';
import { foldText } from '../../../../shared/domain/text/fold.ts';

describe('text as a search compares it', () => {
  // Field log R34: ÜBUNG finds Übung.
  it.each(['Übung', 'übung', 'ÜBUNG', 'U\u0308bung', 'UBUNG'])('folds %s to ubung', (text) => {
    expect(foldText(text)).toBe('ubung');
  });

  // Source: CLDR Latin-ASCII, rows of these letters; from memory, not looked up.
  it.each([
    ['Łódź', 'lodz'],
    ['Tromsø', 'tromso'],
    ['Straße', 'strasse'],
    ['GROẞ', 'gross'],
    ['Đà Nẵng', 'da nang'],
    ['Ħamrun', 'hamrun'],
    ['Diyarbakır', 'diyarbakir'],
    ['İzmir', 'izmir'],
    ['Ærø', 'aero'],
    ['Œuvre', 'oeuvre'],
    ['Þingvellir', 'thingvellir'],
    ['Ísafjörður', 'isafjordur'],
    ['Ŋaro', 'naro'],
  ])('folds %s to %s', (text, folded) => {
    expect(foldText(text)).toBe(folded);
  });

  // Source: Unicode, compatibility decompositions of the full-width block (FF29 is I, FF4D is m); from memory.
  it('makes full-width letters narrow', () => {
    expect(foldText('Ｉｍｇ　０７')).toBe('img 07');
  });

  it('leaves Japanese and Chinese whole', () => {
    expect(foldText('京都 が かき 第12巻')).toBe('京都 が かき 第12巻');
  });

  it('keeps the two Japanese letters ka and ga apart', () => {
    expect(foldText('か')).not.toBe(foldText('が'));
  });

  it('gives composed and decomposed Korean the same form', () => {
    expect(foldText('서울'.normalize('NFD'))).toBe('서울');
  });

  it('folds Greek with accents and final sigma', () => {
    expect(foldText('ΟΔΥΣΣΈΑΣ')).toBe(foldText('Οδυσσέας'));
  });

  it('folds Cyrillic io to ie, as Russian readers do', () => {
    expect(foldText('Ёлка')).toBe('елка');
  });

  it('takes typographic and typewriter signs as equal', () => {
    expect(foldText('l’été – “oui”')).toBe('l\'ete - "oui"');
  });

  it('changes nothing when it runs a second time', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 30 }), (text) => {
        expect(foldText(foldText(text))).toBe(foldText(text));
      }),
    );
  });

  it('gives every normal form of a text one folded form', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 30 }),
        fc.constantFrom('NFC', 'NFD', 'NFKC', 'NFKD'),
        (text, form) => {
          expect(foldText(text.normalize(form))).toBe(foldText(text));
        },
      ),
    );
  });

  it('does not care about capitals in the scripts that have them', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'abzäöüéñçłøđœæþабвгдяαβγω') }), (text) => {
        expect(foldText(text.toUpperCase())).toBe(foldText(text));
      }),
    );
  });
});

describe('digits of every script', () => {
  // Source: Unicode code charts; U+0660 Arabic-Indic zero, U+0966 Devanagari zero, U+FF10 full-width zero,
  // U+1D7CE to U+1D7FF five sets of mathematical digits beginning with bold zero; from memory.
  it.each([
    ['٣٦_٠٧', '36_07'],
    ['०१२३४५६७८९', '0123456789'],
    ['０７', '07'],
    ['𝟎𝟗𝟘𝟡', '0909'],
    ['12A', '12A'],
    ['第12巻', '第12巻'],
  ])('reads %s as %s', (text, folded) => {
    expect(foldDigits(text)).toBe(folded);
  });

  it('leaves no decimal digit but 0 to 9', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 30 }), (text) => {
        expect(foldDigits(text)).not.toMatch(/(?![0-9])\p{Nd}/u);
      }),
    );
  });
});
