import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { changeOf, directionOf, shiftOf } from '../../../../shared/domain/colour/cast-axes.ts';
import { castOfFrame } from '../../../../shared/domain/colour/cast-frame.ts';
import type { FrameCast } from '../../../../shared/domain/colour/cast-frame.ts';
import { castOfRoll, compareRolls } from '../../../../shared/domain/colour/cast-roll.ts';
import { labOfGrey } from '../../../../shared/domain/colour/grey.ts';
import { crossoverBetween } from '../../../../shared/domain/colour/crossover.ts';
import { judgeAlone } from '../../../../shared/domain/colour/cast-words.ts';
import { lightOf } from '../../../../shared/domain/colour/picture.ts';
import { panoramaViews } from '../../../support/panorama-views.ts';
import { pixelsOf } from '../../../support/pixels.ts';
import { sharedData } from '../../../support/shared-data.ts';

const scans = sharedData('scans');

const measured = new Map<string, Promise<FrameCast>>();

/** The cast of a test scan, measured once. */
function castOf(file: string): Promise<FrameCast> {
  const known = measured.get(file);
  if (known !== undefined) return known;
  const cast = pixelsOf(`${scans}/${file}`).then((picture) => castOfFrame(lightOf(picture), 'unknown'));
  measured.set(file, cast);
  return cast;
}

/** The ground truth of the test scans: named cast per file. Source: truth.json beside them. */
function namedCasts(): [string, string | null][] {
  const truth: unknown = JSON.parse(readFileSync(`${scans}/truth.json`, 'utf8'));
  const files = typeof truth === 'object' && truth !== null && 'files' in truth ? truth.files : truth;
  if (typeof files !== 'object' || files === null) return [];
  return Object.entries(files).flatMap(([file, entry]): [string, string | null][] => {
    if (!file.startsWith('cast/') || typeof entry !== 'object' || entry === null || !('cast' in entry))
      return [];
    const { cast } = entry;
    return [[file, typeof cast === 'string' ? cast : null]];
  });
}

describe('directions', () => {
  // Hand: CIE L*a*b* has red and magenta at +a*, green at −a*, yellow at +b*, blue at −b*.
  it.each([
    [0, 10, 'yellow'],
    [0, -10, 'blue'],
    [10, 4, 'red'],
    [10, -6, 'magenta'],
    [-10, 6, 'green'],
    [-10, -3, 'cyan'],
  ] as const)('names Δa* %d, Δb* %d', (a, b, name) => {
    expect(directionOf(a, b)).toBe(name);
  });

  // Hand: equal channels are grey by definition of the white.
  it('has no chroma for equal channels', () => {
    const { a, b } = labOfGrey({ u: 0, v: 0 });
    expect(Math.hypot(a, b)).toBeLessThan(1e-9);
  });
});

describe.runIf(scans !== null)('casts of the test scans', () => {
  const truth = scans === null ? [] : namedCasts();
  const named = truth.filter(([, cast]) => cast !== null);

  it('has eight named casts, a crossover and nine files without', () => {
    expect(named).toHaveLength(9);
    expect(truth.length - named.length).toBeGreaterThanOrEqual(7);
  });

  const isVeiled = (file: string) => file.includes('aged');

  it.each(named.filter(([file, cast]) => cast !== 'crossover' && !isVeiled(file)))(
    'gives the direction of %s against the same scene without a cast: %s',
    async (file, cast) => {
      const neutral = await castOf('cast/neutral.jpg');
      const own = await castOf(file);
      expect(own.grey).not.toBeNull();
      expect(changeOf(own.grey ?? { u: 0, v: 0 }, neutral.grey ?? { u: 0, v: 0 }).direction).toBe(cast);
    },
  );

  // The veil of fogged film has no edges, so only part of the evidence sees its colour: the magenta side is all it says.
  it.each(named.filter(([file]) => isVeiled(file)))('leans to the magenta side in %s', async (file) => {
    const [own, neutral] = [(await castOf(file)).grey, (await castOf('cast/neutral.jpg')).grey];
    if (own === null || neutral === null) throw new Error('no grey');
    expect(shiftOf(own, neutral).across).toBeGreaterThan(0.2);
  });

  it('sees green shadows and magenta highlights as crossover', async () => {
    const neutral = await castOf('cast/neutral.jpg');
    const own = await castOf('cast/crossover-green-shadow-magenta-highlight.jpg');
    if (own.tones === null || neutral.tones === null) throw new Error('no tones');
    expect(crossoverBetween(own.tones, neutral.tones)).toMatchObject({
      shadows: 'green',
      highlights: 'magenta',
      stands: true,
    });
  });

  it.each(named.filter(([, cast]) => cast !== 'crossover').map(([file]) => file))(
    'sees no crossover in the even cast of %s',
    async (file) => {
      const neutral = await castOf('cast/neutral.jpg');
      const own = await castOf(file);
      const stands =
        own.tones !== null && neutral.tones !== null && crossoverBetween(own.tones, neutral.tones).stands;
      expect(stands).toBe(false);
    },
  );

  it('sees the lifted blacks of aged film', async () => {
    const [aged, neutral] = [await castOf('cast/aged-fogged-magenta.jpg'), await castOf('cast/neutral.jpg')];
    expect(aged.blackL - neutral.blackL).toBeGreaterThan(8);
    expect(aged.whiteL - aged.blackL).toBeLessThan(neutral.whiteL - neutral.blackL);
  });

  it.each(truth.filter(([, cast]) => cast === null).map(([file]) => file))(
    'raises no alarm on %s alone',
    async (file) => {
      expect(judgeAlone(await castOf(file)).direction).toBeNull();
    },
  );

  // What one picture alone can say is little; what it says must be right. Truth: as named.
  it.each(named.filter(([, cast]) => cast !== 'crossover'))(
    'says nothing false about %s alone (%s)',
    async (file, cast) => {
      expect([cast, null]).toContain(judgeAlone(await castOf(file)).direction);
    },
  );

  // Truth: as named. Left out: what light alone does as well (the blue one makes a warm scene look plain, the slight
  // one and the veil of the aged one lie where dawn and dusk lie).
  it.each(named.filter(([file]) => /(cyan|green|magenta|red|yellow)-strong/.test(file)))(
    'names %s alone: %s',
    async (file, cast) => {
      expect(judgeAlone(await castOf(file)).direction).toBe(cast);
    },
  );

  it('says that shadows and highlights of a crossover lean apart on one picture', async () => {
    const { note } = judgeAlone(await castOf('cast/crossover-green-shadow-magenta-highlight.jpg'));
    expect(note).toContain('Shadows and highlights lean apart');
  });

  it.each([
    ['cast/black-blank.jpg', 'blank'],
    ['cast/clear-film-blank.jpg', 'blank'],
    ['cast/ok-gray-saved-as-rgb.jpg', 'monochrome'],
    ['cast/ok-toned-monochrome.jpg', 'toned'],
    ['cast/unconverted-colour-negative.jpg', 'negative'],
    ['cast/unconverted-bw-negative.jpg', 'negative'],
  ])('says why %s has none: %s', async (file, note) => {
    expect((await castOf(file)).note).toBe(note);
  });

  it.each([
    'real-scans/minilab-blank-dates.jpg',
    'real-scans/film-scan-red-door-lzw.tif',
    'real-scans/film-scan-window-lzw.tif',
    'real-scans/central-lab-digitized-only.jpg',
    ...[1, 2, 3].map((n) => `defects/leak-left-${n}.jpg`),
    ...[1, 2, 3, 4].map((n) => `defects/scratch-rows-97-214-${n}.jpg`),
    'defects/double-exposure.jpg',
    'defects/first-frame-half-fogged.jpg',
    'defects/two-frames-overlapping.jpg',
  ])('raises no alarm on %s: its colour is its own', async (file) => {
    expect(judgeAlone(await castOf(file)).direction).toBeNull();
  });

  it('finds the roll at fault of two rolls', async () => {
    const roll = async (name: string) => {
      const frames = [1, 2, 3, 4, 5, 6].map((n) => castOf(`cast/two-rolls/roll${name}_0${n}.jpg`));
      return castOfRoll(await Promise.all(frames));
    };
    const [plain, magenta] = [await roll('A'), await roll('B')];
    if (plain === null || magenta === null) throw new Error('no cast');
    const change = compareRolls(magenta, plain);
    expect(change.direction).toBe('magenta');
    expect(change.deltaE00).toBeGreaterThan(4);
  });
});

describe('false alarms', () => {
  // Every third view of each sheet, for speed; all 324 are in test/bench/cast-alarms.ts. Limit: 2 in 100.
  it('stays quiet on free pictures of streets, woods, seas, dusk and sunsets', async () => {
    const views = (await panoramaViews()).filter((_, at) => at % 3 === 0);
    const alarms = views.filter(
      (view) => judgeAlone(castOfFrame(lightOf(view.picture), 'unknown')).direction !== null,
    );
    expect(views).toHaveLength(108);
    expect(alarms.length / views.length).toBeLessThanOrEqual(0.02);
  });
});
