import { converter } from 'culori';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createEngine } from '../../../../main/engine/engine.ts';
import { lightOf } from '../../../../shared/domain/colour/picture.ts';
import { bringInRoll, scanNegative } from '../../../support/cast-rolls.ts';
import { NORMAL_FILM, type LayerError, withError } from '../../../support/film-simulator.ts';
import { askOf, TEST_DAY } from '../../../support/make-archive.ts';
import { panoramaViews } from '../../../support/panorama-views.ts';

type Gain = readonly [number, number, number];

/** Rolls that are sound, each of one other view of the 18 places. */
const SOUND = [0, 4, 8, 12];
const USUAL_GAIN: Gain = [1.8, 1.8, 1.8];

const views = await panoramaViews();
const folder = mkdtempSync(join(tmpdir(), 'edgeprint-negatives-'));
const engine = createEngine({ now: () => TEST_DAY });
const ask = askOf(engine);
let stockId = 0;

/** Scans of 18 scenes on negatives of one film, brought in as a roll of the stock. */
async function bringIn(
  number: string,
  view: number,
  error: LayerError,
  gain: Gain = USUAL_GAIN,
): Promise<number> {
  const film = withError(NORMAL_FILM, error);
  const scenes = views.filter((_view, place) => place % 18 === view);
  const scans = [];
  for (const [at, { picture }] of scenes.entries()) {
    const bytes = await scanNegative(lightOf(picture), view * 100 + at, { film, gain, stops: 1 });
    scans.push({ ending: 'png' as const, bytes });
  }
  return bringInRoll(engine, folder, { number, stockId }, scans);
}

/** What is said of one more roll of the stock, which is taken out again. */
async function measure(number: string, view: number, error: LayerError, gain: Gain = USUAL_GAIN) {
  const rollId = await bringIn(number, view, error, gain);
  const said = await ask('colour.ofRoll', { rollId });
  const { rolls } = await ask('colour.ofStock', { stockId });
  await ask('rolls.remove', { id: rollId });
  return {
    ...said,
    named: rolls.filter(({ cast }) => cast.against?.stands === true).map(({ roll }) => roll),
  };
}

beforeAll(async () => {
  await ask('archive.create', { folder: join(folder, 'archive') });
  ({ id: stockId } = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 }));
  for (const view of SOUND) await bringIn(`S-${view}`, view, {});
}, 60_000);

afterAll(async () => {
  await engine.close();
  rmSync(folder, { recursive: true });
});

/** a* and b* of a grey of 18 % whose red, green and blue light are so many times as much; by culori. */
function labOfLight([r, g, b]: Gain): { a: number; b: number } {
  const code = (value: number) => (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055);
  const scale = 0.18 / (0.2126 * r + 0.7152 * g + 0.0722 * b);
  const lab = converter('lab65')({ mode: 'rgb', r: code(r * scale), g: code(g * scale), b: code(b * scale) });
  return { a: lab.a, b: lab.b };
}

describe('a roll of negatives against its stock, from files', () => {
  it('is not named when nothing is wrong', async () => {
    const { kind, roll, named } = await measure('OK-1', 15, {});
    expect(kind).toMatchObject({ polarity: 'negative', colour: 'colour' });
    expect(roll.against).toMatchObject({ rolls: SOUND.length, stands: false });
    expect(roll.crossover).toBeNull();
    expect(named).toEqual([]);
  }, 60_000);

  // Known: a layer slower by 0.15 in log10 exposure records 10^−0.15 of its light.
  it.each([
    ['cyan', [-0.15, 0, 0]],
    ['magenta', [0, -0.15, 0]],
    ['yellow', [0, 0, -0.15]],
  ] as const)(
    'is found to lean to %s when a layer was slow, and by how much',
    async (direction, speed) => {
      const { roll, named } = await measure(`L-${direction}`, 15, { speed });
      const [red, green, blue] = speed;
      const known = labOfLight([10 ** red, 10 ** green, 10 ** blue]);
      expect(named).toEqual([`L-${direction}`]);
      // A red layer's error is named by its plain part where the rest is within what rolls differ by: green for cyan.
      expect(roll.against?.direction).toMatch(direction === 'cyan' ? /cyan|green/ : direction);
      expect(roll.crossover).toBeNull();
      const { deltaA = 0, deltaB = 0 } = roll.against ?? {};
      const size = Math.hypot(known.a, known.b);
      const share = (deltaA * known.a + deltaB * known.b) / size ** 2;
      expect(share).toBeGreaterThan(2 / 3);
      expect(share).toBeLessThan(4 / 3);
    },
    60_000,
  );

  it('is measured alike whatever the gains of its scanner', async () => {
    const one = await measure('G-1', 15, { speed: [0, -0.15, 0] });
    const other = await measure('G-2', 15, { speed: [0, -0.15, 0] }, [1.2, 1.5, 2.1]);
    const [a, b] = [one.roll.against, other.roll.against];
    expect(b?.stands).toBe(true);
    // Eight bits round otherwise at another gain; one in a* and b* is below what is worth a word.
    expect(Math.abs((a?.deltaA ?? 0) - (b?.deltaA ?? 99))).toBeLessThan(1);
    expect(Math.abs((a?.deltaB ?? 0) - (b?.deltaB ?? 99))).toBeLessThan(1);
  }, 60_000);

  it('is found to lean to cyan at middle tones when the red layer has lost slope', async () => {
    const { roll, named } = await measure('X-1', 15, { slope: [0.85, 1, 1] });
    // Known: above the speed point, 15 % less slope in red is less red light at every tone.
    expect(named).toEqual(['X-1']);
    expect(roll.against?.direction).toMatch(/cyan|green/);
    expect(roll.against?.deltaA).toBeLessThan(-5);
  }, 60_000);

  it('has a denser base by the fog it got', async () => {
    const { base, roll } = await measure('F-1', 15, { fog: [0.08, 0.08, 0.08] });
    expect(base).toMatchObject({ from: 'rebate' });
    // Within 0.01, a third of what is worth a word.
    for (const channel of ['red', 'green', 'blue'] as const)
      expect(Math.abs((base?.against?.[channel] ?? 0) - 0.08)).toBeLessThan(0.01);
    expect(base?.say).toMatch(/Base fog \+0\.0[78]/);
    // Fog that all layers got alike is no cast.
    expect(roll.against?.stands).toBe(false);
  }, 60_000);
});
