import { ROLL_AREA_CM2 } from '../film/film-area.ts';
import { accept, refuse } from '../checked.ts';
import type { Dilution } from './dilution.ts';
import { formatDilution } from './dilution.ts';
import type { Source } from './source.ts';
import { arithmetic } from './source.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shown } from './working.ts';

/** What a tank takes; null where its owner has not said. Volumes in ml. */
export type Tank = {
  readonly reels: number | null;
  readonly mlPer135: number | null;
  readonly mlPer120: number | null;
  readonly volumeMl: number | null;
};

/** How many reels of each film go in. */
export type ReelCount = { readonly reels135: number; readonly reels120: number };

/** At least so much undiluted developer, ml, for every 80 sq in of film, and who says so. */
export type MinimumDeveloper = { readonly mlPerRoll: number; readonly source: Source };

/** Why there is no volume. */
export type VolumeRefusal =
  'no_reels' | 'volume_per_reel_missing' | 'volume_not_positive' | 'volume_over_tank' | 'area_not_positive';

const ON_THE_TANK = arithmetic('Volumes as entered for this tank; most are moulded on its foot');

/** The volume that covers the reels of a load, ml. */
export function volumeForReels(
  tank: Tank,
  { reels135, reels120 }: ReelCount,
): WorkedOrNot<number, VolumeRefusal> {
  if (!(reels135 + reels120 > 0)) return refuse('no_reels');
  if ((reels135 > 0 && tank.mlPer135 === null) || (reels120 > 0 && tank.mlPer120 === null)) {
    return refuse('volume_per_reel_missing');
  }
  const parts = [
    { count: reels135, ml: tank.mlPer135 ?? 0, name: '135' },
    { count: reels120, ml: tank.mlPer120 ?? 0, name: '120' },
  ].filter((part) => part.count > 0);
  if (!parts.every((part) => part.ml > 0 && Number.isFinite(part.ml))) return refuse('volume_not_positive');
  const value = parts.reduce((sum, part) => sum + part.count * part.ml, 0);
  if (tank.volumeMl !== null && value > tank.volumeMl) return refuse('volume_over_tank');
  const line: WorkingLine = {
    label: 'To cover the reels',
    formula: parts.map((part) => `${part.count} × ${shown(part.ml)} ml (${part.name})`).join(' + '),
    value,
    unit: 'ml',
    source: ON_THE_TANK,
  };
  return accept({ value, lines: [line] });
}

/**
 * The volume of working solution, ml, that holds enough developer for `areaCm2` (> 0) at a dilution; compare it
 * with what covers the reels and take the larger.
 */
export function volumeForArea(
  areaCm2: number,
  dilution: Dilution,
  minimum: MinimumDeveloper,
): WorkedOrNot<number, VolumeRefusal> {
  if (!(areaCm2 > 0 && Number.isFinite(areaCm2))) return refuse('area_not_positive');
  const strong = dilution.concentrates.reduce((sum, part) => sum + part, 0);
  if (!(strong > 0 && minimum.mlPerRoll > 0)) return refuse('volume_not_positive');
  const rolls = areaCm2 / ROLL_AREA_CM2;
  const developerMl = rolls * minimum.mlPerRoll;
  const value = (developerMl * (strong + dilution.water)) / strong;
  return accept({
    value,
    lines: [
      {
        label: 'Film in units of 80 sq in',
        formula: `${shown(areaCm2)} cm² / ${shown(ROLL_AREA_CM2)} cm²`,
        value: rolls,
        unit: 'rolls',
        source: arithmetic('80 × 2.54² = 516.13 cm²'),
      },
      {
        label: 'Undiluted developer at least',
        formula: `${shown(rolls)} × ${shown(minimum.mlPerRoll)} ml`,
        value: developerMl,
        unit: 'ml',
        source: minimum.source,
      },
      {
        label: `Working solution ${formatDilution(dilution)} at least`,
        formula: `${shown(developerMl)} ml × ${shown(strong + dilution.water)} / ${shown(strong)}`,
        value,
        unit: 'ml',
        source: arithmetic('Parts of the dilution'),
      },
    ],
  });
}
