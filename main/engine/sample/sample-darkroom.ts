import type { Given, MethodName, Output } from '../../../shared/api/contract.ts';
import { findDeveloperStep } from '../../../shared/domain/development/process.ts';
import { parsePushTable } from '../../../shared/domain/development/rule-text.ts';
import { setDeveloperTime } from '../../../shared/domain/development/set-developer-time.ts';
import { yours } from '../../../shared/domain/development/source.ts';
import { ROLL_AREA_CM2 } from '../../../shared/domain/film/film-area.ts';
import { localDay } from '../development/local-day.ts';

type Ask = <Name extends MethodName>(name: Name, input: Given<Name>) => Promise<Output<Name>>;

/** Rolls of the story, and the film whose scrap cleared in the fixer. */
export interface DarkroomRolls {
  readonly coastId: number;
  readonly valleyId: number;
  readonly gardenId: number;
  readonly greyStockId: number;
}

const LEAFLET = yours('Leaflet of the kit, page 2');

/** The invented darkroom: a tank, a process of its own, baths with use behind them, and three developments. */
export async function addDarkroom(ask: Ask, rolls: DarkroomRolls, now: Date): Promise<void> {
  const tank = await ask('tanks.add', {
    name: 'Two-reel tank',
    reels: 2,
    mlPer135: 290,
    mlPer120: 500,
    coolingPerMinute: 0.0295,
  });
  await addKit(ask);

  const ofApril = await addAprilBaths(ask);
  const run = (rollId: number, start: string, readings: readonly Read[], note: string) =>
    developRun(
      ask,
      { rollIds: [rollId], process: 'c41-two-bath', bathIds: ofApril, tankId: tank.id },
      start,
      readings,
      note,
    );
  // Means of 37.8 and 37.1 °C: within the tolerance of the process, and off it.
  await run(
    rolls.coastId,
    '2026-04-19T14:00:00',
    [
      [10, 38],
      [70, 37.9],
      [130, 37.7],
      [185, 37.6],
    ],
    'First roll through the new developer.',
  );
  await run(
    rolls.valleyId,
    '2026-04-26T20:30:00',
    [
      [15, 37.4],
      [80, 37.2],
      [140, 37],
      [190, 36.8],
    ],
    'The water bath had cooled before the pour.',
  );
  await endAprilBaths(ask, ofApril);
  await addGreyBaths(ask, rolls);
  await addPresentBaths(ask, now);
}

/** Seconds from pouring in, °C. */
type Read = readonly [atSeconds: number, celsius: number];

/** A kit with numbers of its own: another temperature, its own push, capacity, life and added time. */
async function addKit(ask: Ask): Promise<void> {
  const shipped = (await ask('processes.list', {})).find(({ key }) => key === 'c41-two-bath');
  if (!shipped) throw new Error('A shipped process is gone: c41-two-bath');
  const timed = setDeveloperTime(
    { ...shipped.process, name: 'Litre kit at 38.9 °C', note: 'Warm and quick; the leaflet names 38.9 °C.' },
    { seconds: 210, celsius: 38.9, source: LEAFLET },
    [{ seconds: 480, celsius: 30, source: LEAFLET }],
  );
  const push = parsePushTable('-1=-0:20, 1=0:40, 2=1:30', LEAFLET);
  const developer = findDeveloperStep(timed)?.key;
  const steps = timed.steps.map((step) =>
    step.key !== developer
      ? step
      : {
          ...step,
          push: push.ok ? push.value : null,
          bathFacts: {
            capacityCm2PerLitre: { value: 10 * ROLL_AREA_CM2, source: LEAFLET },
            shelfDays: { value: 42, source: LEAFLET },
            extension: {
              kind: 'steps' as const,
              rows: [
                { fromRoll: 1, seconds: 210 },
                { fromRoll: 5, seconds: 225 },
                { fromRoll: 9, seconds: 240 },
              ],
              source: LEAFLET,
            },
          },
        },
  );
  await ask('processes.add', { process: { ...timed, steps }, kind: 'c41', copiedFrom: shipped.key });
}

const LITRE = { process: 'c41-two-bath', volumeMl: 1000, capacityCm2: 8 * ROLL_AREA_CM2 } as const;

const TWO_PERCENT = {
  kind: 'percent',
  percentPerRoll: 2,
  source: yours('As the kit says: 2 % for every roll before'),
} as const;

async function addAprilBaths(ask: Ask): Promise<number[]> {
  const developer = await ask('baths.add', {
    name: 'Developer, April',
    kind: 'developer',
    mixed: '2026-04-18',
    shelfDays: 42,
    extension: TWO_PERCENT,
    ...LITRE,
  });
  const bleachFix = await ask('baths.add', {
    name: 'Bleach-fix, April',
    kind: 'bleach_fix',
    mixed: '2026-04-18',
    shelfDays: 56,
    ...LITRE,
  });
  return [developer.id, bleachFix.id];
}

async function endAprilBaths(ask: Ask, [developerId = 0, bleachFixId = 0]: readonly number[]): Promise<void> {
  await ask('baths.discard', {
    id: developerId,
    at: instant('2026-05-30T18:00:00'),
    reason: 'Six weeks old',
  });
  await ask('baths.spoil', {
    id: bleachFixId,
    at: instant('2026-05-03T21:10:00'),
    reason: 'Developer was poured back into it',
  });
}

/** The black-and-white corner: a fixer that a scrap of film found spent, and the roll that went through it before. */
async function addGreyBaths(ask: Ask, { gardenId, greyStockId }: DarkroomRolls): Promise<void> {
  const fixer = await ask('baths.add', {
    name: 'Fixer, spring',
    kind: 'fixer',
    process: 'bw',
    mixed: '2026-03-01',
    volumeMl: 600,
    dilution: '1+4',
    capacityCm2: 12 * ROLL_AREA_CM2,
    usedBeforeCm2: 10.5 * ROLL_AREA_CM2,
  });
  const test = (seconds: number, fresh: boolean, at: string) =>
    ask('baths.test', { id: fixer.id, stockId: greyStockId, seconds, fresh, at: instant(at) });
  await test(45, true, '2026-03-01T17:00:00');
  await ask('developments.record', {
    rollIds: [gardenId],
    process: 'bw',
    date: '2026-03-15',
    developerTempC: 20.5,
    developerSeconds: 540,
    bathIds: [fixer.id],
  });
  await test(95, false, '2026-03-16T17:00:00');
}

/** What stands on the shelf today: a developer half used, and a bleach-fix with one roll left in it. */
async function addPresentBaths(ask: Ask, now: Date): Promise<void> {
  const mixed = localDay(new Date(now.getTime() - 23 * 24 * 3600 * 1000));
  await ask('baths.add', {
    name: 'Developer',
    kind: 'developer',
    mixed,
    shelfDays: 42,
    extension: TWO_PERCENT,
    usedBeforeCm2: 4.2 * ROLL_AREA_CM2,
    ...LITRE,
  });
  await ask('baths.add', {
    name: 'Bleach-fix',
    kind: 'bleach_fix',
    mixed,
    shelfDays: 56,
    usedBeforeCm2: 7.2 * ROLL_AREA_CM2,
    ...LITRE,
  });
}

/** A time of the story where the user is, as an instant. */
function instant(local: string): string {
  return new Date(local).toISOString();
}

/** Runs a development by its log: every step for its planned time, the temperatures of the developer as given. */
async function developRun(
  ask: Ask,
  request: Given<'developments.start'>,
  start: string,
  readings: readonly Read[],
  text: string,
): Promise<void> {
  const { id } = await ask('developments.start', request);
  const { plan } = await ask('developments.get', { id });
  if (plan === null) throw new Error('A run without a plan.');
  let atMs = Date.parse(instant(start));
  const note = (event: Given<'developments.note'>['event'], ms: number) =>
    ask('developments.note', { id, event, atMs: ms });
  for (const [step, { key, seconds }] of plan.steps.entries()) {
    await note({ kind: 'step_started', step }, atMs);
    if (key === plan.developerKey) {
      for (const [atSeconds, celsius] of readings) {
        await note({ kind: 'temperature_read', celsius }, atMs + atSeconds * 1000);
      }
    }
    atMs += seconds * 1000;
  }
  await note({ kind: 'run_finished' }, atMs);
  await ask('developments.finish', { id, note: text });
}
