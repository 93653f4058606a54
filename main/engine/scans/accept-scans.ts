import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Input } from '../../../shared/api/contract.ts';
import { fillGaps } from '../../../shared/domain/naming/film-gaps.ts';
import type { Archive } from '../archive/archive.ts';
import { command, query } from '../db/query.ts';
import { ensureFrames, readLabel } from '../film/frames.ts';
import { chooseBest } from './choose-best.ts';

type Accepted = Input<'scans.accept'>;

const scanRow = z.object({ id: z.number(), state: z.string() });

/** Records which frames the scans of a roll show. Frames that the film must have between them are made too. */
export function acceptScans(archive: Archive, accepted: Accepted): { framesAdded: number; linked: number } {
  const { db } = archive;
  for (const { scanId } of accepted.files) {
    const found = query(db, scanRow, 'SELECT id, state FROM scan WHERE id = :scanId').find({ scanId });
    if (!found) throw appError('scan_not_found', { name: String(scanId) });
  }
  const labels = accepted.files.flatMap((file) => file.frames.map((frame) => readLabel(frame.label)));
  const before = query(
    db,
    z.object({ label: z.string() }),
    'SELECT label FROM frame WHERE roll_id = :rollId',
  ).all({
    rollId: accepted.rollId,
  });
  const all = fillGaps([...labels, ...before.map((row) => row.label)]);
  const ids = ensureFrames(db, accepted.rollId, all);
  const link = command(
    db,
    `INSERT INTO frame_scan (frame_id, scan_id, page, x, y, width, height, version, confidence, reason)
     VALUES (:frameId, :scanId, :page, :x, :y, :width, :height, :version, :confidence, :reason)
     ON CONFLICT (frame_id, scan_id, page, x, y) DO UPDATE SET version = excluded.version,
       confidence = excluded.confidence, reason = excluded.reason`,
  );
  let linked = 0;
  for (const file of accepted.files) {
    for (const frame of file.frames) {
      const frameId = ids.get(readLabel(frame.label));
      if (frameId === undefined) throw new Error(`No frame ${frame.label} was made`);
      const { region, page } = frame;
      const { scanId, version, confidence, reason } = file;
      linked += link({ frameId, scanId, page, ...region, version, confidence, reason }).changed;
    }
  }
  chooseBest(archive, new Set(labels.map((label) => ids.get(label) ?? 0)));
  return { framesAdded: ids.size - before.length, linked };
}
