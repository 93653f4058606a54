import { describe, expect, it } from 'vitest';
import {
  USUAL_BALANCE,
  balanceOfRoll,
  balanceOfStock,
  balancedLight,
  sceneLight,
  samplesOfFrame,
} from '../../../../shared/domain/colour/balance.ts';
import type { Balance } from '../../../../shared/domain/colour/balance.ts';
import type { FrameCast } from '../../../../shared/domain/colour/cast-frame.ts';
import { castOfFrame } from '../../../../shared/domain/colour/cast-frame.ts';
import { changeOf } from '../../../../shared/domain/colour/cast-axes.ts';
import { castOfRoll } from '../../../../shared/domain/colour/cast-roll.ts';
import { crossoverBetween } from '../../../../shared/domain/colour/crossover.ts';
import type { RollCast } from '../../../../shared/domain/colour/cast-roll.ts';
import { linearToLab } from '../../../../shared/domain/colour/cie-lab.ts';
import { colourDifference } from '../../../../shared/domain/colour/colour-difference.ts';
import { baseOfFrame, baseOfRoll, netDensity } from '../../../../shared/domain/colour/film-base.ts';
import type { FilmBase } from '../../../../shared/domain/colour/film-base.ts';
import {
  UNADJUSTED,
  applyLook,
  greyFromClick,
  makePositiveLook,
  whiteOfMonochromeRoll,
  whiteOfRoll,
} from '../../../../shared/domain/colour/look.ts';
import { blockMeans, lightOf } from '../../../../shared/domain/colour/picture.ts';
import type { Light, Picture } from '../../../../shared/domain/colour/picture.ts';
import { median, quantile } from '../../../../shared/domain/statistics/order.ts';
import { NORMAL_FILM, densityOf, randomFrom, scanScene, withError } from '../../../support/film-simulator.ts';
import type { Film, LayerError } from '../../../support/film-simulator.ts';
import { panoramaViews } from '../../../support/panorama-views.ts';

const views = await panoramaViews();

/** One view of each of the 18 places; `at` 0..17 chooses which. */
const sceneRoll = (at: number): Light[] =>
  views.filter((_, place) => place % 18 === at).map((view) => lightOf(view.picture));

/** The same at half size, for speed where many rolls are compared. */
const smallRoll = (at: number): Light[] =>
  sceneRoll(at).map((light) => {
    const small = blockMeans(light, 96);
    return { ...small, width: small.columns, height: small.rows };
  });

type Gain = readonly [number, number, number];

function scanRoll(scenes: readonly Light[], film: Film, gain: Gain = [1.8, 1.8, 1.8], rebate = 0): Picture[] {
  const scanner = { gain, encoding: 'linear', noise: 0.001, random: randomFrom(3) } as const;
  return scenes.map((scene) => scanScene(scene, film, scanner, 1, rebate));
}

function baseOf(lights: readonly Light[]): FilmBase {
  const base = baseOfRoll(lights.map(baseOfFrame));
  if (base === null) throw new Error('no base');
  return base;
}

/** ΔE00 between scenes and what is recovered of them, with one exposure factor per frame. */
function recoveryErrors(
  scenes: readonly Light[],
  lights: readonly Light[],
  base: FilmBase,
  balance: Balance,
): number[] {
  return scenes.flatMap((scene, at) => {
    const scan = lights[at];
    if (scan === undefined) return [];
    const wanted = samplesOfFrame(scene);
    const got = samplesOfFrame(scan).map((sample) => balancedLight(sample, base, balance));
    const gain = median(
      wanted.flatMap((light, place) => (light[1] > 0.05 ? [light[1] / (got[place]?.[1] ?? 1)] : [])),
    );
    return wanted.map((light, place) => {
      const [red = 0, green = 0, blue = 0] = got[place] ?? [];
      return colourDifference(linearToLab(light), linearToLab([red * gain, green * gain, blue * gain]));
    });
  });
}

describe('film simulator', () => {
  // Source: ARRI DI Companion: one stop (0.30 log E) adds 0.18 D at a slope of 0.6.
  it('adds 0.18 D per stop in the mean of its layers', () => {
    const steps = [0, 1, 2].map((channel) => {
      const layer = channel === 0 ? 0 : channel === 1 ? 1 : 2;
      return densityOf(NORMAL_FILM, layer, 0.2) - densityOf(NORMAL_FILM, layer, 0.1);
    });
    expect((steps[0] ?? 0) / 3 + (steps[1] ?? 0) / 3 + (steps[2] ?? 0) / 3).toBeCloseTo(0.18, 2);
  });

  // Source: worked control strip, D-min R 0.32, G 0.63, B 0.72.
  it('has the base densities of the control strip where no light fell', () => {
    expect([
      densityOf(NORMAL_FILM, 0, 0),
      densityOf(NORMAL_FILM, 1, 0),
      densityOf(NORMAL_FILM, 2, 0),
    ]).toEqual([0.32, 0.63, 0.72]);
  });
});

describe('density', () => {
  // Hand: −log10(0.25/0.5) = 0.30103.
  it('is counted from the base', () => {
    expect(netDensity(0.25, 0.5)).toBeCloseTo(0.30103, 5);
  });

  it('is never less than none', () => {
    expect(netDensity(0.6, 0.5)).toBe(0);
  });

  // Hand: one stop of light is 0.30103 · slope on the straight line: at D 1.2, slope 0.6: 0.1806 D more.
  it('gives twice the light for one more stop on the straight line', () => {
    expect(sceneLight(1.2 + 0.30103 * 0.6, 0.6) / sceneLight(1.2, 0.6)).toBeCloseTo(2, 2);
  });

  // Source of the shares: control strip contrasts 0.86, 1.01, 1.05; mean slope 0.6 (ARRI).
  it('has usual slopes in the shares of the control strip', () => {
    const [red, green, blue] = USUAL_BALANCE.slope;
    expect(red / blue).toBeCloseTo(0.86 / 1.05, 6);
    expect((red + green + blue) / 3).toBeCloseTo(0.6, 6);
  });
});

describe('film base', () => {
  const scenes = sceneRoll(2);
  const truth = NORMAL_FILM.base.map((density) => 1.8 * 10 ** -density);
  const errors = (base: FilmBase) =>
    base.light.map((light, channel) => Math.abs(Math.log10(light / (truth[channel] ?? 1))));

  it('is read from the rebate where it shows', () => {
    const base = baseOf(scanRoll(scenes, NORMAL_FILM, [1.8, 1.8, 1.8], 8).map(lightOf));
    expect(base.from).toBe('rebate');
    expect(Math.max(...errors(base))).toBeLessThan(0.005);
  });

  // 0.06 D: a third of a stop on film, from pictures whose darkest parts got some light.
  it('is found from all frames together where no rebate shows', () => {
    const base = baseOf(scanRoll(scenes, NORMAL_FILM).map(lightOf));
    expect(Math.max(...errors(base))).toBeLessThan(0.06);
  });

  it('has none for no frames', () => {
    expect(baseOfRoll([])).toBeNull();
  });
});

describe('negative to positive', () => {
  // Stated: half of all places within ΔE00 4, nine tenths within 12, with nothing known but the scans.
  it.each([0, 5, 11])('recovers the scenes of roll %d', (at) => {
    const scenes = sceneRoll(at);
    const lights = scanRoll(scenes, NORMAL_FILM).map(lightOf);
    const base = baseOf(lights);
    const errors = recoveryErrors(scenes, lights, base, balanceOfRoll(lights.map(samplesOfFrame), base));
    expect(quantile(errors, 0.5)).toBeLessThan(4);
    expect(quantile(errors, 0.9)).toBeLessThan(12);
  });

  it('does not depend on the gain of the scanner', () => {
    const scenes = sceneRoll(5);
    const render = (gain: Gain) => {
      const lights = scanRoll(scenes, NORMAL_FILM, gain).map(lightOf);
      const base = baseOf(lights);
      const balance = balanceOfRoll(lights.map(samplesOfFrame), base);
      return lights.map((light) =>
        samplesOfFrame(light).map((sample) => linearToLab(balancedLight(sample, base, balance))),
      );
    };
    const one = render([1.8, 1.8, 1.8]).flat();
    const other = render([0.9, 1.5, 2.2]).flat();
    const scale = median(one.map((lab) => lab.L)) / 50;
    const apart = one.map((lab, at) => colourDifference(lab, other[at] ?? lab) / Math.max(1, scale));
    expect(quantile(apart, 0.95)).toBeLessThan(1);
  });
});

describe('error of one layer', () => {
  const scenes = smallRoll(9);

  function framesOf(film: Film, reference: Balance | null): { frames: FrameCast[]; balance: Balance } {
    const pictures = scanRoll(scenes, film, [1.8, 1.8, 1.8], 8);
    const lights = pictures.map(lightOf);
    const base = baseOf(lights);
    const samples = lights.map(samplesOfFrame);
    const balance = reference ?? balanceOfRoll(samples, base);
    const white = whiteOfRoll(samples.flat(), base, balance);
    const look = makePositiveLook({ kind: 'colour-negative', base, balance, white }, UNADJUSTED);
    const shown = pictures.map((picture) => lightOf(applyLook(picture, look)));
    return { frames: shown.map((light) => castOfFrame(light, 'positive')), balance };
  }

  function rollOf(frames: readonly FrameCast[]): RollCast {
    const cast = castOfRoll(frames);
    if (cast === null) throw new Error('no cast');
    return cast;
  }

  const plain = framesOf(NORMAL_FILM, null);
  const sound = { ...plain, cast: rollOf(plain.frames) };
  const withLayer = (error: LayerError) =>
    rollOf(framesOf(withError(NORMAL_FILM, error), sound.balance).frames);

  // Known: a layer slower by 0.15 log10 gives 10^−0.15 of its light; magenta = green light missing, and so on.
  it.each([
    ['cyan', [-0.15, 0, 0]],
    ['magenta', [0, -0.15, 0]],
    ['yellow', [0, 0, -0.15]],
  ] as const)('is seen as a shift to %s when the layer is slow', (direction, speed) => {
    expect(changeOf(withLayer({ speed }).grey, sound.cast.grey).direction).toBe(direction);
  });

  // Known: ln ratio of red −0.06 · ln 10 = −0.138 (a fifth of a stop): in the middle of the frames held against
  // themselves without the error, recovered within a third.
  it('is recovered in size where it is small', () => {
    const slow = framesOf(withError(NORMAL_FILM, { speed: [-0.06, 0, 0] }), sound.balance).frames;
    const shifts = slow.flatMap(({ grey }, at) => {
      const before = sound.frames[at]?.grey ?? null;
      return grey === null || before === null ? [] : [{ u: grey.u - before.u, v: grey.v - before.v }];
    });
    expect(shifts.length).toBeGreaterThan(12);
    const seen = median(shifts.map((shift) => shift.u)) / (-0.06 * Math.LN10);
    expect(Math.abs(seen - 1)).toBeLessThan(1 / 3);
    expect(Math.abs(median(shifts.map((shift) => shift.v)))).toBeLessThan(0.03);
  });

  // Known: −0.15 · ln 10 = −0.345 (half a stop). Greys are looked for near neutral, so a large error reads too small:
  // at least half of it is seen, and never more than there is.
  it('is not exaggerated where it is large', () => {
    const slow = withLayer({ speed: [-0.15, 0, 0] });
    const seen = (slow.grey.u - sound.cast.grey.u) / (-0.15 * Math.LN10);
    expect(seen).toBeGreaterThan(0.5);
    expect(seen).toBeLessThan(1.05);
  });

  it('is no crossover when all tones shift alike', () => {
    const slow = withLayer({ speed: [-0.15, 0, 0] });
    if (slow.tonal === null || sound.cast.tonal === null) throw new Error('no tones');
    expect(crossoverBetween(slow.tonal, sound.cast.tonal).stands).toBe(false);
  });

  // Known: less slope in red costs highlights more red light than shadows.
  it('is a crossover when one layer has lost slope', () => {
    const flat = withLayer({ slope: [0.85, 1, 1] });
    if (flat.tonal === null || sound.cast.tonal === null) throw new Error('no tones');
    expect(crossoverBetween(flat.tonal, sound.cast.tonal)).toMatchObject({
      shadows: 'red',
      highlights: 'cyan',
      stands: true,
    });
  });

  // Known: fog of 0.1 D lies in the base itself and is taken off with it.
  it('shows fog as a denser base', () => {
    const plain = baseOf(scanRoll(scenes, NORMAL_FILM, [1.8, 1.8, 1.8], 8).map(lightOf));
    const fogged = baseOf(
      scanRoll(scenes, withError(NORMAL_FILM, { fog: [0.1, 0.1, 0.1] }), [1.8, 1.8, 1.8], 8).map(lightOf),
    );
    const denser = plain.light.map((light, channel) => Math.log10(light / (fogged.light[channel] ?? 1)));
    for (const density of denser) expect(density).toBeCloseTo(0.1, 2);
  });
});

describe('look', () => {
  const picture: Picture = {
    width: 2,
    height: 1,
    channels: 3,
    samples: new Uint8Array([10, 120, 250, 200, 130, 60]),
    encoding: 'srgb',
  };

  it('leaves a positive as it is', () => {
    const look = makePositiveLook({ kind: 'as-scanned' }, UNADJUSTED);
    expect([...applyLook(picture, look).samples]).toEqual([...picture.samples]);
  });

  // Hand: 1 stop on the sRGB code 60 (light 0.0452 → 0.0905): code 0.3335 · 255 = 85.
  it('makes one stop twice the light', () => {
    const look = makePositiveLook({ kind: 'as-scanned' }, { ...UNADJUSTED, brightnessStops: 1 });
    expect(Math.abs((applyLook(picture, look).samples[5] ?? 0) - 85)).toBeLessThanOrEqual(1);
  });

  it('turns a clicked place grey', () => {
    const light = lightOf(picture);
    const sample = [light.red[1] ?? 0, light.green[1] ?? 0, light.blue[1] ?? 0] as const;
    const grey = greyFromClick({ kind: 'as-scanned' }, sample);
    const look = makePositiveLook({ kind: 'as-scanned' }, { ...UNADJUSTED, grey });
    const [red = 0, green = 0, blue = 0] = applyLook(picture, look).samples.slice(3);
    expect(Math.max(red, green, blue) - Math.min(red, green, blue)).toBeLessThanOrEqual(1);
  });

  it('shows black-and-white negatives in one channel, clear film black', () => {
    const base: FilmBase = { light: [0.5, 0.5, 0.5], from: 'rebate', frames: 1, confidence: 1 };
    const white = whiteOfMonochromeRoll(
      [
        [0.05, 0.05, 0.05],
        [0.2, 0.2, 0.2],
      ],
      base,
    );
    const look = makePositiveLook({ kind: 'monochrome-negative', base, white }, UNADJUSTED);
    // Light 0.5 (clear film) and 0.05 (dense) as sRGB codes 188 and 63.
    const film: Picture = {
      width: 2,
      height: 1,
      channels: 1,
      samples: new Uint8Array([188, 63]),
      encoding: 'srgb',
    };
    const [r1 = 0, g1 = 0, b1 = 0, r2 = 0, g2 = 0, b2 = 0] = applyLook(film, look).samples;
    expect([r1, g1, b1]).toEqual([r1, r1, r1]);
    expect([r2, g2, b2]).toEqual([r2, r2, r2]);
    expect(r1).toBeLessThan(10);
    expect(r2).toBeGreaterThan(200);
  });

  it('shows 8-bit and 16-bit scans alike', () => {
    const wide: Picture = { ...picture, samples: Uint16Array.from(picture.samples, (code) => code * 257) };
    const look = makePositiveLook({ kind: 'as-scanned' }, { ...UNADJUSTED, contrast: 1.3 });
    const one = applyLook(picture, look).samples;
    const other = applyLook(wide, look).samples;
    for (const [at, code] of one.entries()) {
      expect(Math.abs(code - (other[at] ?? 0))).toBeLessThanOrEqual(1);
    }
  });

  it('gives the middle of several rolls as balance of the stock', () => {
    const roll = (gain: number): Balance => ({ slope: USUAL_BALANCE.slope, gain: [gain, 1, 1] });
    expect(balanceOfStock([roll(1), roll(1.2), roll(5)])?.gain[0]).toBeCloseTo(1.2, 9);
  });

  it('means blocks of a picture by area', () => {
    const plane = new Float32Array([0, 1, 1, 1]);
    const blocks = blockMeans({ width: 2, height: 2, red: plane, green: plane, blue: plane }, 1);
    expect([...blocks.red]).toEqual([0.75]);
  });
});
