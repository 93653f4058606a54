import { appError } from '../../../shared/api/errors.ts';
import type { Output } from '../../../shared/api/contract.ts';
import { type Ask, type Command, type Options, UsageError } from '../command.ts';
import { readAddress } from '../names.ts';

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;

type Adjust = NonNullable<Output<'looks.ofFrame'>['roll']>;

const UNADJUSTED: Adjust = { brightnessStops: 0, contrast: 1, grey: [1, 1, 1] };

function readBits(options: Options): 8 | 16 {
  const bits = options.number('bits') ?? 8;
  if (bits === 8 || bits === 16) return bits;
  throw new UsageError(`--bits takes 8 or 16, not ${bits}.`);
}

function readFormat(options: Options): 'png' | 'tiff' | 'jpeg' {
  const format = options.text('format') ?? 'png';
  if (format === 'png' || format === 'tiff' || format === 'jpeg') return format;
  throw new UsageError(`--format takes png, tiff or jpeg, not “${format}”.`);
}

/** A frame by its roll and label, or by its address. @throws {AppError} roll_not_found, frame_not_found */
async function frameFor(ask: Ask, roll: string, label: string | undefined): Promise<number> {
  const address = label === undefined ? await readAddress(ask, roll) : { roll, frame: label };
  if (address.frame === null) throw new UsageError('Which frame? Give ROLL/FRAME, or --frame.');
  return (await ask('frames.byLabel', { roll: address.roll, label: address.frame })).id;
}

const POSITIVE: Command = {
  name: 'positive',
  usage: 'SCAN --out F.png|.tif|.jpg | --roll N [--frame 12A --out F.png | --out-folder DIR]',
  summary: 'write scans as positive pictures with every pixel they have',
  options: {
    roll: text,
    frame: text,
    out: text,
    'out-folder': text,
    format: text,
    bits: text,
    size: text,
    overwrite: flag,
  },
  takes: [0, 1],
  opensArchive: true,
  run: async (invocation) => {
    const { ask, options, positionals } = invocation;
    const roll = options.text('roll');
    if (options.text('out-folder') !== undefined) return exportRoll(invocation);
    const file = positionals[0] ?? null;
    if (file === null && roll === undefined)
      throw new UsageError('A scan is needed, or --roll with --frame.');
    const label = options.text('frame');
    const written = await ask('positives.write', {
      file,
      frameId: file === null && roll !== undefined ? await frameFor(ask, roll, label) : null,
      out: options.need('out'),
      bits: readBits(options),
      longSide: options.number('size') ?? null,
      overwrite: options.flag('overwrite'),
    });
    const size = `${written.width} × ${written.height} px, ${written.bits} bits`;
    return {
      json: written,
      lines: [`${written.out}: read as ${written.polarity}, ${written.colour}; ${size}.`],
    };
  },
};

const exportRoll: Command['run'] = async ({ engine, ask, options }) => {
  const { id: rollId, number } = await ask('rolls.byNumber', { number: options.need('roll') });
  const frames = await ask('frames.ofRoll', { rollId });
  if (frames.length === 0) throw appError('sheet_empty', { name: number });
  const job = await ask('positives.export', {
    frameIds: frames.map(({ id }) => id),
    folder: options.need('out-folder'),
    format: readFormat(options),
    bits: readBits(options),
    longSide: options.number('size') ?? null,
    overwrite: options.flag('overwrite'),
  });
  await engine.jobReport(job.id);
  const ended = (await ask('jobs.list', {})).find(({ id }) => id === job.id);
  const failed = ended?.failed ?? 0;
  const written = (ended?.done ?? 0) - failed;
  const json = { folder: options.need('out-folder'), written, failed };
  const lines = [
    `${written} pictures of ${number} are written to ${json.folder}.`,
    ...(failed > 0 ? [`${failed} were not: a file of that name is there, or the scan cannot be read.`] : []),
  ];
  return failed > 0 ? { json, lines, notDone: true } : { json, lines };
};

const LOOK_OPTIONS = { brightness: text, contrast: text, grey: text, reset: flag } as const;

/** What was there, with what is given on the command line. */
async function changeLook(
  ask: Ask,
  options: Options,
  was: Adjust | null,
  frameId: number | null,
): Promise<Adjust> {
  const before = options.flag('reset') ? UNADJUSTED : (was ?? UNADJUSTED);
  return {
    brightnessStops: options.number('brightness') ?? before.brightnessStops,
    contrast: options.number('contrast') ?? before.contrast,
    grey: await readGrey(ask, options.text('grey'), before.grey, frameId),
  };
}

async function readGrey(
  ask: Ask,
  given: string | undefined,
  before: Adjust['grey'],
  frameId: number | null,
): Promise<Adjust['grey']> {
  if (given === undefined) return before;
  if (given === 'none') return UNADJUSTED.grey;
  const [x, y] = given.split(',').map(Number);
  if (x === undefined || y === undefined || !(x >= 0 && x <= 1 && y >= 0 && y <= 1))
    throw new UsageError('--grey takes the place of something grey as X,Y from 0 to 1, or none.');
  if (frameId === null) throw new UsageError('--grey for a roll needs --frame, on which something grey is.');
  return (await ask('looks.greyAt', { frameId, x, y })).grey;
}

function sayLook(adjust: Adjust | null): string {
  if (adjust === null) return 'as it comes';
  const [red, green, blue] = adjust.grey.map((factor) => factor.toFixed(2));
  return `brightness ${adjust.brightnessStops} stops, contrast ${adjust.contrast}, grey ${red} ${green} ${blue}`;
}

const FRAME_LOOK: Command = {
  name: 'frame look',
  usage: 'ROLL/FRAME [--brightness 0.5] [--contrast 1.2] [--grey X,Y] [--reset | --follow]',
  summary: 'show or set how a frame is shown; --follow lets it follow its roll',
  options: { ...LOOK_OPTIONS, follow: flag },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const frameId = await frameFor(ask, positionals[0] ?? '', undefined);
    const { frame, roll } = await ask('looks.ofFrame', { frameId });
    const isAsked = ['brightness', 'contrast', 'grey'].some((name) => options.text(name) !== undefined);
    if (options.flag('follow')) await ask('looks.ofFrames', { frameIds: [frameId], adjust: null });
    else if (isAsked || options.flag('reset')) {
      const adjust = await changeLook(ask, options, frame ?? roll, frameId);
      await ask('looks.ofFrames', { frameIds: [frameId], adjust });
    }
    const now = await ask('looks.ofFrame', { frameId });
    return {
      json: { frame: now.frame, roll: now.roll, reading: now.reading },
      lines: [
        now.frame === null ? `Follows its roll: ${sayLook(now.roll)}.` : `By itself: ${sayLook(now.frame)}.`,
      ],
    };
  },
};

const ROLL_LOOK: Command = {
  name: 'roll look',
  usage: 'ROLL [--brightness 0.5] [--contrast 1.2] [--grey X,Y --frame 12A] [--reset]',
  summary: 'show or set how a roll is shown; frames with a look of their own keep it',
  options: { ...LOOK_OPTIONS, frame: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ ask, options, positionals }) => {
    const { id: rollId, number } = await ask('rolls.byNumber', { number: positionals[0] ?? '' });
    const label = options.text('frame');
    const first = (await ask('frames.ofRoll', { rollId })).find(
      (frame) => label === undefined || frame.label === label,
    );
    if (first === undefined) throw appError('frame_not_found', { roll: number, frame: label ?? '1' });
    const { roll } = await ask('looks.ofFrame', { frameId: first.id });
    const isAsked = ['brightness', 'contrast', 'grey'].some((name) => options.text(name) !== undefined);
    if (isAsked || options.flag('reset')) {
      const adjust = await changeLook(ask, options, roll, label === undefined ? null : first.id);
      await ask('looks.ofRoll', { rollId, adjust });
    }
    const now = await ask('looks.ofFrame', { frameId: first.id });
    return {
      json: { roll: now.roll, framesWithOwn: now.ownLooks, reading: now.reading },
      lines: [
        `${number}: ${sayLook(now.roll)}.`,
        ...(now.ownLooks > 0 ? [`${now.ownLooks} frames have a look of their own.`] : []),
      ],
    };
  },
};

const ROLL_READ: Command = {
  name: 'roll read',
  usage: 'ROLL [--as auto|negative|positive] [--tone auto|colour|monochrome]',
  summary: 'show or say how the scans of a roll are to be read',
  options: { as: text, tone: text },
  takes: [1, 1],
  opensArchive: true,
  run: async ({ engine, ask, options, positionals }) => {
    const { id: rollId, number } = await ask('rolls.byNumber', { number: positionals[0] ?? '' });
    const frameId = (await ask('frames.ofRoll', { rollId }))[0]?.id;
    if (frameId === undefined) throw appError('sheet_empty', { name: number });
    const { meant } = (await ask('looks.ofFrame', { frameId })).reading;
    const as = options.text('as') ?? meant.polarity;
    const tone = options.text('tone') ?? meant.tone;
    if (as !== 'auto' && as !== 'negative' && as !== 'positive')
      throw new UsageError(`--as takes auto, negative or positive, not “${as}”.`);
    if (tone !== 'auto' && tone !== 'colour' && tone !== 'monochrome')
      throw new UsageError(`--tone takes auto, colour or monochrome, not “${tone}”.`);
    if (as !== meant.polarity || tone !== meant.tone) {
      const job = await ask('looks.read', { rollId, polarity: as, tone });
      await engine.jobReport(job.id);
    }
    const { own: _own, ...reading } = (await ask('looks.ofFrame', { frameId })).reading;
    const { negative, positive, undecided, blank } = reading.frames;
    const said = reading.meant.polarity === 'auto' ? 'by its frames' : 'as you said';
    return {
      json: reading,
      lines: [
        `${number} is read as ${reading.polarity}, ${reading.colour}, ${said}.`,
        `Frames by themselves: ${negative} negative, ${positive} positive, ${undecided} undecided, ${blank} blank.`,
      ],
    };
  },
};

export const LOOK_COMMANDS: readonly Command[] = [POSITIVE, FRAME_LOOK, ROLL_LOOK, ROLL_READ];
