import { setTimeout as rest } from 'node:timers/promises';
import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import { describePicture } from '../../../shared/domain/look-up/describe-picture.ts';
import { command, inTransaction, query, type ReadableDb } from '../db/query.ts';
import { countRow } from '../db/rows.ts';
import type { Work } from '../jobs/jobs.ts';
import { createFastKernels } from './fast-kernels.ts';

/** Pictures whose description is flushed and noted together. */
const PER_FLUSH = 32;
/** A breath after every picture, in ms, so that somebody's search comes first. */
const BREATH_MS = 2;

const waitingRow = z.object({ id: z.number(), frameId: z.number() });

/** Pictures that show a frame and are not in the index yet; infrared shows nothing to find. */
const WAITING = `FROM picture JOIN scan ON scan.sha256 = picture.sha256
  JOIN frame_scan ON frame_scan.scan_id = scan.id AND frame_scan.page = picture.page AND frame_scan.version <> 'infrared'
  WHERE picture.described_at IS NULL AND picture.role <> 'infrared'`;

/** How many pictures are in the index, and how many wait to be described. */
export function countDescribed(db: ReadableDb): { described: number; waiting: number } {
  const count = (sql: string) => query(db, countRow, sql).find()?.count ?? 0;
  return {
    described: count('SELECT count(*) AS count FROM picture WHERE described_at IS NOT NULL'),
    waiting: count(`SELECT count(DISTINCT picture.id) AS count ${WAITING}`),
  };
}

/**
 * Describes the pictures of the archive for the index, a few at a time. Descriptions are on the disk before the rows
 * that speak of them, so it may be killed at any moment.
 */
export const describePictures: Work = async (archive, _input, progress, signal) => {
  const index = archive.pictures.index();
  const kernels = createFastKernels();
  const some = query(
    archive.db,
    waitingRow,
    `SELECT picture.id, min(frame_scan.frame_id) AS frameId ${WAITING} GROUP BY picture.id ORDER BY picture.id LIMIT ${PER_FLUSH}`,
  );
  const done = command(archive.db, 'UPDATE picture SET described_at = :at WHERE id = :id');
  let described = 0;
  for (let batch = some.all(); batch.length > 0; batch = some.all()) {
    // Counted anew for every batch: more pictures come in while this goes on.
    progress.total(described + countDescribed(archive.db).waiting);
    for (const picture of batch) {
      if (signal.aborted) throw appError('cancelled', {});
      const preview = await archive.pictures.preview(picture.id, 'large');
      if (preview) {
        index.add(
          picture.id,
          picture.frameId,
          describePicture(preview.luma, preview.width, preview.height, kernels),
        );
      }
      described += 1;
      progress.step(preview === null);
      await rest(BREATH_MS);
    }
    index.flush();
    const at = archive.now().toISOString();
    inTransaction(archive.db, () => batch.forEach((picture) => done({ id: picture.id, at })));
  }
  return { described };
};
