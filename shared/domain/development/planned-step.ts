import type { Step } from './process.ts';
import type { WorkingLine } from './working.ts';

/** A step as it stands on the run sheet: its time is known, the sum behind it is kept. */
export type PlannedStep = Pick<
  Step,
  'key' | 'name' | 'bath' | 'timing' | 'temperature' | 'agitation' | 'cautions' | 'note'
> & {
  readonly seconds: number;
  readonly lines: readonly WorkingLine[];
};
