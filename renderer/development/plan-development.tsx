import type { Given } from '../../shared/api/contract.ts';
import type { RollRow } from '../../shared/api/methods/film-methods.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { PROCESS_NAMES } from '../../shared/text/format.ts';
import { parseDuration } from '../../shared/units/duration.ts';
import { parseTemperature } from '../../shared/units/temperature.ts';
import { useCommand } from '../api/use-command.ts';
import { useArchive } from '../api/use-query.ts';
import { RouteLink, useViewState } from '../state/view-state.tsx';
import { Button } from '../ui/button.tsx';
import { CheckBox } from '../ui/check-box.tsx';
import { EmptyState } from '../ui/empty-state.tsx';
import { Select } from '../ui/select.tsx';
import { TextField } from '../ui/text-field.tsx';
import { PlanAnswer } from './plan-answer.tsx';
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
  const text = (name: string) => params[name] ?? '';
  const put = (name: string, value: string) => viewState.adjust({ [name]: value === '' ? null : value });
  const rollIds = readIds(text('rolls'));
  const bathIds = readIds(text('baths'));
  const setRollIds = (ids: readonly number[]) => put('rolls', ids.join());
  const tankId = readIds(text('tank'))[0] ?? null;
  const start = useCommand('developments.start');

  const firstKind = rolls?.find((roll) => rollIds.includes(roll.id))?.stock?.process;
  const process = text('process') === '' ? (firstKind ?? 'c41') : text('process');
  const isBlackAndWhite = process === 'bw' || process === 'black-and-white';
  const ownAt = params['at'] ?? '20';
  const seconds = parseDuration(text('time'));
  const at = parseTemperature(ownAt);
  const request: Given<'developments.plan'> = {
    rollIds: [...rollIds],
    process,
    developerC: parseTemperature(text('temperature')),
    stops: readNumber(text('push')),
    bathIds: [...bathIds],
    tankId,
    developerTime: seconds !== null && at !== null ? { seconds, celsius: at } : null,
    rollsDone: readNumber(text('before')),
    minimumMlPerRoll: readPositive(text('minimum')),
    sure: text('meant') !== '' && text('meant') === text('temperature'),
  };
  const answer = useArchive('developments.plan', request, { when: rollIds.length > 0, keepFormer: true });
  if (!rolls || !processes || !tanks || !baths) return <div className="plan" aria-busy="true" />;

  function toggle(list: readonly number[], id: number, on: boolean): number[] {
    return on ? [...list, id] : list.filter((each) => each !== id);
  }

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
          onChange={(value) => put('process', value)}
          options={[
            ...kinds,
            ...processes
              .map(({ key, name }) => ({ value: key, label: name }))
              .filter(({ value }) => !kinds.some((kind) => kind.value === value)),
          ]}
        />
        <div>
          <RouteLink
            to={{
              view: 'development',
              ids: ['processes', answer.data?.plan?.process.key ?? processKey(process)],
            }}
          >
            Look at the process, or copy it with your own numbers
          </RouteLink>
        </div>
        <TextField
          label="Developer, °C"
          value={text('temperature')}
          onChange={(typed) => put('temperature', typed)}
          inputMode="decimal"
          numbers
          placeholder="as the process says"
          error={
            text('temperature').trim() !== '' && request.developerC === null
              ? 'a temperature such as 37.8 or 100 °F'
              : undefined
          }
        />
        <TextField
          label="Push, stops"
          value={text('push')}
          onChange={(typed) => put('push', typed)}
          inputMode="decimal"
          numbers
          placeholder="as the rolls say"
          error={text('push').trim() !== '' && request.stops === null ? 'stops such as 1 or -1' : undefined}
        />
        {isBlackAndWhite ? (
          <div className="development-row">
            <TextField
              label="Time"
              value={text('time')}
              onChange={(typed) => put('time', typed)}
              numbers
              placeholder="9:30"
              reading="of your film and developer"
              error={text('time').trim() !== '' && seconds === null ? 'a time such as 9:30' : undefined}
            />
            <TextField
              label="at, °C"
              value={ownAt}
              onChange={(typed) => viewState.adjust({ at: typed })}
              inputMode="decimal"
              numbers
              error={at === null ? 'a temperature such as 20' : undefined}
            />
          </div>
        ) : null}
        <Select
          label="Tank"
          value={tankId === null ? 'none' : String(tankId)}
          onChange={(value) => put('tank', value === 'none' ? '' : value)}
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
                    onChange={(on) => put('baths', toggle(bathIds, bath.id, on).join())}
                  >
                    {bath.name} <span className="plan-words numbers">{bath.words}</span>
                  </CheckBox>
                </li>
              ))}
          </ul>
          {baths.some((bath) => bath.condition === 'in use') ? null : (
            <p className="plan-words">None is mixed; fresh ones are reckoned with.</p>
          )}
        </fieldset>
        <TextField
          label="Rolls before"
          value={text('before')}
          onChange={(typed) => put('before', typed)}
          inputMode="decimal"
          numbers
          placeholder="as the bath says"
          error={
            text('before').trim() !== '' && request.rollsDone === null ? 'a number such as 4.2' : undefined
          }
        />
        <TextField
          label="At least, ml"
          value={text('minimum')}
          onChange={(typed) => put('minimum', typed)}
          inputMode="decimal"
          numbers
          reading="of undiluted developer for 80 sq in, as its maker says"
          error={
            text('minimum').trim() !== '' && request.minimumMlPerRoll === null
              ? 'a number such as 100'
              : undefined
          }
        />
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
            tank={tanks.find(({ id }) => id === tankId) ?? null}
            onGroup={(ids) => setRollIds(ids)}
            onTemperature={(typed) => viewState.adjust({ temperature: typed })}
            onMeant={() => viewState.adjust({ meant: text('temperature') })}
            starting={start.pending}
            onStart={() =>
              void start.run(request).then((ended) => {
                if (ended.ok) viewState.go({ view: 'development', ids: [ended.output.id, 'run'] });
              })
            }
          />
        ) : null}
      </section>
    </div>
  );
}

/** Ids such as `3,7`; what is none is left out. */
function readIds(text: string): readonly number[] {
  return text
    .split(',')
    .map(Number)
    .filter((id) => Number.isInteger(id) && id > 0);
}

function readPositive(text: string): number | null {
  const number = readNumber(text);
  return number !== null && number > 0 ? number : null;
}

/** The shipped process that stands for a kind, before a plan says which one was taken. */
function processKey(process: string): string {
  return process === 'c41' ? 'c41-as-published' : process === 'bw' ? 'black-and-white' : process;
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
