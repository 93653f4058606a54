import { ROLL_AREA_CM2 } from '../film/film-area.ts';
import type { ExtensionRule } from './extension.ts';
import type { BathKind, Process } from './process.ts';
import type { Source } from './source.ts';
import { fromMemory, reported } from './source.ts';

/** A number offered when a bath is mixed, for the user to replace by his maker's. */
type Offered<Value> = { readonly value: Value; readonly source: Source };

/** What is offered for a bath; null where nothing is known. */
export type BathDefaults = {
  /** Film per litre of working solution, cm². */
  readonly capacityCm2PerLitre: Offered<number> | null;
  readonly shelfDays: Offered<number> | null;
  readonly extension: ExtensionRule | null;
};

const KIT_CAPACITY = fromMemory('8 rolls per litre, the nominal capacity of powder kits');

const NOTHING: BathDefaults = { capacityCm2PerLitre: null, shelfDays: null, extension: null };

/** Capacity, shelf life and rule for added time that are offered for a bath of a family of processes. */
export function offerBathDefaults(kind: BathKind, family: Process['family']): BathDefaults {
  if (kind === 'fixer' && family === 'black_and_white') {
    return {
      capacityCm2PerLitre: {
        value: 20 * ROLL_AREA_CM2,
        source: reported(
          'Rapid fixer 1+4, about 20 rolls per litre, half to 70 % of that for tabular grain, https://www.brodie-tyrrell.org/wiki/index.php?FixerCapacity',
        ),
      },
      shelfDays: {
        value: 60,
        source: reported(
          'The Darkroom Cookbook, 3rd edition, p. 108: working solution not beyond 2 months, https://www.yumpu.com/en/document/view/3454743/the-darkroom-cookbook-third-edition/141',
        ),
      },
      extension: null,
    };
  }
  if (family !== 'colour_negative') return NOTHING;
  if (kind === 'developer') {
    return {
      capacityCm2PerLitre: { value: 8 * ROLL_AREA_CM2, source: KIT_CAPACITY },
      shelfDays: { value: 28, source: fromMemory('4 to 6 weeks in a full stoppered bottle') },
      extension: { kind: 'percent', percentPerRoll: 2, source: fromMemory('About 2 % per roll in a litre') },
    };
  }
  if (kind === 'bleach_fix') {
    return {
      capacityCm2PerLitre: { value: 8 * ROLL_AREA_CM2, source: KIT_CAPACITY },
      shelfDays: { value: 56, source: fromMemory('8 to 24 weeks') },
      extension: null,
    };
  }
  return NOTHING;
}
