import type { BathEntry } from '../../../shared/api/methods/bath-methods.ts';
import type { DevelopmentPlan as PlanValue } from '../../../shared/api/methods/development-methods.ts';
import type { ProcessKind } from '../../../shared/api/values.ts';
import type { PlanAnswer } from '../../../shared/domain/development/plan-development.ts';
import { compareShift } from '../../../shared/domain/development/push-pull.ts';
import { checkReady } from '../../../shared/domain/development/ready-check.ts';
import { arithmetic } from '../../../shared/domain/development/source.ts';
import { describePlanWarning, describeReady } from '../../../shared/text/describe-development.ts';
import { PROCESS_NAMES } from '../../../shared/text/format.ts';
import type { Archive } from '../archive/archive.ts';
import { weigh } from './baths.ts';
import type { LoadedRoll } from './load.ts';
import { localDay } from './local-day.ts';

type Warning = PlanValue['warnings'][number];

interface Circumstances {
  readonly archive: Archive;
  readonly rolls: readonly LoadedRoll[];
  readonly plan: Extract<PlanAnswer, { ok: true }>['plan'];
  readonly kind: ProcessKind;
  readonly stops: number;
  readonly baths: readonly BathEntry[];
  readonly load: { readonly areaCm2: number; readonly weightedAreaCm2: number };
  readonly volumeMl: number | null;
}

/** What to know of a plan before the first pour. Nothing here stops it. */
export function warnAboutPlan(of: Circumstances): Warning[] {
  return [...ofSteps(of), ...ofRolls(of), ...ofBaths(of)];
}

function ofSteps({ plan }: Circumstances): Warning[] {
  return plan.warnings.map((warning) => {
    const step = plan.steps.find((candidate) => candidate.key === warning.stepKey);
    const text = describePlanWarning(warning, step?.name ?? warning.stepKey);
    return { code: warning.code, text, source: warning.source };
  });
}

function ofRolls({ rolls, kind, stops }: Circumstances): Warning[] {
  return rolls.flatMap((roll): Warning[] => {
    const warnings: Warning[] = [];
    if (roll.process !== null && roll.process !== kind) {
      const text = `Roll ${roll.number} is film for ${PROCESS_NAMES[roll.process]}, not for ${PROCESS_NAMES[kind]}.`;
      warnings.push({ code: 'cross_process', text, source: null });
    }
    if (roll.pushStops !== null && roll.pushStops !== stops) {
      const text = `Roll ${roll.number} was meant for ${signed(roll.pushStops)}, the plan is for ${signed(stops)}.`;
      warnings.push({ code: 'shift_not_as_noted', text, source: null });
    }
    if (roll.iso !== null && roll.exposureIndex !== null) {
      const { value } = compareShift(roll.iso, roll.exposureIndex, stops);
      if (value.verdict !== 'together') {
        const text = `Roll ${roll.number} was exposed at ${roll.exposureIndex} on film of ${roll.iso}, ${signed(value.exposedStops)}; it is developed for ${signed(stops)}.`;
        const source = arithmetic('One stop is a factor of two in speed');
        warnings.push({ code: value.verdict, text, source });
      }
    }
    return warnings;
  });
}

function signed(stops: number): string {
  const size = Math.round(Math.abs(stops) * 10) / 10;
  if (size === 0) return 'no shift';
  return `${stops < 0 ? '−' : '+'}${size} ${size === 1 ? 'stop' : 'stops'}`;
}

function ofBaths({ archive, baths, load, volumeMl }: Circumstances): Warning[] {
  const today = localDay(archive.now());
  return baths.flatMap((bath): Warning[] => {
    const known = {
      mixedFirstDay: bath.mixed?.earliest ?? null,
      mixedLastDay: bath.mixed?.latest ?? null,
      capacityCm2: bath.capacityCm2,
      shelfDays: bath.shelfDays,
      usedBeforeCm2: bath.usedBeforeCm2,
      state: bath.condition,
      endedAt: bath.endedAt,
    };
    const questions = checkReady(
      { temperature: null, developerC: null },
      [{ name: bath.name, bath: known, reckoning: bath, isSpent: bath.spent }],
      weigh(bath.kind, load),
      today,
    );
    const warnings: Warning[] = questions.map((question) => ({
      code: question.code,
      text: describeReady(question),
      source: null,
    }));
    if (bath.oneShot && bath.areaDoneCm2 > 0) {
      const text = `“${bath.name}” is for one use and has been used.`;
      warnings.push({ code: 'one_shot_used', text, source: null });
    }
    if (volumeMl !== null && bath.volumeMl !== null && bath.volumeMl < volumeMl) {
      const text = `“${bath.name}” has ${bath.volumeMl} ml; ${volumeMl} ml are needed.`;
      warnings.push({ code: 'bath_too_small', text, source: null });
    }
    return warnings;
  });
}
