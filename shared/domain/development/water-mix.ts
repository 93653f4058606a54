import { accept, refuse } from '../checked.ts';
import { arithmetic } from './source.ts';
import type { WorkedOrNot } from './working.ts';
import { shown } from './working.ts';

/** How much of each water, ml. */
export type WaterMix = { readonly hotMl: number; readonly coldMl: number };

/** Why two waters cannot be mixed to a temperature. */
export type WaterRefusal =
  | 'volume_not_positive'
  | 'temperature_not_real'
  | 'hot_not_warmer'
  | 'target_above_hot'
  | 'target_below_cold';

/** Liquid water at sea level, °C. */
function isLiquid(celsius: number): boolean {
  return Number.isFinite(celsius) && celsius >= 0 && celsius <= 100;
}

/**
 * Hot and cold water, in ml, for `volumeMl` (> 0) at `targetC`. Balance of heat, with the same density and heat
 * for both and nothing lost to the vessel; between 0 and 100 °C water's own differ by 4 % and 1 %.
 */
export function mixWater(
  hotC: number,
  coldC: number,
  targetC: number,
  volumeMl: number,
): WorkedOrNot<WaterMix, WaterRefusal> {
  if (!(volumeMl > 0 && Number.isFinite(volumeMl))) return refuse('volume_not_positive');
  if (![hotC, coldC, targetC].every(isLiquid)) return refuse('temperature_not_real');
  if (hotC <= coldC) return refuse('hot_not_warmer');
  if (targetC > hotC) return refuse('target_above_hot');
  if (targetC < coldC) return refuse('target_below_cold');
  const hotMl = (volumeMl * (targetC - coldC)) / (hotC - coldC);
  const coldMl = volumeMl - hotMl;
  const source = arithmetic('Balance of heat: hot × (hot − target) = cold × (target − cold)');
  return accept({
    value: { hotMl, coldMl },
    lines: [
      {
        label: `Water at ${shown(hotC)} °C`,
        formula: `${shown(volumeMl)} ml × (${shown(targetC)} − ${shown(coldC)}) / (${shown(hotC)} − ${shown(coldC)})`,
        value: hotMl,
        unit: 'ml',
        source,
      },
      {
        label: `Water at ${shown(coldC)} °C`,
        formula: `${shown(volumeMl)} ml − ${shown(hotMl)} ml`,
        value: coldMl,
        unit: 'ml',
        source,
      },
    ],
  });
}
