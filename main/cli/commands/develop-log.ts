import type { Given } from '../../../shared/api/contract.ts';
import { type Answer, type Command, type Invocation, type Options, UsageError } from '../command.ts';
import { bathByName, findInstant, findTemperature, readTime, rollsByNumber } from '../development-words.ts';
import { readProcess } from '../names.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

type Happening = Given<'developments.note'>['event'];

/** What happened in a run, as the options say, in the order in which it can only have happened. */
function readEvents(options: Options): Happening[] {
  const events: Happening[] = [];
  const celsius = findTemperature(options, 'temp');
  const pour = options.number('pour');
  const added = options.text('add');
  if (pour !== undefined) events.push({ kind: 'step_started', step: pour - 1 });
  if (celsius !== null) events.push({ kind: 'temperature_read', celsius });
  if (added !== undefined) events.push({ kind: 'time_added', seconds: readTime(added, 'add') });
  if (options.flag('out')) events.push({ kind: 'step_ended' });
  if (options.flag('take-back')) events.push({ kind: 'taken_back' });
  if (options.flag('finish')) events.push({ kind: 'run_finished' });
  if (options.flag('abort')) events.push({ kind: 'run_aborted' });
  return events;
}

async function logRun({ ask, options }: Invocation, id: number): Promise<Answer> {
  const events = readEvents(options);
  const files = options.flag('finish') || options.flag('abort');
  if (events.length === 0)
    throw new UsageError('What happened? --pour 1, --temp 37.6, --add 0:15, --out, --finish, --abort.');
  const at = findInstant(options, 'at');
  const corrects = options.number('corrects') ?? null;
  const ids = [];
  for (const event of events) {
    const noted = await ask('developments.note', {
      id,
      event,
      corrects,
      atMs: at === null ? null : Date.parse(at),
      sure: options.flag('sure'),
    });
    ids.push(noted.id);
  }
  if (files) {
    await ask('developments.finish', {
      id,
      rollsDeveloped: options.flag('developed') ? true : null,
      who: options.text('who') ?? null,
      place: options.text('place') ?? null,
      note: options.text('note') ?? null,
    });
  }
  const run = await ask('developments.runState', { id });
  return { json: { id, events: ids, run }, lines: [`Noted. The run is ${run.phase}.`] };
}

async function logDone({ ask, options }: Invocation): Promise<Answer> {
  const numbers = options.list('rolls');
  if (numbers.length === 0) throw new UsageError('--rolls is needed, or the number of a run.');
  const bathIds = [];
  for (const name of options.list('bath')) bathIds.push(await bathByName(ask, name));
  const time = options.text('time');
  const { id } = await ask('developments.record', {
    rollIds: await rollsByNumber(ask, numbers),
    process: readProcess(options.need('process')),
    date: options.need('date'),
    pushStops: options.number('push') ?? 0,
    developerTempC: findTemperature(options, 'temp'),
    developerSeconds: time === undefined ? null : readTime(time, 'time'),
    bathIds,
    note: options.text('note') ?? null,
    sure: options.flag('sure'),
  });
  return { json: { id, rolls: numbers }, lines: [`Development of ${numbers.join(', ')} is recorded.`] };
}

/** Notes what happens in a run, or records a development that was done without one. */
export const DEVELOP_LOG: Command = {
  name: 'develop log',
  usage: 'ID --pour 1 | --temp 37.6 | --finish …',
  summary: 'note what happens in a run; or record one with --rolls',
  options: {
    pour: text,
    temp: text,
    add: text,
    out: flag,
    'take-back': flag,
    corrects: text,
    at: text,
    sure: flag,
    finish: flag,
    abort: flag,
    developed: flag,
    who: text,
    place: text,
    note: text,
    rolls: text,
    process: text,
    date: text,
    time: text,
    push: text,
    bath: text,
  },
  takes: [0, 1],
  opensArchive: true,
  run: (invocation) => {
    const [id] = invocation.positionals;
    if (id === undefined) return logDone(invocation);
    const number = Number(id);
    if (!Number.isInteger(number) || number < 1) {
      return Promise.reject(new UsageError(`“${id}” is no number of a development.`));
    }
    return logRun(invocation, number);
  },
};
