import { useState } from 'react';
import type { DevelopmentDetails, DoneStep } from '../../shared/api/methods/development-methods.ts';
import { effectiveDevelopment } from '../../shared/domain/development/effective-development.ts';
import { findTimeCurve } from '../../shared/domain/development/time-curve.ts';
import { describeCorrection, describeVerdict } from '../../shared/text/describe-development.ts';
import { describeMixReason } from '../../shared/text/describe-mix.ts';
import { formatTemperature, PROCESS_NAMES } from '../../shared/text/format.ts';
import { formatDuration } from '../../shared/units/duration.ts';
import { useArchive } from '../api/use-query.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { CorrectDialog } from './correct-dialog.tsx';
import { DevelopedFrames } from './developed-frames.tsx';
import { LogReadings } from './log-readings.tsx';
import { TemperatureChart } from './temperature-chart.tsx';
import { WorkingLines } from './working-lines.tsx';

/** What really happened in a development, beside what was planned. */
export function DevelopmentLog({ id }: { readonly id: number }) {
  const viewState = useViewState();
  const { data: development, error } = useArchive('developments.get', { id });
  const [correcting, setCorrecting] = useState(false);
  if (error) return <p role="alert">Development {id} is not there.</p>;
  if (!development) return <div className="log" aria-busy="true" />;
  const { rolls, steps, doubts, corrections, plan } = development;
  const corrected = corrections.flatMap((each) => {
    const words = describeCorrection(each);
    return words === null ? [] : [`${each.madeAt.slice(0, 10)}, ${words}`];
  });
  return (
    <div className="log">
      <header className="development-head">
        <h1>
          Development {id}, {development.state}
        </h1>
        <div className="development-row">
          <Button look="quiet" onPress={() => viewState.go({ view: 'development' })}>
            All developments
          </Button>
          {development.state === 'running' ? (
            <Button look="main" onPress={() => viewState.go({ view: 'development', ids: [id, 'run'] })}>
              Go on with it
            </Button>
          ) : (
            <Button onPress={() => setCorrecting(true)}>Correct</Button>
          )}
        </div>
      </header>
      {doubts.map((doubt) => (
        <p key={doubt.bath.id} role="alert" className="log-doubt">
          “{doubt.bath.name}” had ended on {doubt.since.slice(0, 10)}, before it was used here
          {doubt.reason === null ? '' : `: ${doubt.reason}`}. What was developed is to be doubted.
        </p>
      ))}
      <Facts development={development} />
      {steps.length === 0 ? null : <Steps steps={steps} />}
      <div className="log-measured">
        {steps
          .filter((step) => step.readings.length > 0)
          .map((step) => {
            const planned = plan?.steps[step.ordinal - 1]?.temperature ?? null;
            return (
              <section key={step.ordinal} aria-label={`Temperatures in ${step.name}`}>
                <h2>Measured in: {step.name}</h2>
                <TemperatureChart
                  seconds={step.actualSeconds ?? step.plannedSeconds ?? 0}
                  aimC={planned?.aimC ?? null}
                  lowC={planned?.lowC ?? null}
                  highC={planned?.highC ?? null}
                  readings={step.readings}
                  widthPx={520}
                  heightPx={180}
                />
              </section>
            );
          })}
        <LogReadings development={development} />
      </div>
      <Amounted development={development} />
      {corrected.length === 0 ? null : (
        <section aria-labelledby="log-corrections">
          <h2 id="log-corrections">Corrected later</h2>
          <ul>
            {corrected.map((each) => (
              <li key={each} className="numbers">
                {each}
              </li>
            ))}
          </ul>
        </section>
      )}
      <section aria-labelledby="log-rolls">
        <h2 id="log-rolls">Frames</h2>
        {rolls.map((roll) => (
          <DevelopedFrames key={roll.id} roll={roll} />
        ))}
      </section>
      {correcting ? <CorrectDialog development={development} onClose={() => setCorrecting(false)} /> : null}
    </div>
  );
}

/** What the temperatures of the developer amounted to, by the process it was planned by. */
function Amounted({ development }: { readonly development: DevelopmentDetails }) {
  const { plan, steps } = development;
  const at = plan?.steps.findIndex(({ key }) => key === plan.developerKey) ?? -1;
  const step = plan?.process.steps.find(({ key }) => key === plan.developerKey);
  const planned = plan?.steps[at];
  const done = steps[at];
  const aimC = planned?.temperature?.aimC ?? null;
  if (!plan || !step || !planned || !done?.actualSeconds || aimC === null || done.readings.length === 0)
    return null;
  const curve = findTimeCurve(step, plan.process.family);
  const worked =
    curve === null
      ? null
      : effectiveDevelopment(curve, done.readings, done.actualSeconds, planned.seconds, aimC);
  return (
    <section aria-labelledby="log-amounted">
      <h2 id="log-amounted">What the developer amounted to</h2>
      {worked?.ok === true ? (
        <WorkingLines lines={worked.value.lines} />
      ) : (
        <p className="plan-words">
          Nothing can be said:{' '}
          {worked === null ? 'the process has no time to hold it against' : describeMixReason(worked.reason)}.
        </p>
      )}
    </section>
  );
}

function Facts({ development }: { readonly development: DevelopmentDetails }) {
  const { processName, process, date, who, place, note, pushStops, uses, developerSeconds, developerTempC } =
    development;
  const facts: readonly (readonly [string, string | null])[] = [
    ['Process', processName ?? PROCESS_NAMES[process]],
    ['Day', date?.edtf ?? null],
    ['Push', pushStops === 0 ? null : String(pushStops)],
    [
      'Developer',
      developerSeconds === null
        ? null
        : `${formatDuration(developerSeconds)}${developerTempC === null ? '' : ` at ${formatTemperature(developerTempC)}`}`,
    ],
    ['Baths', uses.map((use) => use.bath.name).join(', ') || null],
    ['Who', who],
    ['Where', place],
    ['Note', note],
  ];
  return (
    <dl className="log-facts">
      {facts
        .filter(([, value]) => value !== null)
        .map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd className="numbers">{value}</dd>
          </div>
        ))}
    </dl>
  );
}

function Steps({ steps }: { readonly steps: readonly DoneStep[] }) {
  const time = (seconds: number | null) => (seconds === null ? '–' : formatDuration(seconds));
  const degrees = (celsius: number | null) => (celsius === null ? '–' : formatTemperature(celsius));
  return (
    <table className="log-steps">
      <caption className="unseen">Planned and actual</caption>
      <thead>
        <tr>
          <th scope="col">Step</th>
          <th scope="col">Bath</th>
          <th scope="col">Planned</th>
          <th scope="col">Actual</th>
          <th scope="col">Meant</th>
          <th scope="col">Measured</th>
          <th scope="col">Against tolerance</th>
        </tr>
      </thead>
      <tbody className="numbers">
        {steps.map((step) => (
          <tr key={step.ordinal}>
            <th scope="row">{step.name}</th>
            <td>{step.bath?.name ?? ''}</td>
            <td>{time(step.plannedSeconds)}</td>
            <td>{time(step.actualSeconds)}</td>
            <td>{degrees(step.plannedC)}</td>
            <td>{degrees(step.actualC)}</td>
            <td>{step.comparison === null ? '' : describeVerdict(step.comparison.meanVerdict)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
