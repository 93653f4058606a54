import { z } from 'zod';
import type { Archive } from '../archive/archive.ts';
import { command, query } from '../db/query.ts';

/** Versions of a frame from worst to best for showing: a finished positive scan shows best, infrared never. */
const VERSION_RANK: readonly string[] = ['infrared', 'small', 'copy', 'raw', 'rescan', 'scan', 'positive'];

const rankRow = z.object({
  id: z.number(),
  version: z.string(),
  state: z.string(),
  pixels: z.number().nullable(),
  best: z.number(),
});

/** Chooses the version to show of frames whose best nobody has chosen. */
export function chooseBest(archive: Archive, frameIds: ReadonlySet<number>): void {
  const { db } = archive;
  for (const frameId of frameIds) {
    const versions = query(
      db,
      rankRow,
      `SELECT frame_scan.id, frame_scan.version, scan.state, scan.width * scan.height AS pixels, frame_scan.best
       FROM frame_scan JOIN scan ON scan.id = frame_scan.scan_id WHERE frame_scan.frame_id = :frameId ORDER BY frame_scan.id`,
    ).all({ frameId });
    if (versions.some((version) => version.best === 1)) continue;
    const score = (version: (typeof versions)[number]) =>
      Number(version.state === 'complete') * 1000 + VERSION_RANK.indexOf(version.version) * 10;
    const [best] = [...versions].sort(
      (a, b) => score(b) - score(a) || (b.pixels ?? 0) - (a.pixels ?? 0) || a.id - b.id,
    );
    if (best) command(db, 'UPDATE frame_scan SET best = 1 WHERE id = :id')({ id: best.id });
  }
}
