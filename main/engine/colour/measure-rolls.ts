import { z } from 'zod';
import { appError, isAppError } from '../../../shared/api/errors.ts';
import type { Archive } from '../archive/archive.ts';
import { query } from '../db/query.ts';
import { numberRow } from '../db/rows.ts';
import type { Jobs, Work } from '../jobs/jobs.ts';
import { countSources, findMeasured, measureRoll } from './measure-roll.ts';

const jobInput = z.object({ rollIds: z.array(z.number()) });

/** Measures the colour of rolls, so that negatives are shown as positives and casts are known; tells of every frame. */
export const measureRolls: Work = async (archive, input, progress, signal) => {
  const { rollIds } = jobInput.parse(input);
  const waiting = rollIds.filter((rollId) => findMeasured(archive.db, rollId) === null);
  const frames = new Map(waiting.map((rollId) => [rollId, countSources(archive.db, rollId)]));
  progress.total([...frames.values()].reduce((sum, count) => sum + count, 0));
  for (const [rollId, count] of frames) {
    let told = 0;
    await measureRoll(archive, rollId, signal, () => {
      told += 1;
      progress.step();
    });
    // Someone else had begun with this roll: its frames were not told of here.
    for (; told < count; told += 1) progress.step();
  }
  return { rolls: rollIds.length };
};

/** Starts to measure those of the rolls that are not; null where all are, the job that does it where one runs. */
export function startMeasuring(archive: Archive, jobs: Jobs, rollIds: readonly number[]): number | null {
  const waiting = rollIds.filter((rollId) => findMeasured(archive.db, rollId) === null);
  if (waiting.length === 0) return null;
  const numbers = query(
    archive.db,
    numberRow,
    'SELECT number FROM roll WHERE id IN (SELECT value FROM json_each(:ids)) ORDER BY number_sort',
  ).all({ ids: JSON.stringify(waiting) });
  const [first, ...others] = numbers.map(({ number }) => number);
  const more = others.length === 0 ? '' : ` and ${others.length} more`;
  const title = `Measuring colour of ${first ?? ''}${more}`;
  const same = jobs
    .list()
    .find((job) => job.kind === 'measure' && job.state === 'running' && job.title === title);
  return (same ?? jobs.start('measure', title, { rollIds: waiting })).id;
}

/**
 * Waits until the rolls are measured, by a job that tells how far it is; called off, the job is stopped.
 * @throws {AppError} cancelled
 */
export async function waitForMeasuring(
  archive: Archive,
  jobs: Jobs,
  rollIds: readonly number[],
  signal: AbortSignal,
): Promise<void> {
  const id = startMeasuring(archive, jobs, rollIds);
  if (id === null) return;
  const stop = () => void jobs.stop(id);
  signal.addEventListener('abort', stop);
  try {
    await jobs.report(id);
  } catch (error) {
    if (signal.aborted || isAppError(error, 'cancelled')) throw appError('cancelled', {}, error);
    throw error;
  } finally {
    signal.removeEventListener('abort', stop);
  }
}

const intentRow = z.object({ id: z.number(), intent: z.string() });

/** How the user says that each roll is to be read, by roll id: compared before and after an undo. */
export function readingsOfRolls(archive: Archive): Map<number, string> {
  const sql = `SELECT id, scan_polarity || ' ' || scan_tone AS intent FROM roll`;
  return new Map(
    query(archive.db, intentRow, sql)
      .all()
      .map(({ id, intent }) => [id, intent]),
  );
}

/** Starts to measure the rolls that are read otherwise than before. */
export function measureReadOtherwise(
  archive: Archive,
  jobs: Jobs,
  before: ReadonlyMap<number, string>,
): void {
  const changed = [...readingsOfRolls(archive)].filter(
    ([id, intent]) => before.has(id) && before.get(id) !== intent,
  );
  startMeasuring(
    archive,
    jobs,
    changed.map(([id]) => id),
  );
}
