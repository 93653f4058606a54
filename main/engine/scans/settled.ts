import { stat } from 'node:fs/promises';
import { translateFileError } from '../files/file-error.ts';
import { readScan, type ReadOptions, type ScanReading } from './read-scan.ts';

/** A look at a file at a moment. */
export interface FileGlimpse {
  readonly sizeBytes: number;
  readonly modifiedNs: bigint;
  /** On a clock that only goes forward, in ms. */
  readonly atMs: number;
}

/** Whether a file lay still between two looks at least `restMs` apart: not empty, same size, same time of change. */
export function hasRested(before: FileGlimpse, after: FileGlimpse, restMs: number): boolean {
  return (
    after.sizeBytes > 0 &&
    before.sizeBytes === after.sizeBytes &&
    before.modifiedNs === after.modifiedNs &&
    after.atMs - before.atMs >= restMs
  );
}

/** How to wait; clock and waiting are given so that tests need no time. */
export interface Patience {
  /** How long a file must lie still, in ms. */
  readonly restMs: number;
  /** When to give up, in ms from the start. */
  readonly mostMs: number;
  readonly now: () => number;
  readonly wait: (ms: number) => Promise<void>;
}

/**
 * Reads a file that may still be written, once it lies still and reads to its end; null when that has not come about
 * within `mostMs` (a later look will find it). A file that lies still and is damaged is damaged: that is its reading.
 * @throws {AppError} file_missing, file_unreadable.
 */
export async function readWhenSettled(
  path: string,
  options: Partial<ReadOptions> & Pick<ReadOptions, 'today'>,
  patience: Patience,
): Promise<ScanReading | null> {
  const until = patience.now() + patience.mostMs;
  let before = await glimpse(path, patience.now());
  while (patience.now() < until) {
    await patience.wait(patience.restMs);
    const after = await glimpse(path, patience.now());
    if (hasRested(before, after, patience.restMs)) {
      const reading = await readScan(path, options);
      if (reading.state !== 'unfinished') return reading;
    }
    before = after;
  }
  return null;
}

async function glimpse(path: string, atMs: number): Promise<FileGlimpse> {
  try {
    const { size, mtimeNs } = await stat(path, { bigint: true });
    return { sizeBytes: Number(size), modifiedNs: mtimeNs, atMs };
  } catch (error) {
    throw translateFileError(error, path, 'file');
  }
}
