import { existsSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { CONTRACT, type Given, type MethodName, type Output } from '../../../shared/api/contract.ts';
import { appError } from '../../../shared/api/errors.ts';
import type { Engine } from '../engine.ts';
import { makeFolder } from '../files/make-folder.ts';
import { translateFileError } from '../files/file-error.ts';
import { addDarkroom } from './sample-darkroom.ts';
import { drawSampleScan, type Fault, type SamplePicture } from './sample-scans.ts';
import { COAST_ROLL, GARDEN_ROLL, VALLEY_ROLL } from './sample-story.ts';

/** What the sample is: where it lies and what was made. */
export interface Sample {
  readonly folder: string;
  readonly archive: string;
  readonly scans: string;
  readonly sheets: readonly string[];
  readonly rolls: readonly string[];
}

type Ask = <Name extends MethodName>(name: Name, input: Given<Name>) => Promise<Output<Name>>;

interface SampleRoll {
  readonly number: string;
  readonly id: number;
  readonly scans: string;
}

const SMALL = { width: 1200, height: 800 };
const SQUARE = { width: 1000, height: 1000 };

/** Expired film keeps its balance badly: less green, so the roll leans to magenta. Our choice for the story. */
const AGED: Fault = [1, 0.84, 0.97];

/**
 * Makes an invented archive with rolls, scans, filing and sheets in `folder`, through the same methods that the window
 * uses. The archive stays open; `now` is the day on which the present baths are reckoned.
 * @throws {AppError} archive_exists, file_not_written, disk_full
 */
export async function makeSample(
  engine: Engine,
  folder: string,
  tell: (line: string) => void,
  now: () => Date = () => new Date(),
): Promise<Sample> {
  const home = resolve(folder);
  const archive = join(home, 'archive');
  const scans = join(home, 'scans');
  const sheets = join(home, 'sheets');
  if (existsSync(join(archive, 'archive.sqlite'))) throw appError('archive_exists', { path: archive });
  const ask: Ask = async (name, input) => {
    const answer = await engine.call(name, input);
    return CONTRACT[name].output.parse(answer) as Output<typeof name>;
  };
  try {
    makeFolder(sheets);
  } catch (error) {
    throw translateFileError(error, home, 'output');
  }
  await ask('archive.create', { folder: archive });
  const films = await addFilms(ask);

  tell('Drawing scans');
  const coast = await addRoll(ask, scans, {
    title: 'Three days at the coast',
    stockId: films.colour,
    cameraId: films.rangefinder,
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: 36,
    exposureIndex: 160,
    expires: '2027-08',
  });
  await drawRoll(
    coast.scans,
    COAST_ROLL,
    SMALL,
    (at) => `${coast.number}_${COAST_LABELS[at] ?? at}.jpg`,
    null,
  );
  const garden = await addRoll(ask, scans, {
    title: 'Window and field',
    stockId: films.grey,
    cameraId: films.box,
    filmFormat: '120',
    frameFormat: '6x6',
    exposures: 12,
    exposureIndex: 320,
    expires: '2026-11',
  });
  await drawRoll(garden.scans, GARDEN_ROLL, SQUARE, (at) => `frame_${pad(at + 1)}.jpg`, null);
  const valley = await addRoll(ask, scans, {
    title: 'The valley on old film',
    stockId: films.colour,
    cameraId: films.rangefinder,
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: 24,
    exposureIndex: 100,
    expires: '2012-03',
  });
  await drawRoll(valley.scans, VALLEY_ROLL, SMALL, (at) => `${valley.number}_${pad(at + 1)}.jpg`, AGED);

  tell('Reading scans');
  for (const roll of [coast, garden, valley]) await bringIn(engine, ask, roll);
  await noteFrames(
    ask,
    coast.id,
    COAST_ROLL.map((picture) => picture.caption),
  );
  await noteFrames(
    ask,
    garden.id,
    GARDEN_ROLL.map((picture) => picture.caption),
  );
  await noteFrames(
    ask,
    valley.id,
    VALLEY_ROLL.map((picture) => picture.caption),
  );
  await addOutings(ask, coast, garden, valley);
  await addDarkroom(
    ask,
    { coastId: coast.id, valleyId: valley.id, gardenId: garden.id, greyStockId: films.grey },
    now(),
  );
  await addPencilMarks(ask, coast.id);
  await addWaitingRolls(ask, films);

  tell('Filing and printing');
  await ask('filing.file', filing(coast.id, 'Binder A', '35mm-7x6'));
  await ask('filing.file', filing(garden.id, 'Binder B', '120-4x3'));
  await ask('filing.file', filing(valley.id, 'Binder A', '35mm-7x5'));
  const written = [
    await writeSheet(ask, [coast.id], '11x14in', join(sheets, `${coast.number}.pdf`)),
    await writeSheet(ask, [garden.id], 'a4', join(sheets, `${garden.number}.pdf`)),
    await writeSheet(ask, [valley.id], 'a4', join(sheets, `${valley.number}.pdf`)),
    await writeSheet(ask, [garden.id], 'a4', join(sheets, `${garden.number}.png`)),
  ];
  return {
    folder: home,
    archive,
    scans,
    sheets: written.flat(),
    rolls: (await ask('rolls.order', { sort: 'number', descending: false, filter: {} })).ids.map(String),
  };
}

/** Labels of the coast roll: the camera was loaded in the shade, so two frames come before 1. */
const COAST_LABELS = ['00', '0', ...Array.from({ length: 36 }, (_frame, at) => pad(at + 1))];

function pad(number: number): string {
  return String(number).padStart(2, '0');
}

async function addFilms(ask: Ask) {
  const colour = await ask('stocks.add', {
    name: 'Fenn 200',
    iso: 200,
    process: 'c41',
    formats: ['135', '120'],
    base: 'acetate',
  });
  const grey = await ask('stocks.add', {
    name: 'Harrow 400',
    iso: 400,
    process: 'bw',
    formats: ['135', '120'],
    base: 'polyester',
  });
  const rangefinder = await ask('cameras.add', {
    name: 'Grey rangefinder',
    filmFormat: '135',
    frameFormat: '24x36',
  });
  const box = await ask('cameras.add', { name: 'Box six', filmFormat: '120', frameFormat: '6x6' });
  return { colour: colour.id, grey: grey.id, rangefinder: rangefinder.id, box: box.id };
}

async function addRoll(ask: Ask, scans: string, roll: Given<'rolls.add'>): Promise<SampleRoll> {
  const { id, number } = await ask('rolls.add', { ...roll, state: 'to develop' });
  return { id, number, scans: join(scans, number) };
}

async function drawRoll(
  folder: string,
  pictures: readonly SamplePicture[],
  format: typeof SMALL,
  nameOf: (at: number) => string,
  fault: Fault | null,
): Promise<void> {
  makeFolder(folder);
  for (const [at, picture] of pictures.entries()) {
    writeFileSync(
      join(folder, nameOf(at)),
      await drawSampleScan(picture, format, at + pictures.length * 100, fault),
    );
  }
}

async function bringIn(engine: Engine, ask: Ask, roll: SampleRoll): Promise<void> {
  const job = await ask('scans.read', { folder: roll.scans });
  await engine.jobReport(job.id);
  const { files } = await ask('scans.propose', { folder: roll.scans, rollId: roll.id, options: {} });
  await ask('scans.accept', {
    rollId: roll.id,
    files: files.flatMap(({ scanId, version, reason, confidence, frames }) =>
      scanId === null || frames.length === 0 ? [] : [{ scanId, version, reason, confidence, frames }],
    ),
  });
}

async function noteFrames(ask: Ask, rollId: number, captions: readonly string[]): Promise<void> {
  const frames = await ask('frames.ofRoll', { rollId });
  for (const caption of new Set(captions)) {
    const ids = frames.flatMap((frame, at) => (captions[at] === caption ? [frame.id] : []));
    if (ids.length > 0) await ask('frames.change', { ids, change: { caption } });
  }
}

async function addOutings(
  ask: Ask,
  coast: SampleRoll,
  garden: SampleRoll,
  valley: SampleRoll,
): Promise<void> {
  const labels = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_frame, at) => String(from + at));
  await ask('outings.add', {
    title: 'Harbour before the storm',
    date: '2026-04-11',
    place: 'Sallow Quay',
    rolls: [{ rollId: coast.id, labels: ['00', '0', ...labels(1, 18)] }],
  });
  await ask('outings.add', {
    title: 'Sea wall and the high road',
    date: '2026-04-12/2026-04-13',
    place: 'Sallow Quay',
    rolls: [{ rollId: coast.id, labels: labels(19, 36) }],
  });
  await ask('outings.add', {
    title: 'A wet Sunday',
    date: 'March 2026',
    place: 'Low Garth',
    rolls: [{ rollId: garden.id, labels: null }],
  });
  await ask('outings.add', {
    title: 'Over the pass',
    date: 'about 2026-03-20',
    place: 'Upper valley',
    rolls: [{ rollId: valley.id, labels: null }],
  });
}

async function addPencilMarks(ask: Ask, rollId: number): Promise<void> {
  const frames = await ask('frames.ofRoll', { rollId });
  const byLabel = (label: string) => frames.filter((frame) => frame.label === label).map((frame) => frame.id);
  const mark = (kind: 'box' | 'dot' | 'stroke') => ({ kind, x: null, y: null, width: null, height: null });
  await ask('frames.mark', { ids: byLabel('3'), mark: mark('box'), on: true });
  await ask('frames.mark', { ids: [...byLabel('12'), ...byLabel('27')], mark: mark('dot'), on: true });
  await ask('frames.mark', { ids: byLabel('20'), mark: mark('stroke'), on: true });
}

async function addWaitingRolls(ask: Ask, films: Awaited<ReturnType<typeof addFilms>>): Promise<void> {
  const small = { filmFormat: '135', frameFormat: '24x36', exposures: 36, stockId: films.colour };
  await ask('rolls.add', {
    ...small,
    title: 'Orchard, two evenings',
    state: 'to develop',
    cameraId: films.rangefinder,
  });
  await ask('rolls.add', { ...small, state: 'in camera', cameraId: films.rangefinder });
  await ask('rolls.add', { ...small, state: 'on hand', expires: '2014-06' });
}

function filing(rollId: number, binder: string, layoutId: string): Given<'filing.file'> {
  return { rollId, binder, page: null, layoutId, cut: null };
}

async function writeSheet(ask: Ask, rollIds: number[], paperId: string, file: string): Promise<string[]> {
  const spec = { paperId, look: 'film', title: null } as const;
  const written = await ask('sheets.write', { rollIds, file, spec, overwrite: false });
  return written.files;
}
