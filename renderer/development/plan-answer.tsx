import type { Output } from '../../shared/api/contract.ts';
import type { TankEntry } from '../../shared/api/methods/bath-methods.ts';
import { formatTemperature } from '../../shared/text/format.ts';
import { formatDuration } from '../../shared/units/duration.ts';
import { Button } from '../ui/button.tsx';
import { ToleranceLine } from '../film/tolerance-line.tsx';
import { PlanPrint } from './plan-print.tsx';
import { WorkingLines } from './working-lines.tsx';

export interface PlanAnswerProps {
  readonly tank: TankEntry | null;
  readonly answer: Output<'developments.plan'>;
  readonly onGroup: (rollIds: readonly number[]) => void;
  /** Takes the temperature that was probably meant. */
  readonly onTemperature: (typed: string) => void;
  /** Says that the temperature is meant as it was typed. */
  readonly onMeant: () => void;
  readonly onStart: () => void;
  readonly starting: boolean;
}

/** The sheet of steps with its sums, or why there is none and what could be done instead. */
export function PlanAnswer(props: PlanAnswerProps) {
  const { answer, tank, onGroup, onTemperature, onMeant, onStart, starting } = props;
  const { plan, refused } = answer;
  if (refused !== null) {
    return (
      <div className="plan-refused" role="alert">
        <h2 id="plan-sheet">These cannot be done as chosen</h2>
        <p>{refused.detail}</p>
        {refused.meantC === null ? null : (
          <div className="development-row">
            <Button onPress={() => onTemperature((refused.meantC ?? 0).toFixed(1))}>
              Take {formatTemperature(refused.meantC)}
            </Button>
            <Button look="quiet" onPress={onMeant}>
              It is meant
            </Button>
          </div>
        )}
        {refused.groups.length === 0 ? null : (
          <ul>
            {refused.groups.map((rolls) => (
              <li key={rolls.map((roll) => roll.id).join()}>
                <Button onPress={() => onGroup(rolls.map((roll) => roll.id))}>
                  Take only {rolls.map((roll) => roll.number).join(', ')}
                </Button>
              </li>
            ))}
          </ul>
        )}
      </div>
    );
  }
  if (plan === null) return null;
  return (
    <article className="plan-paper">
      <header className="development-head">
        <h2 id="plan-sheet">
          {plan.process.name}: {plan.rolls.map((roll) => roll.number).join(', ')}
        </h2>
        <div className="development-row plan-buttons">
          <Button onPress={() => window.print()}>Print the sheet</Button>
          <Button look="main" onPress={onStart} busy={starting}>
            Open the run sheet
          </Button>
        </div>
      </header>
      <PlanPrint plan={plan} tank={tank} />
      <p>Taken because {plan.chosen}.</p>
      {plan.warnings.length === 0 ? null : (
        <ul className="plan-warnings" aria-label="To know before">
          {plan.warnings.map((warning) => (
            <li key={warning.text}>{warning.text}</li>
          ))}
        </ul>
      )}
      <ol className="plan-steps">
        {plan.steps.map((step) => (
          <li key={step.key} className="plan-step">
            <div className="plan-step-head">
              <h3>{step.name}</h3>
              <span className="numbers plan-time">{formatDuration(step.seconds)}</span>
              <span className="numbers">{step.timing === 'minimum' ? 'at least' : ''}</span>
              <Warmth temperature={step.temperature} />
              <span>{step.uses?.name ?? ''}</span>
            </div>
            <WorkingLines lines={step.lines} />
            {step.note === null ? null : <p className="plan-note">{step.note}</p>}
          </li>
        ))}
      </ol>
      <p className="numbers">
        In all {formatDuration(plan.totalSeconds)}
        {plan.volumeMl === null ? '' : `; ${Math.round(plan.volumeMl)} ml of each bath`}
      </p>
      {plan.volumeLines.length === 0 ? null : <WorkingLines lines={plan.volumeLines} />}
    </article>
  );
}

function Warmth({
  temperature,
}: {
  readonly temperature: { aimC: number | null; lowC: number | null; highC: number | null } | null;
}) {
  const { aimC = null, lowC = null, highC = null } = temperature ?? {};
  if (aimC !== null && highC !== null) {
    const eitherWay = highC - aimC;
    const words = `${aimC.toFixed(1)} °C, ${eitherWay.toFixed(2)} either way`;
    return (
      <span className="numbers plan-warmth">
        {words}{' '}
        <ToleranceLine label={words} meant={aimC} eitherWay={eitherWay} measured={null} widthPx={120} />
      </span>
    );
  }
  if (lowC === null || highC === null) return <span className="numbers">as the room</span>;
  return (
    <span className="numbers">
      {lowC.toFixed(1)} to {highC.toFixed(1)} °C
    </span>
  );
}
