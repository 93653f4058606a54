import { readFile } from 'node:fs/promises';
import { appError } from '../../../shared/api/errors.ts';
import type { ProcessEntry } from '../../../shared/api/methods/bath-methods.ts';
import { processValue } from '../../../shared/api/process-values.ts';
import type { Agitation } from '../../../shared/domain/development/agitation.ts';
import type { BathDefaults } from '../../../shared/domain/development/bath-defaults.ts';
import { findDeveloperStep } from '../../../shared/domain/development/process.ts';
import { setDeveloperTime } from '../../../shared/domain/development/set-developer-time.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { type Ask, type Command, type Invocation, type Options, UsageError } from '../command.ts';
import { readExtension, readPushTable, readTimePoint } from '../development-words.ts';
import { readProcess } from '../names.ts';

const text = { type: 'string' } as const;
const YOURS = yours('Given on the command line');

/** A process by key or name. @throws {AppError} process_not_found */
async function processByName(ask: Ask, name: string): Promise<ProcessEntry> {
  const wanted = name.toLowerCase();
  const found = (await ask('processes.list', {})).find(
    (entry) => entry.key.toLowerCase() === wanted || entry.name.toLowerCase() === wanted,
  );
  if (!found) throw appError('process_not_found', { name });
  return found;
}

const PROCESS_LIST: Command = {
  name: 'process list',
  usage: '',
  summary: 'list processes, your own first',
  options: {},
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask }) => {
    const processes = await ask('processes.list', {});
    return {
      json: {
        processes: processes.map(({ id, key, name, kind, copiedFrom, process }) => ({
          id,
          key,
          name,
          kind,
          copiedFrom,
          steps: process.steps.length,
        })),
      },
      lines: processes.map((entry) => `${entry.key}\t${entry.name}`),
    };
  },
};

const PROCESS_SHOW: Command = {
  name: 'process show',
  usage: 'KEY',
  summary: 'the steps of a process with the source of each number',
  options: {},
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, positionals }) => {
    const entry = await processByName(ask, positionals[0] ?? '');
    return {
      json: entry,
      lines: [
        entry.name,
        ...entry.process.steps.map((step) => {
          const { seconds, source } = step.time;
          const time = seconds === null ? 'time is your maker’s' : formatDuration(seconds);
          const aim = step.temperature?.aimC ?? null;
          const where = aim === null ? '' : ` at ${aim} °C`;
          return `  ${step.name}  ${time}${where}  [${source.kind}] ${source.text}`;
        }),
      ],
    };
  },
};

async function readJson(path: string): Promise<unknown> {
  const contents = await readFile(path, 'utf8').catch((error: unknown) => {
    throw appError('file_missing', { path }, error);
  });
  try {
    return JSON.parse(contents);
  } catch (error) {
    throw appError('file_unreadable', { path, reason: 'it is no JSON' }, error);
  }
}

async function readNewProcess({ ask, options }: Invocation): Promise<ProcessEntry['process']> {
  const file = options.text('file');
  if (file !== undefined) {
    const read = processValue.safeParse(await readJson(file));
    if (!read.success) {
      const reason = read.error.issues[0]?.message ?? 'it is no process';
      throw appError('file_unreadable', { path: file, reason });
    }
    return read.data;
  }
  const { process } = await processByName(ask, options.need('from'));
  return withOwnRules(withOwnTimes({ ...process, name: options.need('name') }, options), options);
}

/** The process with the developer times that were given. */
function withOwnTimes(process: ProcessEntry['process'], options: Options): ProcessEntry['process'] {
  const time = options.text('time');
  if (time === undefined) return process;
  const points = options
    .list('points')
    .map((point) => ({ ...readTimePoint(point, 'points'), source: YOURS }));
  return setDeveloperTime(process, { ...readTimePoint(time, 'time'), source: YOURS }, points);
}

/** `30/30/5` or `30/30/5/4`: without rest for so many seconds, then every so often, for so long, turned so often. */
function readAgitation(text: string): Agitation {
  if (text === 'none' || text === 'continuous') return { scheme: text, source: YOURS };
  const groups = /^(?<first>\d+)\/(?<every>\d+)\/(?<for>\d+)(?:\/(?<turns>[1-9]\d*))?$/.exec(
    text.trim(),
  )?.groups;
  if (!groups) {
    throw new UsageError(`--agitation takes none, continuous or 30/30/5/4 (seconds, turns), not “${text}”.`);
  }
  return {
    scheme: 'intermittent',
    firstSeconds: Number(groups['first']),
    everySeconds: Number(groups['every']),
    forSeconds: Number(groups['for']),
    turns: groups['turns'] === undefined ? null : Number(groups['turns']),
    source: YOURS,
  };
}

/** The process with the push table, agitation, capacity, shelf life and added time that were given for its developer. */
function withOwnRules(process: ProcessEntry['process'], options: Options): ProcessEntry['process'] {
  const developer = findDeveloperStep(process);
  const push = options.text('push-table');
  const agitation = options.text('agitation');
  const extension = options.text('extension');
  const capacity = options.number('capacity');
  const shelf = options.number('shelf');
  const facts: BathDefaults = {
    capacityCm2PerLitre:
      capacity === undefined
        ? (developer?.bathFacts?.capacityCm2PerLitre ?? null)
        : { value: capacity * ROLL_AREA_CM2, source: YOURS },
    shelfDays:
      shelf === undefined ? (developer?.bathFacts?.shelfDays ?? null) : { value: shelf, source: YOURS },
    extension: extension === undefined ? (developer?.bathFacts?.extension ?? null) : readExtension(extension),
  };
  const saysOfBath = capacity !== undefined || shelf !== undefined || extension !== undefined;
  const steps = process.steps.map((step) =>
    step.key !== developer?.key
      ? step
      : {
          ...step,
          push: push === undefined ? step.push : readPushTable(push),
          agitation: agitation === undefined ? step.agitation : readAgitation(agitation),
          ...(saysOfBath ? { bathFacts: facts } : {}),
        },
  );
  return { ...process, steps };
}

const PROCESS_ADD: Command = {
  name: 'process add',
  usage: '--from c41-two-bath --name N --time 3:30@38.9',
  summary:
    'copy a process with your own numbers (--points, --push-table, --extension …), or read one from JSON',
  options: {
    from: text,
    name: text,
    time: text,
    points: text,
    'push-table': text,
    agitation: text,
    extension: text,
    capacity: text,
    shelf: text,
    file: text,
    kind: text,
  },
  takes: [0, 0],
  opensArchive: true,
  run: async (invocation) => {
    const { ask, options } = invocation;
    const process = await readNewProcess(invocation);
    const from = options.text('from');
    const kind = options.text('kind');
    const copied = from === undefined ? null : await processByName(ask, from);
    const { id } = await ask('processes.add', {
      process,
      kind: kind === undefined ? (copied?.kind ?? 'other') : readProcess(kind),
      copiedFrom: copied?.key ?? null,
    });
    return { json: { id, name: process.name }, lines: [`Process ${process.name} is added.`] };
  },
};

/** Processes. */
export const PROCESS_COMMANDS: readonly Command[] = [PROCESS_LIST, PROCESS_SHOW, PROCESS_ADD];
