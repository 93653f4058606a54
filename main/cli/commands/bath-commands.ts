import type { Given } from '../../../shared/api/contract.ts';
import { appError } from '../../../shared/api/errors.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { formatDuration } from '../../../shared/units/duration.ts';
import { type Ask, type Command, type Invocation, type Options, UsageError } from '../command.ts';
import {
  bathByName,
  findInstant,
  lineForPeople,
  lineForScript,
  readBathKind,
  readExtension,
  readTime,
  rollsByNumber,
} from '../development-words.ts';
import { stockByName } from '../names.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

const MIX_OPTIONS = {
  name: text,
  kind: text,
  process: text,
  volume: text,
  mixed: text,
  capacity: text,
  shelf: text,
  extension: text,
  dilution: text,
  'used-before': text,
  'one-shot': flag,
  note: text,
};

/** A number option that may be left to the program, or said to be unknown. @throws {UsageError} */
function readOrNone(options: Options, name: string): number | null | undefined {
  return options.text(name) === 'none' ? null : options.number(name);
}

/** What is offered for a bath; nothing when no process was named. */
async function offerFor(
  ask: Ask,
  kind: ReturnType<typeof readBathKind>,
  process: string | null,
  volumeMl: number | null,
) {
  if (process === null) return { capacityCm2: null, shelfDays: null, extension: null };
  // A volume that is none is told of by the bath itself.
  const real = volumeMl !== null && volumeMl > 0 ? volumeMl : null;
  return ask('baths.offer', { kind, process, volumeMl: real });
}

async function mix({ ask, options, positionals }: Invocation) {
  const name = positionals[0] ?? options.need('name');
  const kind = readBathKind(options.need('kind'));
  const process = options.text('process') ?? null;
  const volumeMl = options.number('volume') ?? null;
  const offered = await offerFor(ask, kind, process, volumeMl);
  const capacity = readOrNone(options, 'capacity');
  const shelf = readOrNone(options, 'shelf');
  const extension = options.text('extension');
  const bath: Given<'baths.add'> = {
    name,
    kind,
    process,
    volumeMl,
    mixed: options.text('mixed') ?? null,
    capacityCm2:
      capacity === undefined
        ? (offered.capacityCm2?.value ?? null)
        : capacity === null
          ? null
          : capacity * ROLL_AREA_CM2,
    shelfDays: shelf === undefined ? (offered.shelfDays?.value ?? null) : shelf,
    extension: extension === undefined ? offered.extension : readExtension(extension),
    dilution: options.text('dilution') ?? null,
    usedBeforeCm2: (options.number('used-before') ?? 0) * ROLL_AREA_CM2,
    oneShot: options.flag('one-shot'),
    note: options.text('note') ?? null,
  };
  const { id } = await ask('baths.add', bath);
  const taken = [
    capacity === undefined && offered.capacityCm2
      ? `Capacity, ${offered.capacityCm2.source.kind}: ${offered.capacityCm2.source.text}.`
      : '',
    shelf === undefined && offered.shelfDays
      ? `Shelf life, ${offered.shelfDays.source.kind}: ${offered.shelfDays.source.text}.`
      : '',
    extension === undefined && offered.extension
      ? `Added time, ${offered.extension.source.kind}: ${offered.extension.source.text}.`
      : '',
  ].filter(Boolean);
  return { json: { id, name, offered: taken }, lines: [`${name} is mixed.`, ...taken] };
}

const MIX_BATH = {
  usage: 'NAME --kind developer --process c41 --volume 1000',
  options: MIX_OPTIONS,
  takes: [0, 1],
  opensArchive: true,
  run: mix,
} as const;

const BATH_LIST: Command = {
  name: 'bath list',
  usage: '',
  summary: 'list baths with what is left of them',
  options: {},
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask }) => {
    const baths = await ask('baths.list', {});
    return { json: { baths }, lines: baths.map((bath) => `${bath.name}\t${bath.kind}\t${bath.words}`) };
  },
};

const BATH_SHOW: Command = {
  name: 'bath show',
  usage: 'NAME',
  summary: 'what a bath has done and what is left',
  options: {},
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, positionals }) => {
    const id = await bathByName(ask, positionals[0] ?? '');
    const { bath, lines, uses, tests, clearing, rollsSinceGood } = await ask('baths.get', { id });
    return {
      json: {
        areaDone: bath.areaDoneCm2,
        areaLeft: bath.areaLeftCm2,
        rollsDone: bath.rollsDone,
        rollsLeft: bath.rollsLeft,
        days: bath.days,
        nextSeconds: bath.nextSeconds,
        state: bath.words,
        condition: bath.condition,
        lines: lines.map(lineForScript),
        uses,
        tests,
        clearing: clearing.map((each) => ({ ...each, lines: each.lines.map(lineForScript) })),
        rollsSinceGood: rollsSinceGood.map((roll) => roll.number),
      },
      lines: [
        `${bath.name}: ${bath.words}`,
        ...lines.map(lineForPeople),
        ...uses.map(
          (use) =>
            `  ${use.usedAt.slice(0, 10)}  ${(use.weightedAreaCm2 / ROLL_AREA_CM2).toFixed(2)} rolls  ${use.note ?? ''}${use.afterEnd ? '  after it had ended' : ''}`,
        ),
        ...clearing.map(
          (each) =>
            `  Cleared ${each.stock?.name ?? 'film'} in ${formatDuration(each.seconds)}, fresh ${formatDuration(each.freshSeconds)}: ${each.spent ? 'spent' : 'good'}.`,
        ),
        ...(rollsSinceGood.length > 0
          ? [`  Fixed since it was last found good: ${rollsSinceGood.map((roll) => roll.number).join(', ')}`]
          : []),
      ],
    };
  },
};

const BATH_USE: Command = {
  name: 'bath use',
  usage: 'NAME --rolls X,Y | --units 1.5',
  summary: 'note film that went through a bath',
  options: { rolls: text, units: text, at: text, note: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const name = positionals[0] ?? '';
    const id = await bathByName(ask, name);
    await ask('baths.use', {
      id,
      rollIds: await rollsByNumber(ask, options.list('rolls')),
      areaCm2: (options.number('units') ?? 0) * ROLL_AREA_CM2,
      at: findInstant(options, 'at'),
      note: options.text('note') ?? null,
    });
    const { bath } = await ask('baths.get', { id });
    return {
      json: {
        areaDone: bath.areaDoneCm2,
        areaLeft: bath.areaLeftCm2,
        rollsLeft: bath.rollsLeft,
        state: bath.words,
      },
      lines: [`${name}: ${bath.words}`],
    };
  },
};

function ending(name: 'discard' | 'spoil', summary: string): Command {
  return {
    name: `bath ${name}`,
    usage: 'NAME [--at D] [--reason T]',
    summary,
    options: { at: text, reason: text },
    takes: [1, 1],
    opensArchive: true,
    run: async ({ ask, options, positionals }) => {
      const id = await bathByName(ask, positionals[0] ?? '');
      await ask(`baths.${name}`, {
        id,
        at: findInstant(options, 'at'),
        reason: options.text('reason') ?? null,
      });
      const { bath } = await ask('baths.get', { id });
      const flagged = (await ask('developments.list', {})).filter(({ doubts }) =>
        doubts.some((doubt) => doubt.bath.id === id),
      );
      return {
        json: {
          name: bath.name,
          state: bath.words,
          condition: bath.condition,
          developments: flagged.map((each) => each.id),
        },
        lines: [
          `${bath.name}: ${bath.words}`,
          ...flagged.map(
            (each) => `  To be doubted: rolls ${each.rolls.map((roll) => roll.number).join(', ')}`,
          ),
        ],
      };
    },
  };
}

const BATH_TEST: Command = {
  name: 'bath test',
  usage: 'NAME --seconds 0:45 [--fresh] [--stock N]',
  summary: 'note how long a scrap of film took to clear',
  options: { seconds: text, fresh: flag, stock: text, at: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const id = await bathByName(ask, positionals[0] ?? '');
    const stock = options.text('stock');
    await ask('baths.test', {
      id,
      stockId: stock === undefined ? null : await stockByName(ask, stock),
      seconds: readTime(options.need('seconds'), 'seconds'),
      fresh: options.flag('fresh'),
      at: findInstant(options, 'at'),
    });
    const { clearing, rollsSinceGood } = await ask('baths.get', { id });
    const judged = clearing.find((each) => (each.stock?.name ?? undefined) === stock) ?? null;
    const rolls = rollsSinceGood.map((roll) => roll.number);
    return {
      json: {
        spent: judged?.spent ?? null,
        ratio: judged?.ratio ?? null,
        fixSeconds: judged?.fixSeconds ?? null,
        rollsSinceGood: rolls,
      },
      lines:
        judged === null
          ? ['The test is noted.']
          : [
              judged.spent ? 'The fixer is spent.' : 'The fixer is good.',
              ...judged.lines.map(lineForPeople),
              ...(judged.spent && rolls.length > 0
                ? [`  Fixed since the last good test: ${rolls.join(', ')}`]
                : []),
            ],
    };
  },
};

const TANK_ADD: Command = {
  name: 'tank add',
  usage: 'NAME --reels 2 [--ml-135 290] [--ml-120 500]',
  summary: 'add a tank with what it takes',
  options: { reels: text, 'ml-135': text, 'ml-120': text, volume: text, kind: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const name = positionals[0] ?? '';
    const kind = (['inversion', 'rotary', 'tray', 'other'] as const).find(
      (each) => each === (options.text('kind') ?? 'inversion'),
    );
    if (kind === undefined) throw new UsageError('--kind takes inversion, rotary, tray or other.');
    const { id } = await ask('tanks.add', {
      name,
      kind,
      reels: options.number('reels') ?? null,
      mlPer135: options.number('ml-135') ?? null,
      mlPer120: options.number('ml-120') ?? null,
      volumeMl: options.number('volume') ?? null,
    });
    return { json: { id, name }, lines: [`Tank ${name} is added.`] };
  },
};

const TANK_LIST: Command = {
  name: 'tank list',
  usage: '',
  summary: 'list tanks',
  options: {},
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask }) => {
    const tanks = await ask('tanks.list', {});
    return { json: { tanks }, lines: tanks.map((tank) => `${tank.name}\t${tank.reels ?? '?'} reels`) };
  },
};

/** The id of a tank by name. @throws {AppError} tank_not_found */
export async function tankByName(ask: Ask, name: string): Promise<number> {
  const found = (await ask('tanks.list', {})).find((tank) => tank.name === name);
  if (!found) throw appError('tank_not_found', { name });
  return found.id;
}

/** Baths and tanks. */
export const BATH_COMMANDS: readonly Command[] = [
  { ...MIX_BATH, name: 'bath add', summary: 'note a bath that was mixed' },
  { ...MIX_BATH, name: 'bath mix', summary: 'the same as bath add' },
  BATH_LIST,
  BATH_SHOW,
  BATH_USE,
  ending('discard', 'a bath is poured away'),
  ending('spoil', 'a bath is spoilt from a moment on; flags what it developed since'),
  BATH_TEST,
  TANK_ADD,
  TANK_LIST,
];
