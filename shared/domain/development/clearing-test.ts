import { accept, refuse } from '../checked.ts';
import { published } from './source.ts';
import type { WorkedOrNot } from './working.ts';
import { shownTime } from './working.ts';

/**
 * A fixer is spent when a scrap of the same film takes this many times as long to clear as in fresh fixer.
 * Source: US Navy NAVEDTRA 14209, Life of a fixing bath,
 * https://photographytraining.tpub.com/14209/css/Life-Of-A-Fixing-Bath-249.htm
 */
const SPENT_RATIO = 2;

/** Film is fixed for this many times its clearing time. Source: as `SPENT_RATIO`. */
const FIXING_RATIO = 2;

/** What a clearing test says. */
export type ClearingVerdict = {
  /** Clearing time today over clearing time when fresh. */
  readonly ratio: number;
  readonly spent: boolean;
  /** How long to fix the same film today, s. */
  readonly fixSeconds: number;
};

const RULE = published(
  'US Navy NAVEDTRA 14209: fix twice the clearing time, spent when it has doubled; some ask three times for tabular grain',
);

/** Judges a fixer by the clearing times of one film type, seconds > 0, when fresh and today. */
export function judgeClearing(
  freshSeconds: number,
  todaySeconds: number,
): WorkedOrNot<ClearingVerdict, 'time_not_positive'> {
  const real = [freshSeconds, todaySeconds].every((seconds) => seconds > 0 && Number.isFinite(seconds));
  if (!real) return refuse('time_not_positive');
  const ratio = todaySeconds / freshSeconds;
  const fixSeconds = FIXING_RATIO * todaySeconds;
  return accept({
    value: { ratio, spent: ratio >= SPENT_RATIO, fixSeconds },
    lines: [
      {
        label: `Clearing time against fresh, spent at ${SPENT_RATIO}`,
        formula: `${shownTime(todaySeconds)} / ${shownTime(freshSeconds)}`,
        value: ratio,
        unit: '',
        source: RULE,
      },
      {
        label: 'Fix this film for at least',
        formula: `${FIXING_RATIO} × ${shownTime(todaySeconds)}`,
        value: fixSeconds,
        unit: 's',
        source: RULE,
      },
    ],
  });
}
