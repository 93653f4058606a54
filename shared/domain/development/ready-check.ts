import type { Bath, BathReckoning } from './bath-ledger.ts';
import { canUseBath } from './bath-ledger.ts';
import { findDaysPastShelf } from './bath-age.ts';
import { judgeTemperatures } from './planned-and-actual.ts';
import type { StepTemperature } from './process.ts';

/** One thing to settle before the first pour; `stops` says that the bath must not be used. */
export type ReadyQuestion =
  | { readonly code: 'developer_not_measured'; readonly stops: false }
  | { readonly code: 'developer_off_temperature'; readonly stops: false; readonly celsius: number }
  | { readonly code: 'bath_discarded' | 'bath_spoilt'; readonly stops: true; readonly bath: string }
  | { readonly code: 'fixer_spent'; readonly stops: false; readonly bath: string }
  | {
      readonly code: 'bath_past_shelf_life';
      readonly stops: false;
      readonly bath: string;
      readonly days: number;
    }
  | {
      readonly code: 'bath_over_capacity';
      readonly stops: false;
      readonly bath: string;
      /** What this load asks beyond what is left, cm². */
      readonly overCm2: number;
    };

/** A bath on its way into the tank: its name, itself, what it has left, whether a clearing test found it spent. */
export type BathInUse = {
  readonly name: string;
  readonly bath: Bath;
  readonly reckoning: BathReckoning;
  readonly isSpent?: boolean;
};

/**
 * What stands against the first pour, most serious first; empty when ready. `loadCm2`: the film of this run, area ×
 * film factor. `today`: `YYYY-MM-DD`. `developerC`: as measured now, null when it was not.
 */
export function checkReady(
  developer: { readonly temperature: StepTemperature | null; readonly developerC: number | null },
  baths: readonly BathInUse[],
  loadCm2: number,
  today: string,
): readonly ReadyQuestion[] {
  const ended = baths
    .filter(({ bath }) => !canUseBath(bath))
    .map(({ bath, name }) => ({
      code: bath.state === 'spoilt' ? ('bath_spoilt' as const) : ('bath_discarded' as const),
      stops: true as const,
      bath: name,
    }));
  const questions: ReadyQuestion[] = [...ended];
  const { temperature, developerC } = developer;
  const verdict = judgeTemperatures(developerC === null ? [] : [developerC], temperature);
  if (verdict === 'not_measured') questions.push({ code: 'developer_not_measured', stops: false });
  if (developerC !== null && (verdict === 'below' || verdict === 'above')) {
    questions.push({ code: 'developer_off_temperature', stops: false, celsius: developerC });
  }
  for (const { bath, name, reckoning, isSpent = false } of baths) {
    if (isSpent) questions.push({ code: 'fixer_spent', stops: false, bath: name });
    const days = findDaysPastShelf(bath, today) ?? 0;
    if (days > 0) questions.push({ code: 'bath_past_shelf_life', stops: false, bath: name, days });
    const overCm2 = reckoning.areaLeftCm2 === null ? 0 : loadCm2 - reckoning.areaLeftCm2;
    if (overCm2 > 1e-6) questions.push({ code: 'bath_over_capacity', stops: false, bath: name, overCm2 });
  }
  return questions;
}
