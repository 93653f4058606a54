import { describe, expect, it } from 'vitest';
import { offerBathDefaults } from '../../../../shared/domain/development/bath-defaults.ts';
import { isUnverified } from '../../../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../../../shared/domain/film/film-area.ts';

describe('what is offered for a bath', () => {
  it('is 2 % per roll for the developer of a colour kit, marked as from memory', () => {
    const { extension } = offerBathDefaults('developer', 'colour_negative');
    expect(extension).toMatchObject({ kind: 'percent', percentPerRoll: 2, source: { kind: 'from memory' } });
  });

  it('is 20 rolls per litre for rapid fixer', () => {
    // https://www.brodie-tyrrell.org/wiki/index.php?FixerCapacity
    const { capacityCm2PerLitre } = offerBathDefaults('fixer', 'black_and_white');
    expect((capacityCm2PerLitre?.value ?? 0) / ROLL_AREA_CM2).toBeCloseTo(20, 9);
  });

  it('never passes for a maker’s word', () => {
    const offers = [
      offerBathDefaults('developer', 'colour_negative'),
      offerBathDefaults('bleach_fix', 'colour_negative'),
      offerBathDefaults('fixer', 'black_and_white'),
    ];
    const sources = offers
      .flatMap((offer) => [
        offer.capacityCm2PerLitre?.source,
        offer.shelfDays?.source,
        offer.extension?.source,
      ])
      .filter((source) => source !== undefined);
    expect(sources.length).toBeGreaterThan(6);
    expect(sources.every(isUnverified)).toBe(true);
  });

  it.each([
    ['developer', 'black_and_white'],
    ['first_developer', 'colour_reversal'],
    ['stop', 'black_and_white'],
    ['bleach', 'colour_negative'],
  ] as const)('is nothing for %s of %s', (kind, family) => {
    expect(offerBathDefaults(kind, family)).toEqual({
      capacityCm2PerLitre: null,
      shelfDays: null,
      extension: null,
    });
  });
});
