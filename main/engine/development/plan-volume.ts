import type { BathEntry, TankEntry } from '../../../shared/api/methods/bath-methods.ts';
import { parseDilution } from '../../../shared/domain/development/dilution.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { volumeForArea, volumeForReels } from '../../../shared/domain/development/tank-volume.ts';
import type { WorkingLine } from '../../../shared/domain/development/working.ts';
import type { LoadedRoll } from './load.ts';

/** How much of each bath a load needs, ml, with its sum; null where the tank does not say. */
export function findVolume(
  rolls: readonly LoadedRoll[],
  tank: TankEntry | null,
  areaCm2: number,
  developer: BathEntry | null,
  minimumMlPerRoll: number | null,
): { readonly ml: number | null; readonly lines: readonly WorkingLine[] } {
  const reels120 = rolls.filter((roll) => roll.reel === '120').length;
  const cover = tank === null ? null : volumeForReels(tank, { reels120, reels135: rolls.length - reels120 });
  const strength = parseDilution(developer?.dilution ?? 'stock');
  const enough =
    minimumMlPerRoll === null || !strength.ok
      ? null
      : volumeForArea(areaCm2, strength.value, {
          mlPerRoll: minimumMlPerRoll,
          source: yours('As the developer’s maker says'),
        });
  const found = [cover, enough].flatMap((answer) => (answer?.ok === true ? [answer.value] : []));
  return {
    ml: found.length === 0 ? null : Math.max(...found.map((worked) => worked.value)),
    lines: found.flatMap((worked) => worked.lines),
  };
}
