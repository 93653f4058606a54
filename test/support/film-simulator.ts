import type { Triple } from '../../shared/domain/colour/cie-lab.ts';
import type { Light, Picture } from '../../shared/domain/colour/picture.ts';
import { linearToSrgb } from '../../shared/domain/colour/srgb.ts';

/**
 * A colour negative film with its development: per layer (red-, green-, blue-sensitive) base density with mask and
 * fog, slope of the straight part, log10 exposure at which the straight part would meet the base, and how round the
 * toe is. The shape is a softened ramp, not the formula by which the product inverts.
 */
export type Film = {
  readonly base: Triple;
  readonly slope: Triple;
  readonly speedPoint: Triple;
  readonly toe: number;
  readonly shoulderDensity: number;
};

/**
 * Base densities and the share of contrast between layers: worked control strip (D-min R 0.32, G 0.63, B 0.72;
 * HD − LD 0.86, 1.01, 1.05), http://chemistry.hitechemall.com/support/qualitycontrol/cntrlstrpflm.htm. Slope 0.6 in
 * the mean (one stop adds 0.18 D): ARRI DI Companion. Toe and shoulder: our choice of a usual shape.
 */
export const NORMAL_FILM: Film = {
  base: [0.32, 0.63, 0.72],
  slope: [(0.6 * 0.86) / 0.9733, (0.6 * 1.01) / 0.9733, (0.6 * 1.05) / 0.9733],
  speedPoint: [-2.2, -2.2, -2.2],
  toe: 0.18,
  shoulderDensity: 2.6,
};

/** An error of development or age: speed in log10 exposure, slope as a factor, fog as density, per layer. */
export type LayerError = { readonly speed?: Triple; readonly slope?: Triple; readonly fog?: Triple };

/** The film as an error of development or age leaves it. */
export function withError(film: Film, error: LayerError): Film {
  const each = (make: (channel: 0 | 1 | 2) => number): Triple => [make(0), make(1), make(2)];
  return {
    ...film,
    base: each((channel) => film.base[channel] + (error.fog?.[channel] ?? 0)),
    slope: each((channel) => film.slope[channel] * (error.slope?.[channel] ?? 1)),
    speedPoint: each((channel) => film.speedPoint[channel] - (error.speed?.[channel] ?? 0)),
  };
}

/** Density of one layer after `exposure` (relative light, 1 for a white surface in correct exposure). */
export function densityOf(film: Film, channel: 0 | 1 | 2, exposure: number): number {
  const over = Math.log10(Math.max(exposure, 1e-9)) - film.speedPoint[channel];
  const ramp = over > 40 * film.toe ? over : film.toe * Math.log1p(Math.exp(over / film.toe));
  const straight = film.slope[channel] * ramp;
  const room = film.shoulderDensity;
  // The shoulder bends smoothly below the greatest density: nothing to see before about two thirds of it.
  const bent = straight / (1 + (straight / room) ** 6) ** (1 / 6);
  return film.base[channel] + bent;
}

/** A film scanner: gain per channel, code of its 16-bit samples, noise as a share of full scale. */
export type Scanner = {
  readonly gain: Triple;
  readonly encoding: Picture['encoding'];
  readonly noise: number;
  readonly random: () => number;
};

/**
 * The 16-bit scan of a scene on film: scene light (1 = white) times 2^stops of exposure, through the layers and the
 * scanner; `rebate` pixels of unexposed film are left around it.
 */
export function scanScene(scene: Light, film: Film, scanner: Scanner, stops = 0, rebate = 0): Picture {
  const width = scene.width + 2 * rebate;
  const height = scene.height + 2 * rebate;
  const samples = new Uint16Array(width * height * 3);
  const planes = [scene.red, scene.green, scene.blue] as const;
  // Scenes from 8-bit pictures have few different values, so each is exposed once.
  const passedBy = [new Map<number, number>(), new Map<number, number>(), new Map<number, number>()] as const;
  const passedAt = (channel: 0 | 1 | 2, light: number) => {
    const known = passedBy[channel].get(light);
    if (known !== undefined) return known;
    const passed = 10 ** -densityOf(film, channel, light * 2 ** stops) * scanner.gain[channel];
    passedBy[channel].set(light, passed);
    return passed;
  };
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const inside = x >= rebate && y >= rebate && x < width - rebate && y < height - rebate;
      for (const channel of [0, 1, 2] as const) {
        const light = inside ? (planes[channel][(y - rebate) * scene.width + x - rebate] ?? 0) : 0;
        const read = passedAt(channel, light) + (scanner.random() - 0.5) * 2 * scanner.noise;
        const code = scanner.encoding === 'linear' ? read : linearToSrgb(Math.max(0, read));
        samples[(y * width + x) * 3 + channel] = Math.round(Math.min(1, Math.max(0, code)) * 65_535);
      }
    }
  }
  return { width, height, channels: 3, samples, encoding: scanner.encoding };
}

/** A repeatable source of numbers 0 ≤ x < 1 (the public-domain generator mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
