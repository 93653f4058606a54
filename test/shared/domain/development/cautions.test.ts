import { describe, expect, it } from 'vitest';
import {
  CAUTION_RULE,
  cautionsStillToShow,
  findCautions,
  mixingCautions,
  usualCautions,
} from '../../../../shared/domain/development/cautions.ts';

describe('cautions', () => {
  it('come once each, whichever steps ask for them', () => {
    expect(findCautions(['eyes', 'gloves', 'eyes']).map((caution) => caution.key)).toEqual([
      'gloves',
      'eyes',
    ]);
  });

  it('do not stand in the way twice in a session', () => {
    const still = cautionsStillToShow(['gloves', 'silver_waste'], ['gloves']);
    expect(still.map((caution) => caution.key)).toEqual(['silver_waste']);
  });

  it('give way to the product’s own sheet and to local rules', () => {
    expect(CAUTION_RULE).toMatch(/safety data sheet.*rules where you live.*before this text/);
  });

  it('of a bath that is mixed name acid into water and powders, those of water nothing', () => {
    expect(mixingCautions('stop')).toEqual(
      expect.arrayContaining(['acid_into_water', 'powders', 'stop_bath_fumes']),
    );
    expect(usualCautions('fixer')).toContain('silver_waste');
    expect(usualCautions('water')).toEqual([]);
  });

  it('name a source each', () => {
    const keys = ['gloves', 'hot_water', 'unknown_stabiliser', 'bleach_fix_fumes'] as const;
    for (const caution of findCautions(keys)) expect(caution.source.text.length).toBeGreaterThan(10);
  });
});
