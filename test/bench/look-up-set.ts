// Makes the labelled set that look-up is measured on: frames in rolls of 36, a quarter of the scenes in bursts,
// and pictures that are not in the archive. Run: node test/bench/look-up-set.ts OUT [PHOTOS] [FRAMES] [ABSENT]
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import sharp from 'sharp';
import { drawScene, FIRST_SHOT, nextShot, SCENE_KINDS, type Grey } from '../support/scene.ts';
import { seededRandom } from '../support/seeded-random.ts';

/** One picture of the set; `half` 0 is for choosing thresholds, 1 for reporting. */
export interface SetPicture {
  readonly id: number;
  readonly scene: string;
  readonly real: boolean;
  readonly half: 0 | 1;
  readonly frames: number;
}

/**
 * What `manifest.json` of a set holds; a picture's file is `frames/ID.jpg` or `absent/ID.jpg`, and a frame's small
 * preview `frames-small/ID.jpg`.
 */
export interface LabelledSet {
  readonly frames: readonly SetPicture[];
  readonly absent: readonly SetPicture[];
}

const WIDTH = 768;
const HEIGHT = 512;
const BURST_SHARE = 0.25;
const GRAIN = 14;

function halfOf(scene: string): 0 | 1 {
  let sum = 0;
  for (const letter of scene) sum = (Math.imul(sum, 31) + letter.charCodeAt(0)) >>> 0;
  return ((sum >>> 7) & 1) === 0 ? 0 : 1;
}

async function save(folder: string, id: number, picture: Grey): Promise<void> {
  const raw = { width: picture.width, height: picture.height, channels: 1 } as const;
  await sharp(picture.data, { raw })
    .jpeg({ quality: 93 })
    .toFile(join(folder, `${id}.jpg`));
  if (basename(folder) !== 'frames') return;
  // As small as the archive's small previews, and as much compressed.
  await sharp(picture.data, { raw })
    .resize(256, 256, { fit: 'inside' })
    .jpeg({ quality: 82 })
    .toFile(join(`${folder}-small`, `${id}.jpg`));
}

function withGrain(picture: Grey, random: () => number): Grey {
  const speck = () => (random() + random() + random() - 1.5) * GRAIN;
  return { ...picture, data: picture.data.map((value) => Math.min(255, Math.max(0, value + speck()))) };
}

/** Windows of a photograph that do not overlap, each with perhaps a twin a hand's movement away. */
async function* windowsOf(file: string, random: () => number): AsyncGenerator<Grey[]> {
  const whole = await sharp(file)
    .toColourspace('srgb')
    .removeAlpha()
    .greyscale()
    .toBuffer({ resolveWithObject: true });
  const across = Math.max(2, Math.min(6, Math.floor(whole.info.width / 640)));
  const side = Math.floor(whole.info.width / across);
  const down = Math.floor(whole.info.height / ((side * HEIGHT) / WIDTH));
  for (let row = 0; row < Math.max(1, down); row++) {
    for (let column = 0; column < across; column++) {
      const shots: Grey[] = [];
      const twins = random() < BURST_SHARE ? 2 : 1;
      for (let shot = 0; shot < twins; shot++) {
        const width = Math.round(side * (0.92 + (shot === 0 ? 0 : (random() - 0.5) * 0.02)));
        const height = Math.min(whole.info.height, Math.round((width * HEIGHT) / WIDTH));
        const room = side - width;
        const left = Math.min(whole.info.width - width, column * side + Math.round(room * random()));
        const top = Math.min(
          whole.info.height - height,
          Math.round((row * side * HEIGHT) / WIDTH + room * random()),
        );
        const { data, info } = await sharp(file)
          .toColourspace('srgb')
          .removeAlpha()
          .extract({ left, top, width, height })
          .resize(WIDTH, HEIGHT, { fit: 'fill' })
          .greyscale()
          .raw()
          .toBuffer({ resolveWithObject: true });
        shots.push(withGrain({ data: new Uint8Array(data), width: info.width, height: info.height }, random));
      }
      yield shots;
    }
  }
}

/** Writes the set. Every third photograph is kept out of the archive, to be looked for in vain. */
async function makeSet(folder: string, photos: string | null, frameCount: number, absentCount: number) {
  const random = seededRandom(20_260_101);
  for (const part of ['frames', 'frames-small', 'absent']) mkdirSync(join(folder, part), { recursive: true });
  const frames: SetPicture[] = [];
  const absent: SetPicture[] = [];
  const add = async (
    list: SetPicture[],
    part: string,
    scene: string,
    real: boolean,
    shots: readonly Grey[],
  ) => {
    for (const shot of shots) {
      const id = list.length + 1;
      list.push({
        id,
        scene,
        real,
        half: halfOf(real ? (scene.split('#')[0] ?? scene) : scene),
        frames: shots.length,
      });
      await save(join(folder, part), id, shot);
    }
  };
  const files = photos === null ? [] : readdirSync(photos).sort();
  for (const [number, name] of files.entries()) {
    const [list, part] = number % 3 === 2 ? ([absent, 'absent'] as const) : ([frames, 'frames'] as const);
    let window = 0;
    for await (const shots of windowsOf(join(photos ?? '', name), random)) {
      await add(list, part, `${name}#${window++}`, true, part === 'absent' ? shots.slice(0, 1) : shots);
    }
  }
  for (let seed = 1; frames.length < frameCount; seed++) {
    // A roll has a taste: three scenes of four are of one kind.
    const roll = Math.floor(frames.length / 36);
    const kind = random() < 0.75 ? roll % SCENE_KINDS : Math.floor(random() * SCENE_KINDS);
    const burst = random() < BURST_SHARE ? 2 + Math.floor(random() * 3) : 1;
    const shots: Grey[] = [];
    for (let i = 0; i < burst; i++)
      shots.push(await drawScene(seed, kind, i === 0 ? FIRST_SHOT : nextShot(random, i)));
    await add(frames, 'frames', `scene ${seed}`, false, shots);
  }
  for (let seed = 1_000_001; absent.length < absentCount; seed++) {
    const shot = await drawScene(seed, Math.floor(random() * SCENE_KINDS));
    await add(absent, 'absent', `absent ${seed}`, false, [shot]);
  }
  const set: LabelledSet = { frames, absent };
  writeFileSync(join(folder, 'manifest.json'), JSON.stringify(set));
  console.log(
    `${frames.length} frames (${frames.filter((one) => one.real).length} of photographs), ${absent.length} absent`,
  );
}

if (process.argv[1] === import.meta.filename) {
  const [out, photos, frameCount, absentCount] = process.argv.slice(2);
  if (out === undefined) throw new Error('say where the set goes');
  await makeSet(out, photos ?? null, Number(frameCount ?? 4200), Number(absentCount ?? 5000));
}
