import type { DevelopmentPlan } from '../../../shared/api/methods/development-methods.ts';
import { effectiveDevelopment } from '../../../shared/domain/development/effective-development.ts';
import type { RunState } from '../../../shared/domain/development/run-sheet.ts';
import { findTimeCurve } from '../../../shared/domain/development/time-curve.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { BigButton } from './big-button.tsx';

/** Smaller differences are not worth a press, seconds. Our choice. */
const WORTH_SECONDS = 2;

/** What the temperatures read so far amount to, and the length that would develop as much as was planned. */
export function LongerNotice({
  plan,
  state,
  onLonger,
}: {
  readonly plan: DevelopmentPlan;
  readonly state: RunState;
  readonly onLonger: (seconds: number) => void;
}) {
  const { running } = state;
  const at = running?.record.step;
  const step = at === undefined ? undefined : plan.steps[at];
  const source = plan.process.steps.find((candidate) => candidate.key === step?.key);
  const aimC = step?.temperature?.aimC ?? null;
  const curve = source && step?.key === plan.developerKey ? findTimeCurve(source, plan.process.family) : null;
  if (!running || !step || curve === null || aimC === null || running.record.readings.length === 0) {
    return <p className="run-sum">{step ? 'The plan stays as it is unless you change it.' : ''}</p>;
  }
  const worked = effectiveDevelopment(
    curve,
    running.record.readings,
    running.elapsedSeconds,
    step.seconds,
    aimC,
  );
  if (!worked.ok) {
    return <p className="run-sum">The measured temperatures lie outside the times that are known.</p>;
  }
  const { meanC, secondsNeeded } = worked.value.value;
  const change = Math.round(secondsNeeded - running.lengthSeconds);
  const needed = formatDuration(secondsNeeded);
  return (
    <div className="run-row run-sum">
      <p>
        At a mean of <strong>{meanC.toFixed(1)}</strong> the same development takes <strong>{needed}</strong>.
        The plan stays at <strong>{formatDuration(running.lengthSeconds)}</strong> unless you change it.
      </p>
      {Math.abs(change) < WORTH_SECONDS ||
      running.leftSeconds <= 0 ||
      secondsNeeded <= running.elapsedSeconds ? null : (
        <BigButton onPress={() => onLonger(change)}>Run to {needed}</BigButton>
      )}
    </div>
  );
}
