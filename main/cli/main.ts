import { parseArgs, type ParseArgsConfig } from 'node:util';
import type { Given, MethodName, Output } from '../../shared/api/contract.ts';
import { CONTRACT } from '../../shared/api/contract.ts';
import { isAppError } from '../../shared/api/errors.ts';
import { describeError } from '../../shared/text/describe-error.ts';
import { createEngine, type Engine } from '../engine/engine.ts';
import { type Ask, type Command, type Invocation, type Options, UsageError } from './command.ts';
import { COMMANDS } from './commands/commands.ts';

const EXIT = { done: 0, expected: 1, usage: 2, bug: 70 } as const;

const COMMON: NonNullable<ParseArgsConfig['options']> = {
  archive: { type: 'string' },
  json: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
};

function usage(): string {
  const lines = COMMANDS.map(
    (command) => `  ${`${command.name} ${command.usage}`.padEnd(34)} ${command.summary}`,
  );
  return [
    'edgeprint <command> [--archive DIR] [--json]',
    '',
    ...lines,
    '',
    'Exit codes: 0 done, 1 not done (said why), 2 wrong usage.',
  ].join('\n');
}

function findCommand(words: readonly string[]): { command: Command; rest: string[] } {
  for (const size of [2, 1]) {
    const command = COMMANDS.find((known) => known.name === words.slice(0, size).join(' '));
    if (command) return { command, rest: words.slice(size) };
  }
  throw new UsageError(words[0] ? `There is no command “${words[0]}”.` : 'Which command?');
}

function readOptions(values: Readonly<Record<string, unknown>>): Options {
  const text = (name: string) => {
    const value = values[name];
    return typeof value === 'string' ? value : undefined;
  };
  return {
    text,
    need: (name) => {
      const value = text(name);
      if (value === undefined) throw new UsageError(`--${name} is needed.`);
      return value;
    },
    list: (name) =>
      (text(name) ?? '')
        .split(',')
        .map((part) => part.trim())
        .filter(Boolean),
    number: (name) => {
      const value = text(name);
      if (value === undefined) return undefined;
      const number = Number(value);
      if (value.trim() === '' || !Number.isFinite(number))
        throw new UsageError(`--${name} takes a number, not “${value}”.`);
      return number;
    },
    flag: (name) => values[name] === true,
  };
}

function askOf(engine: Engine, signal: AbortSignal): Ask {
  return async <Name extends MethodName>(name: Name, input: Given<Name>): Promise<Output<Name>> => {
    const output: unknown = await engine.call(name, input, { signal });
    return CONTRACT[name].output.parse(output) as Output<Name>;
  };
}

function parseCommandLine(words: readonly string[]) {
  const { command, rest } = findCommand(words);
  try {
    const { values, positionals } = parseArgs({
      args: rest,
      options: { ...COMMON, ...command.options },
      allowPositionals: true,
      strict: true,
    });
    if (values['help'] !== true) checkPositionals(command, positionals);
    return { command, values, positionals };
  } catch (error) {
    if (error instanceof UsageError || !(error instanceof TypeError)) throw error;
    throw new UsageError(error.message);
  }
}

function checkPositionals(command: Command, positionals: readonly string[]): void {
  const [least, most] = command.takes;
  if (positionals.length >= least && positionals.length <= most) return;
  throw new UsageError(`Usage: edgeprint ${command.name} ${command.usage}`);
}

async function run(words: readonly string[]): Promise<number> {
  const json = words.includes('--json');
  if (words.length === 0 || words[0] === 'help' || words[0] === '--help') {
    process.stdout.write(`${usage()}\n`);
    return EXIT.done;
  }
  const stop = new AbortController();
  process.once('SIGINT', () => stop.abort());
  const engine = createEngine();
  try {
    const { command, values, positionals } = parseCommandLine(words);
    if (values['help'] === true) {
      process.stdout.write(`edgeprint ${command.name} ${command.usage}\n  ${command.summary}\n`);
      return EXIT.done;
    }
    const options = readOptions(values);
    const ask = askOf(engine, stop.signal);
    const invocation: Invocation = {
      engine,
      ask,
      options,
      positionals,
      archive: () => options.need('archive'),
      waitForJob: async (id) => {
        await engine.jobReport(id);
      },
      tell: (line) => {
        if (process.stderr.isTTY) process.stderr.write(`\r${line.padEnd(78)}`);
      },
    };
    stop.signal.addEventListener('abort', () => void engine.close());
    const unfollow = followJobs(engine, invocation);
    if (command.opensArchive) await ask('archive.open', { folder: invocation.archive() });
    const answer = await command.run(invocation);
    unfollow();
    const out = json || answer.notDone !== true ? process.stdout : process.stderr;
    out.write(json ? `${JSON.stringify(answer.json, null, 2)}\n` : `${answer.lines.join('\n')}\n`);
    return answer.notDone === true ? EXIT.expected : EXIT.done;
  } catch (error) {
    return failed(error, json);
  } finally {
    await engine.close();
  }
}

function followJobs(engine: Engine, invocation: Invocation): () => void {
  return engine.onEvent((event) => {
    if (event.type !== 'job') return;
    const { title, done, total, state } = event.job;
    invocation.tell(state === 'running' ? `${title}: ${done}${total === null ? '' : ` of ${total}`}` : '');
  });
}

function failed(error: unknown, json: boolean): number {
  const wrongUsage = error instanceof UsageError;
  const code = wrongUsage ? 'usage' : isAppError(error) ? error.code : 'internal';
  const words = wrongUsage
    ? {
        title: 'The command was not understood',
        detail: error.message,
        advice: 'edgeprint help lists the commands.',
      }
    : describeError(error);
  if (json) process.stdout.write(`${JSON.stringify({ error: { code, ...words } }, null, 2)}\n`);
  else process.stderr.write(`${words.title}.\n${words.detail}\n${words.advice}\n`);
  if (code === 'internal') process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`);
  return wrongUsage ? EXIT.usage : code === 'internal' ? EXIT.bug : EXIT.expected;
}

process.exitCode = await run(process.argv.slice(2));
