import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Scan } from '../../../shared/api/methods/scan-methods.ts';
import { basename } from 'node:path';
import { changeRow } from '../db/change-row.ts';
import { query, type ReadableDb } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { startDescribing } from '../look-up/start-describing.ts';
import { acceptScans } from './accept-scans.ts';
import { proposeScans } from './propose-scans.ts';
import { isPresent, realFolder } from './scan-roots.ts';
import { untieScans } from './untie-scans.ts';

const rootRow = z.object({
  id: z.number(),
  path: z.string(),
  scans: z.number(),
  lastSeenAt: z.string().nullable(),
});

const scanRow = z.object({
  id: z.number(),
  path: z.string(),
  kind: z.string(),
  state: z.string(),
  reason: z.string().nullable(),
  remarks: z.string(),
  sizeBytes: z.number(),
  sha256: z.string(),
  pages: z.number(),
  width: z.number().nullable(),
  height: z.number().nullable(),
  profile: z.string().nullable(),
  infrared: z.number(),
  captured: z.string().nullable(),
  scanned: z.string().nullable(),
  missing: z.number(),
  frames: z.string(),
});

const framesJson = z.array(z.strictObject({ id: z.number(), roll: z.string(), label: z.string() }));

const SCANS = `SELECT scan.id, scan_root.path || '/' || scan.path AS path, scan.kind, scan.state, scan.reason,
  scan.remarks_json AS remarks, scan.size_bytes AS sizeBytes, scan.sha256, scan.pages, scan.width, scan.height,
  scan.profile, scan.infrared, scan.captured, scan.scanned, scan.missing_since IS NOT NULL AS missing,
  (SELECT json_group_array(json_object('id', frame.id, 'roll', roll.number, 'label', frame.label) ORDER BY frame.ordinal)
    FROM frame_scan JOIN frame ON frame.id = frame_scan.frame_id JOIN roll ON roll.id = frame.roll_id
    WHERE frame_scan.scan_id = scan.id) AS frames
  FROM scan JOIN scan_root ON scan_root.id = scan.root_id`;

function findScans(db: ReadableDb, condition: string, id: number): Scan[] {
  return query(db, scanRow, `${SCANS} WHERE ${condition} ORDER BY scan.path_compare, scan.id`)
    .all({ id })
    .map((row) => ({
      ...row,
      remarks: z.array(z.string()).parse(JSON.parse(row.remarks)),
      infrared: row.infrared === 1,
      missing: row.missing === 1,
      frames: framesJson.parse(JSON.parse(row.frames)),
    }));
}

export const SCAN_HANDLERS: HandlersOf<
  | 'roots.list'
  | 'roots.repoint'
  | 'scans.get'
  | 'scans.ofRoll'
  | 'scans.read'
  | 'scans.propose'
  | 'scans.accept'
  | 'scans.untie'
> = {
  'roots.list': ({ db }) =>
    query(
      db,
      rootRow,
      `SELECT id, path, last_seen_at AS lastSeenAt, (SELECT count(*) FROM scan WHERE root_id = scan_root.id) AS scans
       FROM scan_root ORDER BY path`,
    )
      .all()
      .map((root) => ({ ...root, present: isPresent(root) })),

  'roots.repoint': (archive, { id, path }) => {
    const folder = realFolder(path);
    const clash = query(
      archive.db,
      z.object({ id: z.number() }),
      'SELECT id FROM scan_root WHERE path = :folder',
    ).find({ folder });
    if (clash && clash.id !== id)
      throw appError('conflict', { reason: `${folder} is known as another place of scans.` });
    changeRow(archive.db, 'scan_root', id, { path: folder, last_seen_at: archive.now().toISOString() });
    return {};
  },

  'scans.get': ({ db }, { id }) => {
    const scan = findScans(db, 'scan.id = :id', id)[0];
    if (!scan) throw appError('scan_not_found', { name: String(id) });
    return scan;
  },

  'scans.ofRoll': ({ db }, { rollId }) =>
    findScans(
      db,
      `scan.id IN (SELECT scan_id FROM frame_scan JOIN frame ON frame.id = frame_scan.frame_id WHERE frame.roll_id = :id)`,
      rollId,
    ),

  'scans.read': (_archive, { folder }, { jobs }) => {
    const real = realFolder(folder);
    return jobs.start('scan-in', `Reading ${basename(real)}`, { folder: real });
  },

  'scans.propose': (archive, input, { signal }) => proposeScans(archive, input, signal),

  'scans.accept': (archive, input, { jobs }) => {
    const accepted = archive.undo.record(`Tie ${input.files.length} scans to frames`, () =>
      acceptScans(archive, input),
    );
    jobs.start('measure', 'Measuring colour', { rollIds: [input.rollId] });
    startDescribing(archive, jobs);
    return accepted;
  },

  'scans.untie': (archive, input, { jobs }) => {
    const label =
      input.scanIds.length === 1 ? 'Take a scan off its frame' : `Take ${input.scanIds.length} scans off`;
    const untied = archive.undo.record(label, () => untieScans(archive, input));
    jobs.start('measure', 'Measuring colour', { rollIds: [input.rollId] });
    return { untied };
  },
};
