import { useState } from 'react';
import type { DevelopmentDetails, DevelopmentPlan } from '../../../shared/api/methods/development-methods.ts';
import type { RunRecord } from '../../../shared/domain/development/run-clock.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { useCommand } from '../../api/use-command.ts';
import { useViewState } from '../../state/view-state.tsx';
import { CheckBox } from '../../ui/check-box.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { BigButton } from './big-button.tsx';

/** The end of a run: what to add to it before it is filed. */
export function EndPanel({
  development,
  plan,
  record,
}: {
  readonly development: DevelopmentDetails;
  readonly plan: DevelopmentPlan;
  readonly record: RunRecord;
}) {
  const { id } = development;
  const viewState = useViewState();
  const finish = useCommand('developments.finish');
  const isDone = record.ending === 'finished';
  const [developed, setDeveloped] = useState(isDone);
  const [who, setWho] = useState('');
  const [place, setPlace] = useState('');
  const [note, setNote] = useState('');
  const orNull = (text: string) => (text.trim() === '' ? null : text.trim());
  const show = () => viewState.go({ view: 'development', ids: [id] });

  if (development.state !== 'running') {
    return (
      <section className="run-end" aria-labelledby="run-end">
        <h1 id="run-end">This run is filed</h1>
        <BigButton main keys="Space" onPress={show}>
          Show its log
        </BigButton>
      </section>
    );
  }
  return (
    <section className="run-end" aria-labelledby="run-end">
      <h1 id="run-end">{isDone ? 'The run is done' : 'The run was stopped'}</h1>
      <ul>
        {record.steps.map((step) => (
          <li key={`${step.step}-${step.startedMs}`}>
            {plan.steps[step.step]?.name}{' '}
            {step.endedMs === null ? '' : formatDuration((step.endedMs - step.startedMs) / 1000)}, planned{' '}
            {formatDuration(step.plannedSeconds)}
          </li>
        ))}
      </ul>
      <CheckBox checked={developed} onChange={setDeveloped}>
        The rolls are developed
      </CheckBox>
      <TextField label="Who" labelPlace="above" value={who} onChange={setWho} />
      <TextField label="Where" labelPlace="above" value={place} onChange={setPlace} />
      <TextField label="Note" labelPlace="above" value={note} onChange={setNote} lines={3} />
      <BigButton
        main
        onPress={() =>
          void finish
            .run({
              id,
              rollsDeveloped: developed,
              who: orNull(who),
              place: orNull(place),
              note: orNull(note),
            })
            .then((ended) => (ended.ok ? show() : undefined))
        }
      >
        File the development
      </BigButton>
    </section>
  );
}
