import type { PlanStep } from '../../../shared/api/methods/development-methods.ts';
import type { RunState } from '../../../shared/domain/development/run-sheet.ts';
import { describeAgitation } from '../../../shared/text/describe-process.ts';
import { formatDuration } from '../../../shared/units/duration.ts';

/** How warm a step is to be, in words. */
export function warmthWords({ temperature }: PlanStep): string {
  const { aimC = null, lowC = null, highC = null } = temperature ?? {};
  if (aimC !== null) return `${aimC.toFixed(1)} °C`;
  return lowC === null || highC === null ? 'as the room' : `${lowC.toFixed(0)} to ${highC.toFixed(0)} °C`;
}

/** The steps of the run, as wide as they are long. */
export function RunSteps({
  steps,
  state,
}: {
  readonly steps: readonly PlanStep[];
  readonly state: RunState;
}) {
  const present = state.running?.record.step ?? null;
  const done = new Set(
    state.record.steps.filter((record) => record.endedMs !== null).map((record) => record.step),
  );
  return (
    <ol className="run-steps" aria-label="Steps">
      {steps.map((step, at) => {
        const isNext = at === state.nextStep;
        const word = at === present ? 'now' : done.has(at) ? 'done' : isNext ? 'next' : warmthWords(step);
        const look = at === present ? 'run-step-now' : isNext ? 'run-step-next' : '';
        return (
          <li
            key={step.key}
            className={`run-step ${look}`}
            aria-current={at === present ? 'step' : undefined}
            style={{ flexGrow: Math.max(step.seconds, 100) }}
          >
            <span className="run-step-name">{step.name}</span>
            <span className="run-step-time">{formatDuration(step.seconds)}</span>
            <span className="run-step-word">
              {word}
              {isNext ? `, ${warmthWords(step)}` : ''}
            </span>
            {isNext ? (
              <span className="run-step-more">{describeAgitation(step.agitation, step.bath)}</span>
            ) : null}
          </li>
        );
      })}
    </ol>
  );
}
