import { z } from 'zod';
import { developmentPlan } from '../../../shared/api/methods/development-methods.ts';
import type { ProcessKind } from '../../../shared/api/values.ts';
import { effectiveDevelopment } from '../../../shared/domain/development/effective-development.ts';
import { meantTemperature } from '../../../shared/domain/development/meant-temperature.ts';
import { findDeveloperStep, type Process } from '../../../shared/domain/development/process.ts';
import { C41_TWO_BATH } from '../../../shared/domain/development/processes/c41-two-bath.ts';
import type { TimeCurve } from '../../../shared/domain/development/time-at-temperature.ts';
import { findTimeCurve } from '../../../shared/domain/development/time-curve.ts';
import { ruleOfThumb } from '../../../shared/domain/development/source.ts';

const planOf = z.object({ process: developmentPlan.shape.process });

/** What the log knows of the developer of a development. Seconds and °C. */
interface DeveloperLog {
  readonly kind: ProcessKind | null;
  /** The plan as it was kept, JSON; null for a development that was only noted. */
  readonly plan: string | null;
  readonly seconds: number | null;
  readonly measuredC: number | null;
  readonly plannedC: number | null;
}

/**
 * The developer time as much as it was worth at the temperature meant, in seconds, by the time table of its process;
 * a development that was only noted goes by the shipped table of C-41, or the estimate for black-and-white. Null where
 * the log does not say enough, or the table does not reach.
 */
export function effectiveSeconds(log: DeveloperLog): number | null {
  const { seconds, measuredC } = log;
  const meantC = meantTemperature(log.plannedC, log.kind);
  if (seconds === null || measuredC === null || meantC === null) return null;
  const curve = curveOf(log, { celsius: meantC, seconds });
  if (curve === null) return null;
  const worked = effectiveDevelopment(
    curve,
    [{ atSeconds: 0, celsius: measuredC }],
    seconds,
    seconds,
    meantC,
  );
  return worked.ok ? worked.value.value.equivalentSeconds : null;
}

function curveOf(
  log: DeveloperLog,
  meant: { readonly celsius: number; readonly seconds: number },
): TimeCurve | null {
  const planned = log.plan === null ? null : planOf.safeParse(JSON.parse(log.plan));
  const process: Process | null = planned?.success === true ? planned.data.process : null;
  const step = process === null ? null : findDeveloperStep(process);
  const own = process === null || step === null ? null : findTimeCurve(step, process.family);
  // A single row holds only within its tolerance; to weigh an error, the shipped table says more.
  if (own !== null && own.kind !== 'fixed') return own;
  if (log.kind === 'c41') {
    const developer = findDeveloperStep(C41_TWO_BATH);
    return developer === null ? null : findTimeCurve(developer, C41_TWO_BATH.family);
  }
  const source = ruleOfThumb('The time that was given');
  return log.kind === 'bw' ? { kind: 'estimate', point: { ...meant, source } } : null;
}
