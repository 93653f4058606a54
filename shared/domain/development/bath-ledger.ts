import { ROLL_AREA_CM2 } from '../film/film-area.ts';
import { accept, refuse } from '../checked.ts';
import { arithmetic } from './source.ts';
import type { WorkedOrNot, WorkingLine } from './working.ts';
import { shown } from './working.ts';

/** What a bath can do and what became of it. Days are calendar dates `YYYY-MM-DD`, instants ISO 8601. */
export type Bath = {
  /** First and last day it can have been mixed on; null when nobody knows. */
  readonly mixedFirstDay: string | null;
  readonly mixedLastDay: string | null;
  readonly capacityCm2: number | null;
  readonly shelfDays: number | null;
  /** Film it had done before the ledger was begun, cm². */
  readonly usedBeforeCm2: number;
  readonly state: 'in use' | 'discarded' | 'spoilt';
  /** Since when it is discarded or spoilt. */
  readonly endedAt: string | null;
};

/** Film that went through: its area in cm², how fast it uses the bath up (1 is ordinary film), and when. */
export type BathUse = {
  readonly areaCm2: number;
  readonly filmFactor: number;
  readonly usedAt: string;
};

/** What a bath has done and what is left, in cm² and in rolls of 80 sq in; null left when no capacity is known. */
export type BathReckoning = {
  readonly areaDoneCm2: number;
  readonly areaLeftCm2: number | null;
  readonly rollsDone: number;
  readonly rollsLeft: number | null;
};

/** Why a bath cannot be reckoned up. */
export type BathRefusal = 'area_not_real' | 'film_factor_not_positive' | 'capacity_not_positive';

/**
 * A sum that does not depend on the order of its terms: ordered by size before adding, so that the same film in
 * another order gives the same last digit.
 */
function sumInAnyOrder(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b).reduce((sum, value) => sum + value, 0);
}

/** Adds up the ledger of a bath. What is left is never below nought. */
export function reckonBath(
  bath: Pick<Bath, 'capacityCm2' | 'usedBeforeCm2'>,
  uses: readonly BathUse[],
): WorkedOrNot<BathReckoning, BathRefusal> {
  const { capacityCm2, usedBeforeCm2 } = bath;
  const areas = [usedBeforeCm2, ...uses.map((use) => use.areaCm2)];
  if (!areas.every((area) => area >= 0 && Number.isFinite(area))) return refuse('area_not_real');
  if (!uses.every((use) => use.filmFactor > 0 && Number.isFinite(use.filmFactor))) {
    return refuse('film_factor_not_positive');
  }
  if (capacityCm2 !== null && !(capacityCm2 > 0 && Number.isFinite(capacityCm2))) {
    return refuse('capacity_not_positive');
  }
  const areaDoneCm2 = sumInAnyOrder([usedBeforeCm2, ...uses.map((use) => use.areaCm2 * use.filmFactor)]);
  const areaLeftCm2 = capacityCm2 === null ? null : Math.max(0, capacityCm2 - areaDoneCm2);
  const rollsDone = areaDoneCm2 / ROLL_AREA_CM2;
  const rollsLeft = areaLeftCm2 === null ? null : areaLeftCm2 / ROLL_AREA_CM2;
  const unit = arithmetic('Rolls of 80 sq in, 516.13 cm²');
  const lines: WorkingLine[] = [
    {
      label: 'Film done',
      formula: `${uses.length} ${uses.length === 1 ? 'use' : 'uses'}, area × film factor${usedBeforeCm2 > 0 ? `, and ${shown(usedBeforeCm2)} cm² before` : ''}`,
      value: areaDoneCm2,
      unit: 'cm²',
      source: arithmetic('Sum of the ledger'),
    },
    {
      label: 'In rolls',
      formula: `${shown(areaDoneCm2)} / ${shown(ROLL_AREA_CM2)}`,
      value: rollsDone,
      unit: 'rolls',
      source: unit,
    },
  ];
  if (capacityCm2 !== null && rollsLeft !== null) {
    lines.push({
      label: 'Rolls left',
      formula: `(${shown(capacityCm2)} − ${shown(areaDoneCm2)}) / ${shown(ROLL_AREA_CM2)}, not below 0`,
      value: rollsLeft,
      unit: 'rolls',
      source: unit,
    });
  }
  return accept({ value: { areaDoneCm2, areaLeftCm2, rollsDone, rollsLeft }, lines });
}

/** Whether a bath may be chosen for a development. */
export function canUseBath(bath: Pick<Bath, 'state'>): boolean {
  return bath.state === 'in use';
}

/** The uses of a bath at or after the moment it was spoilt or discarded: what they developed is to be doubted. */
export function findUsesAfterEnd<Use extends Pick<BathUse, 'usedAt'>>(
  bath: Pick<Bath, 'endedAt'>,
  uses: readonly Use[],
): readonly Use[] {
  const { endedAt } = bath;
  if (endedAt === null) return [];
  const end = Date.parse(endedAt);
  return uses.filter((use) => Date.parse(use.usedAt) >= end);
}
