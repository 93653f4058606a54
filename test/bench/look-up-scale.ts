// Time and memory of look-up in a large archive. The frames beyond the labelled set are made up: features of eight
// random frames of the set each, a tenth of their bits flipped, at random places. So times and candidate counts are
// realistic; false matches are not measured by this. OUT is filled when it is not there yet, and is kept.
// Run: node test/bench/look-up-scale.ts SET INDEX OUT COUNT
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { createFastKernels } from '../../main/engine/look-up/fast-kernels.ts';
import { openLookUpIndex, type Preview } from '../../main/engine/look-up/look-up-index.ts';
import { readEntry, writeAdded, type PictureRecord } from '../../main/engine/look-up/record.ts';
import { openSegments } from '../../main/engine/look-up/segments.ts';
import { readCodebook } from '../../shared/domain/look-up/codebook.ts';
import { changePicture, CHANGE_NAMES } from '../support/changes.ts';
import { seededRandom } from '../support/seeded-random.ts';
import type { LabelledSet } from './look-up-set.ts';

const FIRST_MADE_UP = 1_000_000;
const DONORS = 8;
const FLIPPED = 0.1;
const PER_KIND = 6;
const ABSENT = 60;

const [setFolder = '', indexFolder = '', out = '', countText = '100000'] = process.argv.slice(2);
const set: LabelledSet = JSON.parse(readFileSync(join(setFolder, 'manifest.json'), 'utf8'));
const codebook = readCodebook(readFileSync(new URL('../../assets/codebook.bin', import.meta.url)));
if (!codebook.ok) throw new Error(codebook.reason);
const { version } = codebook.value;
const random = seededRandom(77);

function flip(bits: number): number {
  let flips = 0;
  for (let bit = 0; bit < 32; bit++) if (random() < FLIPPED) flips |= 1 << bit;
  return (bits ^ flips) >>> 0;
}

function makeUp(pictureId: number, real: readonly PictureRecord[]): PictureRecord {
  const pick = () => real[Math.floor(random() * real.length)];
  const donors = Array.from({ length: DONORS }, pick).flatMap((one) => (one === undefined ? [] : [one]));
  const [pattern] = donors;
  if (pattern === undefined) throw new Error('the index is empty');
  const { count } = pattern.features;
  const cells = new Uint32Array(count);
  const voteBits = new Uint32Array(count);
  const signatures = new Uint32Array(count * 3);
  for (let i = 0; i < count; i++) {
    const donor = donors[Math.floor(random() * donors.length)] ?? pattern;
    const from = Math.floor(random() * donor.features.count);
    cells[i] = donor.features.cells[from] ?? 0;
    voteBits[i] = flip(donor.features.voteBits[from] ?? 0);
    for (let word = 0; word < 3; word++)
      signatures[i * 3 + word] = flip(donor.features.signatures[from * 3 + word] ?? 0);
  }
  const placement = Uint32Array.from({ length: count }, () => random() * 2 ** 32);
  const hash = { low: flip(flip(pattern.hash.low)), high: flip(flip(pattern.hash.high)) };
  return {
    ...pattern,
    pictureId,
    groupId: pictureId,
    hash,
    placement,
    features: { count, cells, voteBits, signatures },
  };
}

function fill(): void {
  const real: PictureRecord[] = [];
  const small = openSegments(indexFolder, version);
  small.readAll((content) => {
    const entry = readEntry(content);
    if (entry?.kind === 'added') real.push(entry.record);
  });
  small.close();
  const large = openSegments(out, version);
  for (const record of real) large.append(writeAdded(record));
  for (let i = real.length; i < Number(countText); i++)
    large.append(writeAdded(makeUp(FIRST_MADE_UP + i, real)));
  large.close();
}

async function preview(id: number, part: 'frames' | 'frames-small' | 'absent'): Promise<Preview> {
  const input = sharp(join(setFolder, part, `${id}.jpg`)).resize(512, 512, {
    fit: 'inside',
    withoutEnlargement: true,
  });
  const { data, info } = await input.greyscale().raw().toBuffer({ resolveWithObject: true });
  return { luma: new Uint8Array(data), width: info.width, height: info.height };
}

const quantile = (values: readonly number[], share: number) =>
  values.toSorted((a, b) => a - b).at(Math.floor((values.length - 1) * share)) ?? 0;
const ms = (values: readonly number[]) =>
  `p50 ${quantile(values, 0.5).toFixed(0)}, p95 ${quantile(values, 0.95).toFixed(0)} ms`;

if (!existsSync(out)) fill();
const opening = performance.now();
const index = openLookUpIndex({
  folder: out,
  codebook: codebook.value,
  kernels: createFastKernels(),
  verify: (id, size) =>
    preview(
      id < FIRST_MADE_UP ? id : (id % set.frames.length) + 1,
      size === 'small' ? 'frames-small' : 'frames',
    ),
});
console.log(`${index.size()} pictures opened in ${((performance.now() - opening) / 1000).toFixed(1)} s`);

const present: { wall: number; cpu: number }[] = [];
for (const [number, kind] of CHANGE_NAMES.entries()) {
  let right = 0;
  for (let i = 0; i < PER_KIND; i++) {
    const one = set.frames.at(700 + number * 97 + i * 331);
    if (one === undefined) continue;
    const { data, info } = await sharp(join(setFolder, 'frames', `${one.id}.jpg`))
      .greyscale()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { picture } = await changePicture(
      { data: new Uint8Array(data), width: info.width, height: info.height },
      kind,
      i,
    );
    const [start, cpu] = [performance.now(), process.cpuUsage()];
    const { hits } = await index.find(picture.data, picture.width, picture.height, { limit: 5 });
    present.push({ wall: performance.now() - start, cpu: process.cpuUsage(cpu).user / 1000 });
    const found = set.frames.find((frame) => frame.id === hits[0]?.pictureId);
    if (found?.scene === one.scene) right++;
  }
  console.log(`${kind}: right scene ${right} of ${PER_KIND}`);
}
const absent: { wall: number; cpu: number }[] = [];
let falsely = 0;
for (const { id } of set.absent.slice(-ABSENT)) {
  const { luma, width, height } = await preview(id, 'absent');
  const [start, cpu] = [performance.now(), process.cpuUsage()];
  const { hits } = await index.find(luma, width, height, { limit: 5 });
  absent.push({ wall: performance.now() - start, cpu: process.cpuUsage(cpu).user / 1000 });
  if (hits.length > 0) falsely++;
}
console.log(`present: wall ${ms(present.map(({ wall }) => wall))}; cpu ${ms(present.map(({ cpu }) => cpu))}`);
console.log(
  `absent: wall ${ms(absent.map(({ wall }) => wall))}; cpu ${ms(absent.map(({ cpu }) => cpu))}; false ${falsely} of ${ABSENT}`,
);
console.log(`resident ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MiB`);
index.close();
