/**
 * How often casts are called on free pictures with nothing wrong, and how often a known error is found.
 * Run: npx node test/bench/cast-alarms.ts (a few minutes). Pictures: test/fixtures/panorama-views (CC0).
 */
import { castOfFrame } from '../../shared/domain/colour/cast-frame.ts';
import type { FrameCast } from '../../shared/domain/colour/cast-frame.ts';
import { castOfRoll, compareWithStock } from '../../shared/domain/colour/cast-roll.ts';
import type { StockRoll } from '../../shared/domain/colour/cast-roll.ts';
import { judgeAlone } from '../../shared/domain/colour/cast-words.ts';
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

/** Which views make up a roll: drawn from anywhere, or the same places over again. */
const KINDS = {
  unlike: (frames: number) => Array.from({ length: frames }, () => one(everywhere)),
  alike: (frames: number) => Array.from({ length: frames }, (_, at) => one(places[at % places.length] ?? [])),
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

const conditions: [string, readonly FrameCast[]][] = [['nothing wrong', plain]];
for (const factor of [0.9, 0.8, 0.7]) {
  for (const channel of CHANNELS) {
    const name = `${channel} ${Math.round((factor - 1) * 100)} %`;
    conditions.push([name, measure((light) => weakened(light, channel, factor))]);
  }
}
console.log(`rolls called against ${OTHER_ROLLS} other rolls, per cent of ${ROUNDS}:`);
for (const [name, casts] of conditions) {
  const cells = (['unlike', 'alike'] as const).flatMap((kind) =>
    [12, 18, 24, 36].map((frames) => `${kind} ${frames}: ${share(casts, frames, KINDS[kind]).toFixed(0)}`),
  );
  console.log(`${name.padEnd(14)} ${cells.join('  ')}`);
}
