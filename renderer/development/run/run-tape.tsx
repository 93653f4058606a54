import type { PlanStep } from '../../../shared/api/methods/development-methods.ts';
import { agitationSpans, pourOutAt } from '../../../shared/domain/development/agitation.ts';
import { formatDuration } from '../../../shared/units/duration.ts';

/** Steps of the time axis, seconds. */
const TICKS = [30, 60, 120, 300, 600, 1800];

/** The step as a tape: what is past, when the tank is moved, where it is poured out. */
export function RunTape({
  step,
  lengthSeconds,
  elapsedSeconds,
}: {
  readonly step: PlanStep;
  readonly lengthSeconds: number;
  readonly elapsedSeconds: number;
}) {
  const length = Math.max(lengthSeconds, 1);
  const share = (seconds: number) => `${(Math.min(Math.max(seconds / length, 0), 1) * 100).toFixed(3)}%`;
  const tick = TICKS.find((size) => length / size <= 9) ?? 3600;
  const ticks = Array.from({ length: Math.ceil(length / tick) }, (_tick, at) => at * tick).filter(
    (at) => at === 0 || at < length * 0.94,
  );
  const now = Math.floor(elapsedSeconds);
  return (
    <div className="run-tape" aria-hidden="true">
      <div className="run-tape-film">
        <div className="run-tape-past" style={{ width: share(now) }} />
        {agitationSpans(step.agitation, length).map((span) => (
          <div
            key={span.fromSeconds}
            className={span.fromSeconds <= now ? 'run-tape-turn run-tape-turned' : 'run-tape-turn'}
            style={{ left: share(span.fromSeconds), width: share(span.toSeconds - span.fromSeconds) }}
          />
        ))}
        <div className="run-tape-pour" style={{ left: share(pourOutAt(length)) }} />
        <div className="run-tape-now" style={{ left: share(now) }} />
      </div>
      <div className="run-tape-times">
        {ticks.map((at) => (
          <span key={at} style={{ left: share(at) }}>
            {formatDuration(at)}
          </span>
        ))}
        <span className="run-tape-end">{formatDuration(length)}</span>
      </div>
    </div>
  );
}
