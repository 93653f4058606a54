// Looks for changed frames and for absent pictures in a labelled set (look-up-set.ts) and writes down what was
// found. Run: node test/bench/look-up-measure.ts SET INDEX OUT HALF PER_KIND ABSENT [PHASH_MODULE] [KINDS]
// KINDS are some kinds of change by name, commas between. HALF 0 is for choosing thresholds, 1 for reporting. Every line of OUT is one `Trial` as JSON.
import { appendFileSync, existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import sharp from 'sharp';
import { createFastKernels } from '../../main/engine/look-up/fast-kernels.ts';
import { openLookUpIndex, type Preview } from '../../main/engine/look-up/look-up-index.ts';
import { readCodebook } from '../../shared/domain/look-up/codebook.ts';
import { certaintyOf, coverOf, scoreOf, type Candidate } from '../../shared/domain/look-up/decide.ts';
import { describePicture } from '../../shared/domain/look-up/describe-picture.ts';
import { changePicture, CHANGE_NAMES, type ChangeName } from '../support/changes.ts';
import { type Grey } from '../support/scene.ts';
import { seededRandom } from '../support/seeded-random.ts';
import type { LabelledSet, SetPicture } from './look-up-set.ts';

/** One look-up and what came of it. */
export interface Trial {
  readonly kind: ChangeName | 'absent';
  readonly id: number;
  readonly scene: string;
  readonly real: boolean;
  readonly burst: number;
  readonly answer: string;
  readonly hits: readonly { readonly id: number; readonly confidence: number }[];
  /** Best hit's region within 3 % of the true one, and turn, mirror and polarity right. */
  readonly placed: boolean;
  readonly wallMs: number;
  readonly cpuMs: number;
  readonly candidates: readonly Seen[];
  /** The nearest frame by the plain hash and its distance, where one was given. */
  readonly plain: { readonly id: number; readonly distance: number } | null;
}

/** A candidate in numbers. */
export interface Seen {
  readonly id: number;
  readonly inliers: number;
  readonly correlation: number;
  readonly blocks: number;
  readonly cover: number;
  readonly certainty: number;
  readonly score: number;
}

/** Drawings and graphics among the photographs: they are in the archive, but nobody looks for them. */
const NO_PHOTOGRAPHS = /^(Painting|Infinite|Fossa|umang|wood|Elephants|analogpattern)/;
const REAL_SHARE = 0.3;
const BURST_SHARE = 0.35;

async function greyOf(path: string, longSide: number | null): Promise<Grey> {
  const input = sharp(path);
  const sized =
    longSide === null ? input : input.resize(longSide, longSide, { fit: 'inside', withoutEnlargement: true });
  const { data, info } = await sized.greyscale().raw().toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), width: info.width, height: info.height };
}

function seenFrom(candidate: Candidate): Seen {
  return {
    id: candidate.pictureId,
    inliers: candidate.inliers,
    correlation: candidate.likeness.correlation,
    blocks: candidate.likeness.blocks,
    cover: coverOf(candidate),
    certainty: certaintyOf(candidate),
    score: scoreOf(candidate),
  };
}

/** A repeatable draw of frames of one half: photographs and bursts more often than they are. */
function drawFrames(set: LabelledSet, half: 0 | 1, count: number, seed: number): SetPicture[] {
  const random = seededRandom(seed);
  const pool = set.frames.filter((one) => one.half === half && !NO_PHOTOGRAPHS.test(one.scene));
  const real = pool.filter((one) => one.real);
  const burst = pool.filter((one) => !one.real && one.frames > 1);
  const single = pool.filter((one) => !one.real && one.frames === 1);
  const drawn: SetPicture[] = [];
  while (drawn.length < count) {
    const dice = random();
    const from = dice < REAL_SHARE ? real : dice < REAL_SHARE + BURST_SHARE ? burst : single;
    const one = from[Math.floor(random() * from.length)];
    if (one !== undefined) drawn.push(one);
  }
  return drawn;
}

const [setFolder = '', indexFolder = '', out = '', halfText, perKind, absentCount, phashModule, kinds] =
  process.argv.slice(2);
const half = halfText === '1' ? 1 : 0;
const set: LabelledSet = JSON.parse(readFileSync(join(setFolder, 'manifest.json'), 'utf8'));
const codebook = readCodebook(readFileSync(new URL('../../assets/codebook.bin', import.meta.url)));
if (!codebook.ok) throw new Error(codebook.reason);
const kernels = createFastKernels();
let observed: readonly Candidate[] = [];
const preview = async (id: number, part = 'frames'): Promise<Preview> => {
  const grey = await greyOf(join(setFolder, part, `${id}.jpg`), 512);
  return { luma: grey.data, width: grey.width, height: grey.height };
};
const index = openLookUpIndex({
  folder: indexFolder,
  codebook: codebook.value,
  kernels,
  verify: (id, size) => preview(id, size === 'small' ? 'frames-small' : 'frames'),
  neighbours: (id) =>
    [-3, -2, -1, 1, 2, 3]
      .map((step) => id + step)
      .filter((near) => Math.floor((near - 1) / 36) === Math.floor((id - 1) / 36)),
  observe: (candidates) => {
    observed = candidates;
  },
});

if (index.size() === 0) {
  const before = process.cpuUsage();
  let describing = 0;
  for (const { id } of set.frames) {
    const { luma, width, height } = await preview(id);
    const start = process.cpuUsage();
    index.add(id, id, describePicture(luma, width, height, kernels));
    describing += process.cpuUsage(start).user / 1000;
  }
  index.flush();
  console.log(
    `indexed ${index.size()}: ${(describing / index.size()).toFixed(1)} ms CPU a frame to describe and add, ${(process.cpuUsage(before).user / 1000 / index.size()).toFixed(1)} ms with decoding`,
  );
}

type PlainHash = (image: Uint8Array) => Promise<string>;
const loaded: unknown =
  phashModule === undefined || phashModule === '' ? null : await import(pathToFileURL(phashModule).href);
const isModule = (value: unknown): value is { default: PlainHash } =>
  typeof value === 'object' && value !== null && 'default' in value;
const plainHash: PlainHash | null = isModule(loaded) ? loaded.default : null;
const plainHashes = new Map<number, string>();
if (plainHash !== null) {
  for (const { id } of set.frames)
    plainHashes.set(id, await plainHash(readFileSync(join(setFolder, 'frames', `${id}.jpg`))));
}

async function nearestPlain(picture: Grey): Promise<Trial['plain']> {
  if (plainHash === null) return null;
  const raw = { width: picture.width, height: picture.height, channels: 1 } as const;
  const own = await plainHash(await sharp(picture.data, { raw }).png().toBuffer());
  let best = { id: 0, distance: Infinity };
  for (const [id, hash] of plainHashes) {
    let distance = 0;
    for (let i = 0; i < own.length; i++) if (own[i] !== hash[i]) distance++;
    if (distance < best.distance) best = { id, distance };
  }
  return best;
}

async function lookFor(picture: Grey) {
  observed = [];
  const cpu = process.cpuUsage();
  const start = performance.now();
  const found = await index.find(picture.data, picture.width, picture.height, { limit: 5 });
  return { found, wallMs: performance.now() - start, cpuMs: process.cpuUsage(cpu).user / 1000 };
}

function write(trial: Trial): void {
  appendFileSync(out, `${JSON.stringify(trial)}\n`);
}

if (existsSync(out)) rmSync(out);
for (const [number, kind] of CHANGE_NAMES.entries()) {
  if (kinds !== undefined && !kinds.split(',').includes(kind)) continue;
  for (const one of drawFrames(set, half, Number(perKind ?? 20), 1000 * (half + 1) + number)) {
    const frame = await greyOf(join(setFolder, 'frames', `${one.id}.jpg`), null);
    const changed = await changePicture(frame, kind, one.id * 31 + number);
    const { found, wallMs, cpuMs } = await lookFor(changed.picture);
    const [first] = found.hits;
    const near = (a: number, b: number) => Math.abs(a - b) < 0.03;
    write({
      kind,
      id: one.id,
      scene: one.scene,
      real: one.real,
      burst: one.frames,
      answer: found.answer,
      hits: found.hits.map((hit) => ({ id: hit.pictureId, confidence: hit.confidence })),
      placed:
        first !== undefined &&
        near(first.region.x, changed.region.x) &&
        near(first.region.y, changed.region.y) &&
        near(first.region.width, changed.region.width) &&
        near(first.region.height, changed.region.height) &&
        first.turned === changed.turned &&
        first.mirrored === changed.mirrored &&
        first.negative === changed.negative,
      wallMs,
      cpuMs,
      candidates: observed.map(seenFrom),
      plain: await nearestPlain(changed.picture),
    });
  }
}
const absent = set.absent.filter((one) => one.half === half).slice(0, Number(absentCount ?? 100));
for (const one of absent) {
  const { luma, width, height } = await preview(one.id, 'absent');
  const picture: Grey = { data: Uint8Array.from(luma), width, height };
  const { found, wallMs, cpuMs } = await lookFor(picture);
  write({
    kind: 'absent',
    id: one.id,
    scene: one.scene,
    real: one.real,
    burst: 1,
    answer: found.answer,
    hits: found.hits.map((hit) => ({ id: hit.pictureId, confidence: hit.confidence })),
    placed: false,
    wallMs,
    cpuMs,
    candidates: observed.map(seenFrom),
    plain: await nearestPlain(picture),
  });
}
index.close();
