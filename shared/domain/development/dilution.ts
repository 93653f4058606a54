import type { Checked } from '../checked.ts';
import { accept, refuse } from '../checked.ts';
import { ruleOfThumb } from './source.ts';
import type { WorkedOrNot } from './working.ts';
import { shown } from './working.ts';

/**
 * Parts of a mixture: one concentrate or several, and water. `1+9` is one part and nine of water, `1+1+8` two
 * concentrates of one part each and eight of water; `1+0` is full strength.
 */
export type Dilution = { readonly concentrates: readonly number[]; readonly water: number };

/** What to measure out, ml: each concentrate in the order of the parts, and water. */
export type DilutionVolumes = { readonly concentratesMl: readonly number[]; readonly waterMl: number };

/** Why a dilution or its volumes are refused. */
export type DilutionRefusal = 'dilution_not_readable' | 'parts_not_positive' | 'volume_not_positive';

/**
 * Reads `1+9`, `1 + 9`, `1:9`, `1+1+8` or `stock`. A maker's `1:9` for a developer is read as `1+9` (common
 * practice, no source); keep the parts, not the text.
 */
export function parseDilution(text: string): Checked<Dilution, DilutionRefusal> {
  const tidy = text.trim().toLowerCase();
  if (tidy === 'stock') return accept({ concentrates: [1], water: 0 });
  if (!/^\d+(?:[.,]\d+)?(?:\s*[+:]\s*\d+(?:[.,]\d+)?)+$/.test(tidy)) return refuse('dilution_not_readable');
  const parts = tidy.split(/[+:]/).map((part) => Number(part.trim().replace(',', '.')));
  const water = parts.at(-1) ?? 0;
  const concentrates = parts.slice(0, -1);
  return concentrates.every((part) => part > 0)
    ? accept({ concentrates, water })
    : refuse('parts_not_positive');
}

/** A dilution as text: `1+9`, `1+1+8`. */
export function formatDilution(dilution: Dilution): string {
  return [...dilution.concentrates, dilution.water].map((part) => shown(part)).join('+');
}

/** Volumes in ml that give `volumeMl` (> 0) of a dilution; they add up to it. */
export function dilute(dilution: Dilution, volumeMl: number): WorkedOrNot<DilutionVolumes, DilutionRefusal> {
  const { concentrates, water } = dilution;
  if (!(volumeMl > 0 && Number.isFinite(volumeMl))) return refuse('volume_not_positive');
  if (concentrates.length === 0 || !concentrates.every((part) => part > 0) || !(water >= 0)) {
    return refuse('parts_not_positive');
  }
  const all = concentrates.reduce((sum, part) => sum + part, water);
  if (!Number.isFinite(all)) return refuse('parts_not_positive');
  const source = ruleOfThumb('1+n means one part and n parts more, common notation');
  const share = (part: number) => (volumeMl * part) / all;
  const line = (label: string, part: number) =>
    ({
      label,
      formula: `${shown(volumeMl)} ml × ${shown(part)} / ${shown(all)}`,
      value: share(part),
      unit: 'ml',
      source,
    }) as const;
  return accept({
    value: { concentratesMl: concentrates.map(share), waterMl: share(water) },
    lines: [
      ...concentrates.map((part, i) =>
        line(concentrates.length === 1 ? 'Concentrate' : `Concentrate ${i + 1}`, part),
      ),
      line('Water', water),
    ],
  });
}
