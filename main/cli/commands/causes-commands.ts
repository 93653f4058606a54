import type { Command } from '../command.ts';
import { UsageError } from '../command.ts';
import { cameraByName, stockByName } from '../names.ts';
import { storagePlace } from '../../../shared/api/methods/batch-methods.ts';

const text = { type: 'string' } as const;

function readPer(word: string): 'roll' | 'development' {
  if (word === 'roll' || word === 'development') return word;
  throw new UsageError(`--per takes roll or development, not “${word}”.`);
}

/** What varied and can be told from the like; the rest is only counted on the command line. */
const CAUSES: Command = {
  name: 'causes',
  usage: '[--fault leak] [--stock N] [--per development]',
  summary: 'what casts, fog and faults go together with',
  options: { fault: text, stock: text, per: text },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const stock = options.text('stock');
    const fault = options.text('fault') ?? null;
    const causes = await ask('colour.causes', {
      fault,
      stockId: stock === undefined ? null : await stockByName(ask, stock),
      per: readPer(options.text('per') ?? 'roll'),
    });
    const answered = [...causes.trends, ...causes.groups].filter(({ chance }) => chance !== null);
    const open = causes.trends.length + causes.groups.length - answered.length;
    const far = [...new Set(answered.flatMap(({ outliers }) => outliers.map(({ name }) => name)))];
    const casts =
      fault !== null
        ? []
        : [
            ...answered.map(({ say }) => say),
            ...(far.length === 0 ? [] : [`Far from the others: ${far.join(', ')}.`]),
            ...(open === 0
              ? []
              : [`${open} more questions about casts and fog: not enough that is both measured and logged.`]),
          ];
    const faults =
      causes.faults.length === 0
        ? ['Faults: nothing to compare. None is noted, or the log tells the rolls apart by nothing.']
        : causes.faults.map(({ say }) => say);
    return { json: causes, lines: [...casts, ...faults] };
  },
};

const CAMERA_REPAIR: Command = {
  name: 'camera repair',
  usage: 'NAME --date D --what "seals replaced"',
  summary: 'note a repair of a camera; faults are then counted before and after it',
  options: { date: text, what: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const name = positionals[0] ?? '';
    const cameraId = await cameraByName(ask, name);
    const what = options.need('what');
    const done = options.need('date');
    const { id } = await ask('cameras.noteRepair', { cameraId, done, what });
    return { json: { id, camera: name, done, what }, lines: [`Noted for camera ${name}: ${what}, ${done}.`] };
  },
};

/** Places with the day since when, such as `freezer:2005,room:2023-06`. */
function readStorage(
  parts: readonly string[],
): { place: 'room' | 'fridge' | 'freezer'; since: string | null }[] {
  return parts.map((part) => {
    const [word = '', ...since] = part.split(':');
    const place = storagePlace.safeParse(word.trim());
    if (!place.success)
      throw new UsageError(
        `--storage takes ${storagePlace.options.join(', ')}, each with :DATE or without, not “${part}”.`,
      );
    return { place: place.data, since: since.join(':').trim() || null };
  });
}

const BATCH_ADD: Command = {
  name: 'batch add',
  usage: '--stock N --format 135 [--expires 2006-02] [--storage freezer:2005,room:2023-06] [--rolls X,Y]',
  summary: 'add a batch of stock with its expiry and where it was kept; rolls of it may be named',
  options: {
    stock: text,
    format: text,
    expires: text,
    storage: text,
    emulsion: text,
    rolls: text,
    note: text,
  },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const stock = options.need('stock');
    const storage = readStorage(options.list('storage'));
    const numbers = options.list('rolls');
    const rolls = await Promise.all(numbers.map((number) => ask('rolls.byNumber', { number })));
    const { id } = await ask('batches.add', {
      stockId: await stockByName(ask, stock),
      filmFormat: options.need('format'),
      emulsionNumber: options.text('emulsion') ?? null,
      expires: options.text('expires') ?? null,
      note: options.text('note') ?? null,
      storage,
    });
    for (const roll of rolls) await ask('rolls.change', { id: roll.id, change: { batchId: id } });
    return { json: { id, stock, rolls: numbers }, lines: [`A batch of ${stock} is added.`] };
  },
};

export const CAUSES_COMMANDS: readonly Command[] = [CAUSES, CAMERA_REPAIR, BATCH_ADD];
