import type { DevelopmentPlan } from '../../../shared/api/methods/development-methods.ts';
import type { RunState } from '../../../shared/domain/development/run-sheet.ts';
import { describeTankCue, sumInOneLine } from '../../../shared/text/describe-run.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { BigButton } from './big-button.tsx';
import { TankDrawing } from './tank-drawing.tsx';

export interface RunClockProps {
  readonly plan: DevelopmentPlan;
  readonly state: RunState;
  /** The step is being poured out, or its time is up. */
  readonly isEnding: boolean;
  readonly onPourIn: (step: number) => void;
  readonly onFinish: () => void;
  readonly onAdd: (seconds: number) => void;
}

/** Added by one press, seconds. Our choice: as long as a hand needs to look twice. */
const ADDED_SECONDS = 15;

/** The time of the step under way in digits to be read across a room, and what to do with the tank. */
export function RunClock({ plan, state, isEnding, onPourIn, onFinish, onAdd }: RunClockProps) {
  const { running, nextStep } = state;
  const next = nextStep === null ? null : (plan.steps[nextStep] ?? null);
  const goOn =
    nextStep === null || next === null ? (
      <BigButton main keys="Space" onPress={onFinish}>
        Poured out: the run is done
      </BigButton>
    ) : (
      <BigButton main keys="Space" onPress={() => onPourIn(nextStep)}>
        Pour in: {next.name}
      </BigButton>
    );
  if (running === null) {
    return (
      <section className="run-clock" aria-label="Clock">
        <h1>Between two baths</h1>
        {goOn}
      </section>
    );
  }
  const step = plan.steps[running.record.step];
  const { cue, elapsedSeconds, leftSeconds, overSeconds, lengthSeconds, pourOutAtSeconds } = running;
  const words = describeTankCue(cue, next?.name ?? null);
  const whole = Math.floor(elapsedSeconds);
  // What is left is counted so that it and what is past always make the whole.
  const left = Math.max(0, Math.ceil(lengthSeconds) - whole);
  return (
    <section className="run-clock" aria-label="Clock">
      <div className="run-clock-head">
        <h1>{step?.name ?? ''}</h1>
        <p>{step ? sumInOneLine(step.lines) : ''}</p>
      </div>
      <div className="run-digits">
        <p className="run-elapsed" role="timer" aria-label="Elapsed">
          {formatDuration(whole)}
        </p>
        <div>
          <p className="run-left">
            {leftSeconds > 0 ? formatDuration(left) : `+${formatDuration(Math.floor(overSeconds))}`}
          </p>
          <p className="run-small">
            {leftSeconds > 0
              ? `left of ${formatDuration(lengthSeconds)}`
              : `over ${formatDuration(lengthSeconds)}`}
          </p>
          <p className="run-pour-at">{formatDuration(pourOutAtSeconds)}</p>
          <p className="run-small">pour out from here</p>
        </div>
      </div>
      <div className={isEnding ? 'run-cue run-cue-urgent' : 'run-cue'}>
        <TankDrawing action={cue.action} />
        <div className="run-cue-words" role="status">
          <p className="run-cue-action">{words.action}</p>
          <p>{words.follows}</p>
        </div>
        {'secondsLeft' in cue ? (
          <p className="run-cue-time">{formatDuration(Math.ceil(cue.secondsLeft))}</p>
        ) : null}
      </div>
      <div className="run-row">
        {isEnding ? (
          goOn
        ) : (
          <SkipOn
            next={next?.name ?? null}
            onPress={next && nextStep !== null ? () => onPourIn(nextStep) : onFinish}
          />
        )}
        <BigButton onPress={() => onAdd(ADDED_SECONDS)}>Add {ADDED_SECONDS} s</BigButton>
        <BigButton onPress={() => onAdd(-ADDED_SECONDS)}>Take {ADDED_SECONDS} s off</BigButton>
      </div>
    </section>
  );
}

/** Going on before the time is up: a press, never the space bar. */
function SkipOn({ next, onPress }: { readonly next: string | null; readonly onPress: () => void }) {
  return <BigButton onPress={onPress}>{next === null ? 'Done early' : `On to ${next} early`}</BigButton>;
}
