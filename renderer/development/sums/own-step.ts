import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import { findDeveloperStep, type Process, type Step } from '../../../shared/domain/development/process.ts';
import { parsePushTable, parseTimePoints } from '../../../shared/domain/development/rule-text.ts';
import { yours } from '../../../shared/domain/development/source.ts';

/** Times of the user's own instead of those of a process. */
export const OWN = 'own';

/** A step and the family it is reckoned by. */
export interface StepToTime {
  readonly step: Step;
  readonly family: Process['family'];
}

const TYPED = yours('Typed into this sum');

/** A developer of rows that were typed, the first being its own time; null when they cannot be read. */
export function ownStep(rows: string, push: string, family: Process['family']): StepToTime | null {
  const points = parseTimePoints(rows, TYPED);
  const table = parsePushTable(push, TYPED);
  const [own, ...further] = points.ok ? points.value : [];
  if (own === undefined || !table.ok) return null;
  return {
    family,
    step: {
      key: 'developer',
      name: 'Developer',
      bath: 'developer',
      time: { seconds: own.seconds, source: TYPED },
      timing: 'exact',
      temperature: { aimC: own.celsius, lowC: null, highC: null, source: TYPED },
      agitation: null,
      timePoints: further,
      push: table.value,
      cautions: [],
      note: null,
    },
  };
}

/** The developer of a process that has a time; null where the time is left to the user. */
export function developerOf({ process }: ProcessEntry): StepToTime | null {
  const step = findDeveloperStep(process);
  return step === null || step.time.seconds === null ? null : { step, family: process.family };
}
