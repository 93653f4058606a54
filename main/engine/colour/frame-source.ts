import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Adjust } from '../../../shared/domain/colour/look.ts';
import { query, type ReadableDb } from '../db/query.ts';
import { adjustOfFrame } from './looks.ts';

const bit = z.number().transform((value) => value === 1);

const sourceRow = z.object({
  frameId: z.number(),
  rollId: z.number(),
  roll: z.string(),
  label: z.string(),
  sha256: z.string().nullable(),
  page: z.number().nullable(),
  root: z.string().nullable(),
  path: z.string().nullable(),
  remarks: z.string().nullable(),
  x: z.number().nullable(),
  y: z.number().nullable(),
  width: z.number().nullable(),
  height: z.number().nullable(),
  frameTurned: z.number(),
  frameMirrored: bit,
  versionTurned: z.number().nullable(),
  versionMirrored: bit.nullable(),
  rollLook: z.string().nullable(),
  frameLook: z.string().nullable(),
});

const SOURCES = `SELECT frame.id AS frameId, frame.roll_id AS rollId, roll.number AS roll, frame.label, scan.sha256,
  frame_scan.page, scan_root.path AS root, scan.path, scan.remarks_json AS remarks, frame_scan.x, frame_scan.y,
  frame_scan.width, frame_scan.height, frame.turned AS frameTurned, frame.mirrored AS frameMirrored,
  frame_scan.turned AS versionTurned, frame_scan.mirrored AS versionMirrored, roll.look_json AS rollLook,
  frame.look_json AS frameLook
FROM frame JOIN roll ON roll.id = frame.roll_id
LEFT JOIN frame_scan ON frame_scan.id = (SELECT version.id FROM frame_scan AS version
  JOIN scan AS file ON file.id = version.scan_id AND file.state IN ('complete', 'damaged')
  WHERE version.frame_id = frame.id AND version.version <> 'infrared' ORDER BY version.best DESC, version.id LIMIT 1)
LEFT JOIN scan ON scan.id = frame_scan.scan_id LEFT JOIN scan_root ON scan_root.id = scan.root_id`;

/** The scan that a frame is shown by. */
export interface FrameScan {
  readonly sha256: string;
  readonly page: number;
  readonly root: string;
  readonly path: string;
  /** A raw linear scan that does not say so. */
  readonly linear: boolean;
  readonly region: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
  readonly turned: number;
  readonly mirrored: boolean;
}

/** A frame with the scan that it is shown by (null for none) and what it is shown with. */
export interface FrameSource {
  readonly frameId: number;
  readonly rollId: number;
  readonly roll: string;
  readonly label: string;
  readonly scan: FrameScan | null;
  readonly adjust: Adjust;
  readonly rollLook: string | null;
  readonly frameLook: string | null;
}

/** Frames by id in the order along their rolls, each with the scan that it is shown by. */
export function sourcesOfFrames(db: ReadableDb, ids: readonly number[]): FrameSource[] {
  return query(
    db,
    sourceRow,
    `${SOURCES} WHERE frame.id IN (SELECT value FROM json_each(:ids)) ORDER BY roll.number_sort, frame.ordinal`,
  )
    .all({ ids: JSON.stringify(ids) })
    .map(sourceFromRow);
}

/** One frame with the scan that it is shown by. @throws {AppError} frame_not_found */
export function requireSource(db: ReadableDb, frameId: number): FrameSource {
  const found = sourcesOfFrames(db, [frameId])[0];
  if (found === undefined) throw appError('frame_not_found', { roll: '', frame: String(frameId) });
  return found;
}

const fileRow = z.object({ frameId: z.number() });

/** The frame that a file on the disk is the scan of; null where it is none, or of several. */
export function findFrameOfFile(db: ReadableDb, path: string): number | null {
  const frames = query(
    db,
    fileRow,
    `SELECT frame_scan.frame_id AS frameId FROM scan JOIN scan_root ON scan_root.id = scan.root_id
     JOIN frame_scan ON frame_scan.scan_id = scan.id
     WHERE scan_root.path || '/' || scan.path = :path AND frame_scan.version <> 'infrared' LIMIT 2`,
  ).all({ path });
  return frames.length === 1 ? (frames[0]?.frameId ?? null) : null;
}

function sourceFromRow(row: z.output<typeof sourceRow>): FrameSource {
  const { frameId, rollId, roll, label, rollLook, frameLook, sha256, page, root, path } = row;
  const whole = { x: row.x ?? 0, y: row.y ?? 0, width: row.width ?? 1, height: row.height ?? 1 };
  const scan =
    sha256 === null || page === null || root === null || path === null
      ? null
      : {
          sha256,
          page,
          root,
          path,
          linear: z
            .array(z.string())
            .parse(JSON.parse(row.remarks ?? '[]'))
            .includes('linear'),
          region: whole,
          turned: (((row.frameTurned + (row.versionTurned ?? 0)) % 360) + 360) % 360,
          mirrored: row.frameMirrored !== (row.versionMirrored ?? false),
        };
  return {
    frameId,
    rollId,
    roll,
    label,
    scan,
    adjust: adjustOfFrame(rollLook, frameLook),
    rollLook,
    frameLook,
  };
}
