import type { Command } from '../command.ts';
import { UsageError } from '../command.ts';

const text = { type: 'string' } as const;

function readCut(numbers: readonly string[]): number[] | null {
  if (numbers.length === 0) return null;
  const cut = numbers.map(Number);
  if (cut.every((length) => Number.isInteger(length) && length > 0)) return cut;
  throw new UsageError(`--cut takes strip lengths such as 6,6,6,6,6,6,2, not “${numbers.join(',')}”.`);
}

const FILE: Command = {
  name: 'file',
  usage: '--roll X --binder B --layout 35mm-6x6 [--page 3]',
  summary: 'cut a roll into strips and file them in a page',
  options: {
    roll: text,
    binder: text,
    page: text,
    layout: text,
    cut: text,
    'more-pages': { type: 'boolean' },
    'dry-run': { type: 'boolean' },
  },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const roll = await ask('rolls.byNumber', { number: options.need('roll') });
    const choice = {
      rollId: roll.id,
      binder: options.need('binder'),
      page: options.number('page') ?? null,
      layoutId: options.need('layout'),
      cut: readCut(options.list('cut')),
      morePages: options.flag('more-pages'),
    };
    const filed = await ask(options.flag('dry-run') ? 'filing.propose' : 'filing.file', choice);
    const placements = filed.placements.map(({ frameId: _id, ...placement }) => placement);
    const lines = [
      ...filed.explanation,
      ...(filed.leftover.length > 0 ? [`Left over: ${filed.leftover.join(', ')}`] : []),
    ];
    return { json: { placements, leftover: filed.leftover, explanation: filed.explanation }, lines };
  },
};

const LAYOUTS: Command = {
  name: 'layouts',
  usage: '',
  summary: 'list the page layouts',
  options: {},
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask }) => {
    const layouts = await ask('layouts.list', {});
    return { json: { layouts }, lines: layouts.map((layout) => `${layout.id.padEnd(14)} ${layout.name}`) };
  },
};

export const FILING_COMMANDS: readonly Command[] = [FILE, LAYOUTS];
