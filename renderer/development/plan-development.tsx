import { useState } from 'react';
import type { Given } from '../../shared/api/contract.ts';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { PROCESS_NAMES } from '../../shared/text/format.ts';
import { parseDuration } from '../../shared/units/duration.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { PlanAnswer } from './plan-answer.tsx';
import { ProcessDialog } from './process-dialog.tsx';
import { readNumber } from './read-number.ts';

/** How many waiting rolls are offered. Our choice: nobody has more in front of the tank. */
const MOST_ROLLS = 300;

/** Rolls that may go into a tank: those that wait, then those still noted as in a camera or on hand. */
function useWaitingRolls(): readonly RollRow[] | undefined {
  const order = { sort: 'number', descending: false } as const;
  const { data: waiting } = useArchive('rolls.order', { ...order, filter: { states: ['to develop'] } });
  const { data: others } = useArchive('rolls.order', {
    ...order,
    filter: { states: ['in camera', 'on hand'] },
  });
  const ids = [...(waiting?.ids ?? []), ...(others?.ids ?? [])].slice(0, MOST_ROLLS);
  const { data: rows } = useArchive(
    'rolls.rows',
    { ids },
    { when: waiting !== undefined && others !== undefined && ids.length > 0, keepFormer: true },
  );
  if (!waiting || !others) return undefined;
  return ids.length === 0 ? [] : rows;
}

/** Chooses rolls, process, baths and tank, and shows the sums as they stand. */
export function PlanDevelopment({ params }: { readonly params: Readonly<Record<string, string>> }) {
  const viewState = useViewState();
  const rolls = useWaitingRolls();
  const { data: processes } = useArchive('processes.list', {});
  const { data: tanks } = useArchive('tanks.list', {});
  const { data: baths } = useArchive('baths.list', {});
  const [rollIds, setRollIds] = useState<readonly number[]>(() =>
    (params['rolls'] ?? '')
      .split(',')
      .map(Number)
      .filter((id) => Number.isInteger(id) && id > 0),
  );
  const [chosenProcess, setProcess] = useState<string | null>(null);
  const [bathIds, setBathIds] = useState<readonly number[]>([]);
  const [tankId, setTankId] = useState('none');
  const [temperature, setTemperature] = useState('');
  const [push, setPush] = useState('');
  const [ownTime, setOwnTime] = useState('');
  const [ownAt, setOwnAt] = useState('20');
  const [editing, setEditing] = useState<string | null>(null);
  const start = useCommand('developments.start');

  const firstKind = rolls?.find((roll) => rollIds.includes(roll.id))?.stock?.process;
  const process = chosenProcess ?? firstKind ?? 'c41';
  const isBlackAndWhite = process === 'bw' || process === 'black-and-white';
  const seconds = parseDuration(ownTime);
  const at = readNumber(ownAt);
  const request: Given<'developments.plan'> = {
    rollIds: [...rollIds],
    process,
    developerC: readNumber(temperature),
    stops: readNumber(push),
    bathIds: [...bathIds],
    tankId: tankId === 'none' ? null : Number(tankId),
    developerTime: seconds !== null && at !== null ? { seconds, celsius: at } : null,
  };
  const answer = useArchive('developments.plan', request, { when: rollIds.length > 0, keepFormer: true });
  if (!rolls || !processes || !tanks || !baths) return <div className="plan" aria-busy="true" />;

  function toggle(list: readonly number[], id: number, on: boolean): number[] {
    return on ? [...list, id] : list.filter((each) => each !== id);
  }

  const edited =
    editing === null
      ? null
      : (processes.find(({ key }) => key === editing) ??
        processes.find(({ id, kind }) => id === null && kind === editing) ??
        null);
  const kinds = (['c41', 'bw', 'e6', 'ecn2'] as const).map((kind) => ({
    value: kind as string,
    label: `${PROCESS_NAMES[kind]}, as fits`,
  }));
  return (
    <div className="plan">
      <section className="plan-choices" aria-labelledby="plan">
        <h1 id="plan">Plan a development</h1>
        <fieldset>
          <legend>Rolls that wait</legend>
          {rolls.length === 0 ? (
            <EmptyState
              says="Rolls that are exposed and not yet developed lie here."
              action={<Button onPress={() => viewState.go({ view: 'rolls' })}>Go to the rolls</Button>}
            />
          ) : (
            <ul className="plan-rolls">
              {rolls.map((roll) => (
                <li key={roll.id}>
                  <CheckBox
                    checked={rollIds.includes(roll.id)}
                    onChange={(on) => setRollIds(toggle(rollIds, roll.id, on))}
                  >
                    <span className="numbers plan-number">{roll.number}</span> {rollWords(roll)}
                  </CheckBox>
                </li>
              ))}
            </ul>
          )}
        </fieldset>
        <Select
          label="Process"
          value={process}
          onChange={setProcess}
          options={[
            ...kinds,
            ...processes
              .map(({ key, name }) => ({ value: key, label: name }))
              .filter(({ value }) => !kinds.some((kind) => kind.value === value)),
          ]}
        />
        <div>
          <Button look="quiet" onPress={() => setEditing(answer.data?.plan?.process.key ?? process)}>
            {processes.some(({ key, id }) => key === process && id !== null)
              ? 'Change this process'
              : 'Copy it with your own times'}
          </Button>
        </div>
        <TextField
          label="Developer, °C"
          value={temperature}
          onChange={setTemperature}
          inputMode="decimal"
          numbers
          placeholder="as the process says"
        />
        <TextField
          label="Push, stops"
          value={push}
          onChange={setPush}
          inputMode="decimal"
          numbers
          placeholder="as the rolls say"
        />
        {isBlackAndWhite ? (
          <div className="development-row">
            <TextField
              label="Time"
              value={ownTime}
              onChange={setOwnTime}
              numbers
              placeholder="9:30"
              reading="of your film and developer"
            />
            <TextField label="at, °C" value={ownAt} onChange={setOwnAt} inputMode="decimal" numbers />
          </div>
        ) : null}
        <Select
          label="Tank"
          value={tankId}
          onChange={setTankId}
          options={[
            { value: 'none', label: 'not said' },
            ...tanks.map(({ id, name }) => ({ value: String(id), label: name })),
          ]}
        />
        <fieldset>
          <legend>Baths</legend>
          <ul className="plan-rolls">
            {baths
              .filter((bath) => bath.condition === 'in use')
              .map((bath) => (
                <li key={bath.id}>
                  <CheckBox
                    checked={bathIds.includes(bath.id)}
                    onChange={(on) => setBathIds(toggle(bathIds, bath.id, on))}
                  >
                    {bath.name} <span className="plan-words numbers">{bath.words}</span>
                  </CheckBox>
                </li>
              ))}
          </ul>
        </fieldset>
      </section>
      <section className="plan-sheet" aria-labelledby="plan-sheet">
        {rollIds.length === 0 ? (
          <EmptyState says="Choose rolls; the steps with their times, and every line of the sums, stand here." />
        ) : answer.error ? (
          <p role="alert">
            {describeError(answer.error).detail} {describeError(answer.error).advice}
          </p>
        ) : answer.data ? (
          <PlanAnswer
            answer={answer.data}
            onGroup={(ids) => setRollIds(ids)}
            starting={start.pending}
            onStart={() =>
              void start.run(request).then((ended) => {
                if (ended.ok) viewState.go({ view: 'development', ids: [ended.output.id, 'run'] });
              })
            }
          />
        ) : null}
      </section>
      {edited === null ? null : (
        <ProcessDialog key={edited.key} entry={edited} onClose={() => setEditing(null)} />
      )}
    </div>
  );
}

function rollWords(roll: RollRow): string {
  const stock = roll.stock?.name ?? 'film not noted';
  const speed = roll.exposureIndex === null ? '' : ` exposed at ${roll.exposureIndex}`;
  const push =
    roll.pushStops === null || roll.pushStops === 0
      ? ''
      : `, ${roll.pushStops > 0 ? '+' : '−'}${Math.abs(roll.pushStops)} ${Math.abs(roll.pushStops) === 1 ? 'stop' : 'stops'}`;
  return `${stock}, ${roll.filmFormat}${speed}${push}${roll.state === 'to develop' ? '' : `, ${roll.state}`}`;
}
