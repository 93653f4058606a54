import type { Given } from '../../../shared/api/contract.ts';
import type { DevelopmentPlan, PlanRefusal } from '../../../shared/api/methods/development-methods.ts';
import { formatTemperature } from '../../../shared/text/format.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { type Answer, type Command, type Invocation, UsageError } from '../command.ts';
import {
  bathByName,
  findTemperature,
  lineForPeople,
  lineForScript,
  readExtension,
  readTimePoint,
  rollsByNumber,
} from '../development-words.ts';
import { tankByName } from './bath-commands.ts';
import { DEVELOP_LOG } from './develop-log.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

const PLAN_OPTIONS = {
  rolls: text,
  process: text,
  temp: text,
  bath: text,
  tank: text,
  push: text,
  'rolls-done': text,
  extension: text,
  time: text,
  'minimum-ml': text,
  sure: flag,
};

async function readRequest({ ask, options }: Invocation): Promise<Given<'developments.plan'>> {
  const numbers = options.list('rolls');
  if (numbers.length === 0) throw new UsageError('--rolls is needed.');
  const bathIds = [];
  for (const name of options.list('bath')) bathIds.push(await bathByName(ask, name));
  const tank = options.text('tank');
  const time = options.text('time');
  const extension = options.text('extension');
  return {
    rollIds: await rollsByNumber(ask, numbers),
    process: options.need('process'),
    developerC: findTemperature(options, 'temp'),
    stops: options.number('push') ?? null,
    bathIds,
    tankId: tank === undefined ? null : await tankByName(ask, tank),
    developerTime: time === undefined ? null : readTimePoint(time, 'time'),
    rollsDone: options.number('rolls-done') ?? null,
    extension: extension === undefined ? null : readExtension(extension),
    minimumMlPerRoll: options.number('minimum-ml') ?? null,
    sure: options.flag('sure'),
  };
}

function refusedAnswer(refused: PlanRefusal): Answer {
  const groups = refused.groups.map((rolls) => rolls.map((roll) => roll.number));
  const advice =
    groups.length > 1
      ? `One after the other they can be done: ${groups.map((rolls) => rolls.join(', ')).join(' | ')}.`
      : '';
  const title = 'No development was planned';
  return {
    notDone: true,
    json: {
      error: { code: refused.code, title, detail: refused.detail, advice },
      refused: { code: refused.code, detail: refused.detail, groups },
      seconds: null,
      lines: [],
      steps: [],
      warnings: [],
    },
    lines: [`${title}.`, refused.detail, ...(advice === '' ? [] : [advice])],
  };
}

function planJson(plan: DevelopmentPlan) {
  const developer = plan.steps.find((step) => step.key === plan.developerKey);
  return {
    process: { key: plan.process.key, name: plan.process.name, kind: plan.kind, chosen: plan.chosen },
    rolls: plan.rolls.map((roll) => roll.number),
    seconds: plan.developerSeconds,
    lines: (developer?.lines ?? []).map(lineForScript),
    totalSeconds: plan.totalSeconds,
    stops: plan.stops,
    areaCm2: plan.areaCm2,
    volumeMl: plan.volumeMl,
    volumeLines: plan.volumeLines.map(lineForScript),
    steps: plan.steps.map((step) => ({
      name: step.name,
      seconds: step.seconds,
      temperatureC: step.temperature?.aimC ?? null,
      lowC: step.temperature?.lowC ?? null,
      highC: step.temperature?.highC ?? null,
      bath: step.uses?.name ?? null,
      sum: step.lines.map(lineForScript),
    })),
    warnings: plan.warnings.map(({ code, text: words }) => ({ code, text: words })),
    refused: null,
  };
}

function temperatureWords({ temperature }: DevelopmentPlan['steps'][number]): string {
  if (temperature === null) return '';
  const { aimC, lowC, highC } = temperature;
  if (aimC !== null) return ` at ${formatTemperature(aimC)}`;
  return lowC === null || highC === null ? '' : ` at ${lowC.toFixed(1)} to ${formatTemperature(highC)}`;
}

function planLines(plan: DevelopmentPlan): string[] {
  return [
    `${plan.process.name}: ${plan.chosen}.`,
    ...plan.steps.flatMap((step) => [
      `  ${step.name}  ${formatDuration(step.seconds)}${temperatureWords(step)}${step.uses ? `  ${step.uses.name}` : ''}`,
      ...step.lines.map(lineForPeople),
    ]),
    ...(plan.volumeMl === null
      ? []
      : [`  ${plan.volumeMl} ml of each bath`, ...plan.volumeLines.map(lineForPeople)]),
    `  In all ${formatDuration(plan.totalSeconds)}`,
    ...plan.warnings.map((warning) => `  Mind: ${warning.text}`),
  ];
}

const DEVELOP_PLAN: Command = {
  name: 'develop plan',
  usage: '--rolls X,Y --process c41 [--temp 36.9] [--bath B]',
  summary: 'work out a development, every line of the sum; nothing is written',
  options: PLAN_OPTIONS,
  takes: [0, 0],
  opensArchive: true,
  run: async (invocation) => {
    const { plan, refused } = await invocation.ask('developments.plan', await readRequest(invocation));
    if (plan === null) {
      if (refused === null) throw new Error('Neither a plan nor a refusal came.');
      return refusedAnswer(refused);
    }
    return { json: planJson(plan), lines: planLines(plan) };
  },
};

const DEVELOP_START: Command = {
  name: 'develop start',
  usage: '--rolls X,Y --process c41 …',
  summary: 'plan, and open a run that waits for the first pour',
  options: PLAN_OPTIONS,
  takes: [0, 0],
  opensArchive: true,
  run: async (invocation) => {
    const { id } = await invocation.ask('developments.start', await readRequest(invocation));
    const { plan } = await invocation.ask('developments.get', { id });
    return {
      json: { id, ...(plan === null ? {} : planJson(plan)) },
      lines: [`Development ${id} waits for the first pour.`, ...(plan === null ? [] : planLines(plan))],
    };
  },
};

const DEVELOP_LIST: Command = {
  name: 'develop list',
  usage: '',
  summary: 'list developments, those under way first',
  options: {},
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask }) => {
    const developments = await ask('developments.list', {});
    return {
      json: { developments },
      lines: developments.map((each) =>
        [
          each.id,
          each.date?.edtf ?? '',
          each.processName ?? each.process,
          each.state,
          each.rolls.map((roll) => roll.number).join(', '),
          each.doubts.length > 0 ? 'to be doubted' : '',
        ].join('\t'),
      ),
    };
  },
};

const DEVELOP_SHOW: Command = {
  name: 'develop show',
  usage: 'ID',
  summary: 'a development: planned and actual, readings, corrections',
  options: {},
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, positionals }) => {
    const id = Number(positionals[0]);
    if (!Number.isInteger(id) || id < 1)
      throw new UsageError('develop show takes the number of a development.');
    const development = await ask('developments.get', { id });
    const run = development.plan === null ? null : await ask('developments.runState', { id });
    return {
      json: { ...development, run },
      lines: [
        `Development ${id}, ${development.state}: ${development.rolls.map((roll) => roll.number).join(', ')}`,
        ...(run !== null && run.stepName !== null && run.elapsedSeconds !== null
          ? [`  Now: ${run.stepName}, ${formatDuration(run.elapsedSeconds)}`]
          : []),
        ...development.steps.map((step) => {
          const time = (seconds: number | null) => (seconds === null ? '–' : formatDuration(seconds));
          const measured = step.actualC === null ? '' : `  ${formatTemperature(step.actualC)}`;
          return `  ${step.name}  planned ${time(step.plannedSeconds)}  actual ${time(step.actualSeconds)}${measured}`;
        }),
        ...development.doubts.map((doubt) => `  To be doubted: “${doubt.bath.name}” had ended before.`),
        ...development.corrections.map(
          (each) =>
            `  Corrected ${each.madeAt.slice(0, 10)}: ${each.column}, ${each.before ?? '–'} to ${each.after ?? '–'}`,
        ),
      ],
    };
  },
};

/** Planning, running and reading developments. */
export const DEVELOP_COMMANDS: readonly Command[] = [
  DEVELOP_PLAN,
  DEVELOP_START,
  DEVELOP_LOG,
  DEVELOP_LIST,
  DEVELOP_SHOW,
];
