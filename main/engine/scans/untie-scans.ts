import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Input } from '../../../shared/api/contract.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query } from '../db/query.ts';
import { chooseBest } from './choose-best.ts';

const tieRow = z.object({ id: z.number(), frameId: z.number() });

/**
 * Takes scans off the frames of a roll, or off one frame of it. The frames stay, and so do the files; where a scan stood
 * for its frame, the best of what is left does now.
 * @throws {AppError} scan_not_found when one of the scans shows nothing there
 */
export function untieScans(archive: Archive, { rollId, scanIds, frameId }: Input<'scans.untie'>): number {
  const { db } = archive;
  const tiesOf = query(
    db,
    tieRow,
    `SELECT frame_scan.id, frame_scan.frame_id AS frameId FROM frame_scan JOIN frame ON frame.id = frame_scan.frame_id
     WHERE frame.roll_id = :rollId AND frame_scan.scan_id = :scanId AND (:frameId IS NULL OR frame.id = :frameId)`,
  );
  const untie = command(db, 'DELETE FROM frame_scan WHERE id = :id');
  const touched = new Set<number>();
  let untied = 0;
  for (const scanId of new Set(scanIds)) {
    const ties = tiesOf.all({ rollId, scanId, frameId });
    if (ties.length === 0) throw appError('scan_not_found', { name: String(scanId) });
    for (const tie of ties) {
      untie({ id: tie.id });
      touched.add(tie.frameId);
      untied += 1;
    }
  }
  chooseBest(archive, touched);
  return untied;
}
