import { createPortal } from 'react-dom';
import type { TankEntry } from '../../shared/api/methods/bath-methods.ts';
import type { DevelopmentPlan, PlanStep } from '../../shared/api/methods/development-methods.ts';
import { pourOutAt } from '../../shared/domain/development/agitation.ts';
import { CAUTION_RULE, findCautions } from '../../shared/domain/development/cautions.ts';
import { driftOver } from '../../shared/domain/development/tank-drift.ts';
import { describeAgitation, describeWarmth } from '../../shared/text/describe-process.ts';
import { sumInOneLine } from '../../shared/text/describe-run.ts';
import { formatTemperature } from '../../shared/text/format.ts';
import { formatDuration } from '../../shared/units/duration.ts';
import './plan-print.css';

/** Rooms for which a start temperature is printed, °C. Our choice: a cool one, a usual one, a warm one. */
const ROOMS_C = [18, 21, 24];

/** The sheet of steps as it is taped up beside the tank: one page, black on white. Shown on paper only. */
export function PlanPrint({
  plan,
  tank,
}: {
  readonly plan: DevelopmentPlan;
  readonly tank: TankEntry | null;
}) {
  const cautions = findCautions(plan.steps.flatMap((step) => step.cautions));
  const developer = plan.steps.find(({ key }) => key === plan.developerKey);
  const starts = developer ? startWords(developer, tank?.coolingPerMinute ?? null) : null;
  return createPortal(
    <section
      className={plan.steps.length > 7 ? 'plan-print plan-print-long' : 'plan-print'}
      aria-hidden="true"
    >
      <header>
        <h1>{plan.rolls.map((roll) => roll.number).join(', ')}</h1>
        <p>
          {plan.process.name}
          {plan.tank === null ? '' : `, ${plan.tank.name}`}
          {plan.volumeMl === null ? '' : `, ${Math.ceil(plan.volumeMl)} ml of each bath`}
        </p>
        <p className="plan-print-blank">Day</p>
      </header>
      {developer ? (
        <p className="plan-print-start">
          {developer.name}: <strong>{describeWarmth(developer.temperature)}</strong>
          {starts === null ? '' : `; ${starts}`}. Measured at the start <i /> °C, at the end <i /> °C
        </p>
      ) : null}
      <table>
        <tbody>
          {plan.steps.map((step) => (
            <StepRow key={step.key} step={step} volumeMl={plan.volumeMl} />
          ))}
        </tbody>
      </table>
      <p className="plan-print-total">
        In all {formatDuration(plan.totalSeconds)}
        {developer ? `. ${developer.name}: ${sumInOneLine(developer.lines)}` : ''}
      </p>
      {plan.warnings.map((warning) => (
        <p key={warning.text} className="plan-print-warning">
          Mind: {warning.text}
        </p>
      ))}
      <ul>
        {cautions.map((caution) => (
          <li key={caution.key}>
            <strong>{caution.title}.</strong> {caution.text}
          </li>
        ))}
      </ul>
      <p className="plan-print-rule">{CAUTION_RULE}</p>
    </section>,
    document.body,
  );
}

function StepRow({ step, volumeMl }: { readonly step: PlanStep; readonly volumeMl: number | null }) {
  const volume = volumeMl === null ? '' : `${Math.ceil(volumeMl)} ml`;
  const bath = [step.uses?.name ?? '', step.bath === 'water' ? '' : volume].filter(Boolean).join(', ');
  return (
    <tr>
      <td>
        <span className="unseen">done</span>
        <span className="plan-print-tick" />
      </td>
      <th scope="row">
        {step.name}
        <small>{bath}</small>
      </th>
      <td className="plan-print-time">
        {formatDuration(step.seconds)}
        {step.timing === 'minimum' ? <small>at least</small> : null}
      </td>
      <td>
        {describeWarmth(step.temperature)}
        <small>
          {[
            describeAgitation(step.agitation, step.bath),
            step.timing === 'exact' ? `pour out from ${formatDuration(pourOutAt(step.seconds))}` : '',
          ]
            .filter(Boolean)
            .join('; ')}
        </small>
      </td>
    </tr>
  );
}

/** Where to start so that the mean of a tank that cools is what is meant; null where nothing is known of the tank. */
function startWords(developer: PlanStep, perMinute: number | null): string | null {
  const aimC = developer.temperature?.aimC ?? null;
  if (aimC === null || perMinute === null) return null;
  const starts = ROOMS_C.flatMap((roomC) => {
    const drift = driftOver(aimC, roomC, perMinute, developer.seconds, aimC);
    return drift.ok ? [`${formatTemperature(drift.value.value.startForMeanC)} in a room of ${roomC} °C`] : [];
  });
  return starts.length === 0 ? null : `in this tank start at ${starts.join(', ')}`;
}
