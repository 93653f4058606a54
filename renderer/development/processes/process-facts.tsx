import { useState, type ReactNode } from 'react';
import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import type { Step } from '../../../shared/domain/development/process.ts';
import {
  formatExtension,
  formatPushTable,
  formatTimePoints,
} from '../../../shared/domain/development/rule-text.ts';
import { isUnverified, type Source } from '../../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { BATH_NAMES } from '../../../shared/text/describe-development.ts';
import { describeAgitation, describeWarmth } from '../../../shared/text/describe-process.ts';
import { PROCESS_NAMES } from '../../../shared/text/format.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { useCommand } from '../../api/use-command.ts';
import { useViewState } from '../../state/view-state.tsx';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';

/** A process as it is: every number with where it comes from. */
export function ProcessFacts({ entry }: { readonly entry: ProcessEntry }) {
  const viewState = useViewState();
  const [removing, setRemoving] = useState(false);
  const { process, id, key, name, kind } = entry;
  const edit = () => viewState.go({ view: 'development', ids: ['processes', key], params: { edit: '1' } });
  return (
    <article className="process" aria-labelledby="process">
      <header className="development-head">
        <h1 id="process">{name}</h1>
        <div className="development-row">
          <Button
            onPress={() => viewState.go({ view: 'development', ids: ['plan'], params: { process: key } })}
          >
            Plan with it
          </Button>
          {id === null ? null : <Button onPress={() => setRemoving(true)}>Remove</Button>}
          <Button look="main" onPress={edit}>
            {id === null ? 'Copy and edit' : 'Edit'}
          </Button>
        </div>
      </header>
      <p className="plan-words">
        {PROCESS_NAMES[kind]}, {process.steps.length} steps,{' '}
        {id === null ? 'shipped with the program' : 'yours'}
      </p>
      {process.note === null ? null : <p>{process.note}</p>}
      <ol className="process-steps">
        {process.steps.map((step) => (
          <li key={step.key} className="plan-step">
            <StepFacts step={step} />
          </li>
        ))}
      </ol>
      {removing && id !== null ? (
        <RemoveDialog id={id} name={name} onClose={() => setRemoving(false)} />
      ) : null}
    </article>
  );
}

function StepFacts({ step }: { readonly step: Step }) {
  const { time, temperature, agitation, timePoints, push, bathFacts } = step;
  const points = timePoints[0];
  const capacity = bathFacts?.capacityCm2PerLitre ?? null;
  const shelf = bathFacts?.shelfDays ?? null;
  const extension = bathFacts?.extension ?? null;
  return (
    <>
      <div className="plan-step-head">
        <h2>{step.name}</h2>
        <span className="numbers plan-time">
          {time.seconds === null ? '–' : formatDuration(time.seconds)}
        </span>
        <span>{BATH_NAMES[step.bath]}</span>
      </div>
      <dl className="working">
        <Fact label={step.timing === 'exact' ? 'Time' : 'Time, at least'} source={time.source}>
          {time.seconds === null ? 'your maker’s' : formatDuration(time.seconds)}
        </Fact>
        {temperature === null ? null : (
          <Fact label="Temperature" source={temperature.source}>
            {describeWarmth(temperature)}
          </Fact>
        )}
        {points === undefined ? null : (
          <Fact label="At other temperatures, °C" source={points.source}>
            {formatTimePoints(timePoints)}
          </Fact>
        )}
        {agitation === null ? null : (
          <Fact label="Agitation" source={agitation.source}>
            {describeAgitation(agitation, step.bath)}
          </Fact>
        )}
        {push === null ? null : (
          <Fact label="Push and pull, stops" source={push.source}>
            {formatPushTable(push)}
          </Fact>
        )}
        {capacity === null ? null : (
          <Fact label="Capacity" source={capacity.source}>
            {Number((capacity.value / ROLL_AREA_CM2).toFixed(1))} rolls a litre
          </Fact>
        )}
        {shelf === null ? null : (
          <Fact label="Keeps" source={shelf.source}>
            {shelf.value} days
          </Fact>
        )}
        {extension === null ? null : (
          <Fact label="Added time for rolls before" source={extension.source}>
            {formatExtension(extension)}
          </Fact>
        )}
      </dl>
      {step.note === null ? null : <p className="plan-note">{step.note}</p>}
    </>
  );
}

function Fact({
  label,
  source,
  children,
}: {
  readonly label: string;
  readonly source: Source;
  readonly children: ReactNode;
}) {
  return (
    <div className="working-line">
      <dt>{label}</dt>
      <dd className="numbers">
        {children}
        {isUnverified(source) ? <em className="working-mark"> {source.kind}</em> : null}
      </dd>
      <dd className="working-source">{source.kind === 'yours' ? `Your own: ${source.text}` : source.text}</dd>
    </div>
  );
}

function RemoveDialog({
  id,
  name,
  onClose,
}: {
  readonly id: number;
  readonly name: string;
  readonly onClose: () => void;
}) {
  const viewState = useViewState();
  const remove = useCommand('processes.remove');
  function confirm(): void {
    void remove.run({ id }).then((ended) => {
      if (ended.ok) viewState.go({ view: 'development', ids: ['processes'] });
    });
  }
  return (
    <Dialog
      title={`Remove “${name}”?`}
      onClose={onClose}
      onSubmit={confirm}
      actions={
        <>
          <Button look="main" onPress={confirm} busy={remove.pending}>
            Remove the process
          </Button>
          <Button onPress={onClose}>Keep it</Button>
        </>
      }
    >
      <p>Developments keep the process they were planned by. Undo brings it back.</p>
    </Dialog>
  );
}
