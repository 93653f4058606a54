import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Engine } from '../../main/engine/engine.ts';
import { drawSampleScan, type Fault } from '../../main/engine/sample/sample-scans.ts';
import { COAST_ROLL } from '../../main/engine/sample/sample-story.ts';
import { sharp } from '../../main/engine/scans/image-library.ts';
import { lightOf, type Light } from '../../shared/domain/colour/picture.ts';
import { type Film, NORMAL_FILM, randomFrom, scanScene } from './film-simulator.ts';
import { askOf } from './make-archive.ts';

/** Unexposed film around each negative, px. */
export const REBATE_PX = 8;

const FORMAT = { width: 240, height: 160 };

/** A positive scan of the sample as bytes of a JPEG; `fault` holds back channels of the whole roll. */
export function drawPositive(at: number, seed: number, fault: Fault | null): Promise<Buffer> {
  const picture = COAST_ROLL[at % COAST_ROLL.length];
  if (!picture) throw new Error('The sample has no pictures');
  return drawSampleScan(picture, FORMAT, seed, fault);
}

/** How a negative came about: film with its development, and the gains of the scanner per channel. */
export interface Making {
  readonly film: Film;
  readonly gain: readonly [number, number, number];
  /** Stops of exposure over what makes a white surface 1. */
  readonly stops: number;
}

const USUAL_MAKING: Making = { film: NORMAL_FILM, gain: [1.6, 1.6, 1.6], stops: 0 };

/** The same scene as the scan of a masked colour negative, through the film simulator, as bytes of a PNG. */
export async function drawNegative(at: number, seed: number): Promise<Buffer> {
  const { data, info } = await sharp(await drawPositive(at, seed, null))
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  const scene = lightOf({ width, height, channels: 3, samples: data, encoding: 'srgb' });
  return scanNegative(scene, seed, USUAL_MAKING);
}

/** A scene as the scan of a masked colour negative, as bytes of a PNG of 8 bits. */
export function scanNegative(scene: Light, seed: number, { film, gain, stops }: Making): Promise<Buffer> {
  const scanner = { gain, encoding: 'srgb', noise: 0.001, random: randomFrom(seed) } as const;
  const negative = scanScene(scene, film, scanner, stops, REBATE_PX);
  const samples = Uint8Array.from(negative.samples, (code) => Math.round(code / 257));
  return sharp(samples, { raw: { width: negative.width, height: negative.height, channels: 3 } })
    .png()
    .toBuffer();
}

/** Writes scans as the frames 1, 2, 3 … of a roll in a folder of their own, and brings them in. */
export async function bringInRoll(
  engine: Engine,
  folder: string,
  roll: { readonly number: string; readonly stockId: number | null },
  scans: readonly { readonly ending: 'jpg' | 'png'; readonly bytes: Buffer }[],
): Promise<number> {
  const ask = askOf(engine);
  const { id } = await ask('rolls.add', { ...roll, filmFormat: '135', frameFormat: '24x36' });
  const own = join(folder, roll.number);
  mkdirSync(own, { recursive: true });
  for (const [at, { ending, bytes }] of scans.entries()) {
    writeFileSync(join(own, `${roll.number}_${String(at + 1).padStart(2, '0')}.${ending}`), bytes);
  }
  const job = await ask('scans.read', { folder: own });
  await engine.jobReport(job.id);
  const { files } = await ask('scans.propose', { folder: own, rollId: id, options: {} });
  await ask('scans.accept', {
    rollId: id,
    files: files.flatMap(({ scanId, version, reason, confidence, frames }) =>
      scanId === null || frames.length === 0 ? [] : [{ scanId, version, reason, confidence, frames }],
    ),
  });
  // What is asked afterwards finds the roll measured, instead of measuring it a second time.
  const jobs = await ask('jobs.list', {});
  for (const { id: jobId, kind } of jobs) if (kind === 'measure') await engine.jobReport(jobId);
  return id;
}
