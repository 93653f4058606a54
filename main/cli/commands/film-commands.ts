import { appError } from '../../../shared/api/errors.ts';
import { parseFrameLabels } from '../../../shared/domain/frame/frame-range.ts';
import { describeReason } from '../../../shared/text/describe-reason.ts';
import { parseDuration } from '../../../shared/units/duration.ts';
import { type Command, type Options, UsageError } from '../command.ts';
import { cameraByName, readAddress, readProcess, stockByName } from '../names.ts';

const text = { type: 'string' } as const;

/** The labels of a range such as `1-12` or `00,0,1-36`. @throws {AppError} value_not_valid */
function readLabels(range: string): string[] {
  const read = parseFrameLabels(range);
  if (!read.ok)
    throw appError('value_not_valid', { field: 'frames', value: range, reason: describeReason(read.reason) });
  return read.value.map((label) => label.text);
}

function readBase(options: Options): 'acetate' | 'polyester' | null {
  const base = options.text('base') ?? null;
  if (base === null || base === 'acetate' || base === 'polyester') return base;
  throw new UsageError(`--base takes acetate or polyester, not “${base}”.`);
}

/** A time on the command line, in seconds. @throws {UsageError} */
function readSeconds(options: Options, name: string): number | null {
  const value = options.text(name);
  if (value === undefined) return null;
  const read = parseDuration(value);
  if (read === null) throw new UsageError(`--${name} takes a time such as 3:15, not “${value}”.`);
  return read;
}

const STOCK_ADD: Command = {
  name: 'stock add',
  usage: '--name N --iso 200 --process c41',
  summary: 'add a film that you use',
  options: { name: text, iso: text, process: text, base: text, maker: text, formats: text, note: text },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const name = options.need('name');
    const { id } = await ask('stocks.add', {
      name,
      iso: options.number('iso') ?? null,
      process: readProcess(options.need('process')),
      base: readBase(options),
      maker: options.text('maker') ?? null,
      formats: options.list('formats'),
      note: options.text('note') ?? null,
    });
    return { json: { id, name }, lines: [`Stock ${name} is added.`] };
  },
};

const CAMERA_ADD: Command = {
  name: 'camera add',
  usage: '--name N --format 135 --frame-format 24x36',
  summary: 'add a camera',
  options: { name: text, format: text, 'frame-format': text, note: text },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const name = options.need('name');
    const { id } = await ask('cameras.add', {
      name,
      filmFormat: options.text('format') ?? null,
      frameFormat: options.text('frame-format') ?? null,
      note: options.text('note') ?? null,
    });
    return { json: { id, name }, lines: [`Camera ${name} is added.`] };
  },
};

const ROLL_ADD: Command = {
  name: 'roll add',
  usage: '--stock N --format 135 --frame-format 24x36',
  summary: 'add a roll; answers its number',
  options: {
    number: text,
    stock: text,
    format: text,
    'frame-format': text,
    camera: text,
    ei: text,
    expires: text,
    exposures: text,
    title: text,
    note: text,
  },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const number = options.text('number');
    const camera = options.text('camera');
    const stock = options.text('stock');
    const roll = await ask('rolls.add', {
      ...(number === undefined ? {} : { number }),
      stockId: stock === undefined ? null : await stockByName(ask, stock),
      cameraId: camera === undefined ? null : await cameraByName(ask, camera),
      filmFormat: options.need('format'),
      frameFormat: options.need('frame-format'),
      exposures: options.number('exposures') ?? null,
      exposureIndex: options.number('ei') ?? null,
      expires: options.text('expires') ?? null,
      title: options.text('title') ?? null,
      note: options.text('note') ?? null,
    });
    return { json: { number: roll.number, id: roll.id }, lines: [roll.number] };
  },
};

const ROLL_LIST: Command = {
  name: 'roll list',
  usage: '[WORDS]',
  summary: 'list rolls in natural order',
  options: {},
  takes: [0, 100],
  opensArchive: true,
  run: async ({ ask, positionals }) => {
    const filter = { words: positionals.join(' ') };
    const { ids } = await ask('rolls.order', { sort: 'number', descending: false, filter });
    const rows = [];
    for (let at = 0; at < ids.length; at += 500)
      rows.push(...(await ask('rolls.rows', { ids: ids.slice(at, at + 500) })));
    const lines = rows.map((roll) =>
      [roll.number, roll.title ?? '', roll.stock?.name ?? '', roll.state, `${roll.frames} frames`].join('\t'),
    );
    return { json: { rolls: rows }, lines };
  },
};

const FRAME_NOTE: Command = {
  name: 'frame note',
  usage: 'ROLL --frames 1-12 [--caption T] …',
  summary: 'note caption, place, date, tags, lens, exposure of frames',
  options: {
    frames: text,
    caption: text,
    place: text,
    date: text,
    tags: text,
    lens: text,
    shutter: text,
    aperture: text,
    filter: text,
    note: text,
  },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const { rollId, roll, frame } = await readAddress(ask, positionals[0] ?? '');
    const labels = frame === null ? readLabels(options.need('frames')) : readLabels(frame);
    await ask('frames.add', { rollId, labels });
    const ids = (await ask('frames.ofRoll', { rollId }))
      .filter((each) => labels.includes(each.label))
      .map((each) => each.id);
    const aperture = options.number('aperture');
    const given = (name: string) => options.text(name) ?? undefined;
    await ask('frames.change', {
      ids,
      change: {
        caption: given('caption'),
        place: given('place'),
        taken: given('date'),
        lens: given('lens'),
        shutter: given('shutter'),
        aperture,
        filter: given('filter'),
        note: given('note'),
        addTags: options.list('tags'),
      },
    });
    return { json: { roll, frames: labels }, lines: [`${labels.length} frames of ${roll} are noted.`] };
  },
};

const OUTING_ADD: Command = {
  name: 'outing add',
  usage: '--title T --date D --roll X [--frames 1-12]',
  summary: 'note an outing and the frames made on it',
  options: { title: text, date: text, place: text, roll: text, frames: text, note: text },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const title = options.need('title');
    const numbers = options.list('roll');
    const frames = options.text('frames');
    const labels = frames === undefined ? null : readLabels(frames);
    const rolls = await Promise.all(numbers.map((number) => ask('rolls.byNumber', { number })));
    const { id } = await ask('outings.add', {
      title,
      date: options.text('date') ?? null,
      place: options.text('place') ?? null,
      note: options.text('note') ?? null,
      rolls: rolls.map((roll) => ({ rollId: roll.id, labels })),
    });
    return { json: { id, title, rolls: numbers }, lines: [`Outing ${title} is noted.`] };
  },
};

const DEVELOP_ADD: Command = {
  name: 'develop add',
  usage: '--rolls X,Y --process c41 --date D',
  summary: 'record a development that was done',
  options: {
    rolls: text,
    process: text,
    date: text,
    'developer-temp': text,
    'developer-time': text,
    push: text,
    note: text,
  },
  takes: [0, 0],
  opensArchive: true,
  run: async ({ ask, options }) => {
    const numbers = options.list('rolls');
    if (numbers.length === 0) throw new UsageError('--rolls is needed.');
    const rolls = await Promise.all(numbers.map((number) => ask('rolls.byNumber', { number })));
    const { id } = await ask('developments.record', {
      rollIds: rolls.map((roll) => roll.id),
      process: readProcess(options.need('process')),
      date: options.need('date'),
      pushStops: options.number('push') ?? 0,
      developerTempC: options.number('developer-temp') ?? null,
      developerSeconds: readSeconds(options, 'developer-time'),
      note: options.text('note') ?? null,
    });
    return { json: { id, rolls: numbers }, lines: [`Development of ${numbers.join(', ')} is recorded.`] };
  },
};

export const FILM_COMMANDS: readonly Command[] = [
  STOCK_ADD,
  CAMERA_ADD,
  ROLL_ADD,
  ROLL_LIST,
  FRAME_NOTE,
  OUTING_ADD,
  DEVELOP_ADD,
];
