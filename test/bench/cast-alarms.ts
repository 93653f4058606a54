/**
 * How often casts are called on free pictures with nothing wrong, and how often a known error is found.
 * Run: npx node test/bench/cast-alarms.ts (a few minutes). Pictures: test/fixtures/panorama-views (CC0).
 */
import { castOfFrame } from '../../shared/domain/colour/cast-frame.ts';
import type { FrameCast } from '../../shared/domain/colour/cast-frame.ts';
import { castOfRoll } from '../../shared/domain/colour/cast-roll.ts';
import { judgeAlone } from '../../shared/domain/colour/cast-words.ts';
import { compareWithStock } from '../../shared/domain/colour/compare-with-stock.ts';
import type { StockRoll } from '../../shared/domain/colour/compare-with-stock.ts';
import { lightOf } from '../../shared/domain/colour/picture.ts';
import type { Light } from '../../shared/domain/colour/picture.ts';
import { randomFrom } from '../support/film-simulator.ts';
import { panoramaViews } from '../support/panorama-views.ts';

const ROUNDS = 300;
const OTHER_ROLLS = 8;
const CHANNELS = ['red', 'green', 'blue'] as const;

/** The picture with less light in one channel, as a slow or starved layer gives it. */
function weakened(light: Light, channel: (typeof CHANNELS)[number], factor: number): Light {
  return { ...light, [channel]: light[channel].map((value) => value * factor) };
}

const views = await panoramaViews();
const lights = views.map((view) => lightOf(view.picture));
const measure = (change: (light: Light) => Light) =>
  lights.map((light) => castOfFrame(change(light), 'unknown'));

const plain = measure((light) => light);
const alarms = plain.filter((cast) => judgeAlone(cast).direction !== null).length;
console.log(`single pictures called with nothing wrong: ${alarms} of ${plain.length}`);

const scenes = [...new Set(views.map((view) => view.scene))];
const random = randomFrom(2026);
const one = (list: readonly number[]) => list[Math.floor(random() * list.length)] ?? 0;
const everywhere = views.map((_, at) => at);
const places = scenes.map((scene) => everywhere.filter((at) => views[at]?.scene === scene));

/** Frames of one place in a row before the next, where a roll saw a few places. */
const FRAMES_A_PLACE = 6;

/** Which views make up a roll: drawn from anywhere, the same places over again, or a few places one after another. */
const KINDS = {
  unlike: (frames: number) => Array.from({ length: frames }, () => one(everywhere)),
  alike: (frames: number) => Array.from({ length: frames }, (_, at) => one(places[at % places.length] ?? [])),
  outings: (frames: number) => {
    const seen = Array.from({ length: Math.ceil(frames / FRAMES_A_PLACE) }, () =>
      Math.floor(random() * places.length),
    );
    return Array.from({ length: frames }, (_, at) =>
      one(places[seen[Math.floor(at / FRAMES_A_PLACE)] ?? 0] ?? []),
    );
  },
} as const;

function share(casts: readonly FrameCast[], frames: number, draw: (frames: number) => number[]): number {
  const rollOf = (from: readonly FrameCast[], name: string): StockRoll[] => {
    const cast = castOfRoll(draw(frames).flatMap((at) => from[at] ?? []));
    return cast === null ? [] : [{ roll: name, cast, inDate: null, onTemperature: null }];
  };
  let called = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const others = Array.from({ length: OTHER_ROLLS }, (_, at) => rollOf(plain, `other ${at}`)).flat();
    const comparison = compareWithStock('this', [...others, ...rollOf(casts, 'this')]);
    if (comparison?.stands === true) called += 1;
  }
  return (100 * called) / ROUNDS;
}

/** Light left in the channel; 10 % off the codes of an sRGB picture (gamma 2.2) is 21 % off its light. */
const ERRORS = [
  ['-10 % of light', 0.9],
  ['-10 % of code', 0.9 ** 2.2],
  ['-30 % of light', 0.7],
] as const;

const conditions: [string, readonly FrameCast[]][] = [['nothing wrong', plain]];
for (const [error, factor] of ERRORS) {
  for (const channel of CHANNELS) {
    conditions.push([`${channel} ${error}`, measure((light) => weakened(light, channel, factor))]);
  }
}
console.log(`rolls called against ${OTHER_ROLLS} other rolls, per cent of ${ROUNDS}:`);
for (const [name, casts] of conditions) {
  console.log(name);
  for (const kind of ['unlike', 'alike', 'outings'] as const) {
    const cells = [12, 18, 24, 36].map(
      (frames) => `${frames} frames ${share(casts, frames, KINDS[kind]).toFixed(0)}`,
    );
    console.log(`  ${kind.padEnd(8)} ${cells.join('  ')}`);
  }
}
