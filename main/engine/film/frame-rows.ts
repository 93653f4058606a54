import { z } from 'zod';
import { type Frame, type FrameVersion, pencilMark } from '../../../shared/api/methods/film-methods.ts';
import { adjustOfFrame, shownName } from '../colour/looks.ts';
import { dateColumns, dateFromRow } from '../db/calendar-date.ts';
import { query, type ReadableDb, type Values } from '../db/query.ts';
import { placeColumns, placeFromRow } from '../filing/place-row.ts';
import { pictureId } from '../scans/picture-id.ts';

const bit = z.number().transform((value) => value === 1);

const frameRow = z.object({
  id: z.number(),
  rollId: z.number(),
  ordinal: z.number(),
  label: z.string(),
  frameFormat: z.string(),
  caption: z.string().nullable(),
  place: z.string().nullable(),
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  shutter: z.string().nullable(),
  aperture: z.number().nullable(),
  lens: z.string().nullable(),
  filter: z.string().nullable(),
  note: z.string().nullable(),
  turned: z.number(),
  mirrored: bit,
  outing_id: z.number().nullable(),
  outing_title: z.string().nullable(),
  tags: z.string(),
  marks: z.string(),
  faults: z.string(),
  ...placeColumns,
  ...dateColumns('taken'),
});

/** The outing of a frame: its own, or the only one that its whole roll was on. */
export const OUTING_OF_FRAME = `coalesce(frame.outing_id, (SELECT max(outing_id) FROM outing_roll
  WHERE outing_roll.roll_id = frame.roll_id AND outing_roll.whole = 1 GROUP BY outing_roll.roll_id HAVING count(*) = 1))`;

const SELECT = `
SELECT frame.id, frame.roll_id AS rollId, frame.ordinal, frame.label,
  coalesce(frame.frame_format, roll.frame_format) AS frameFormat, frame.caption, frame.place, frame.latitude,
  frame.longitude, frame.shutter, frame.aperture, lens.name AS lens, frame.filter, frame.note, frame.turned,
  frame.mirrored, frame.taken_edtf, frame.taken_typed, frame.taken_earliest, frame.taken_latest,
  outing.id AS outing_id, outing.title AS outing_title,
  (SELECT json_group_array(tag.name ORDER BY tag.name) FROM frame_tag JOIN tag ON tag.id = frame_tag.tag_id
    WHERE frame_tag.frame_id = frame.id) AS tags,
  (SELECT json_group_array(json_object('kind', kind, 'x', x, 'y', y, 'width', width, 'height', height) ORDER BY id)
    FROM pencil_mark WHERE pencil_mark.frame_id = frame.id) AS marks,
  (SELECT json_group_array(json_object('kind', kind, 'edge', edge, 'fromEdgeMm', from_edge_mm, 'note', fault.note) ORDER BY id)
    FROM fault WHERE fault.frame_id = frame.id) AS faults,
  binder.id AS binderId, binder.name AS binder, page.id AS pageId, page.number AS page, strip.row,
  strip.position + frame.strip_position - 1 AS position
FROM frame JOIN roll ON roll.id = frame.roll_id
LEFT JOIN lens ON lens.id = frame.lens_id
LEFT JOIN outing ON outing.id = ${OUTING_OF_FRAME}
LEFT JOIN strip ON strip.id = frame.strip_id
LEFT JOIN page ON page.id = strip.page_id
LEFT JOIN binder ON binder.id = page.binder_id`;

const versionRow = z.object({
  frame_id: z.number(),
  frameScanId: z.number(),
  scanId: z.number(),
  sha256: z.string(),
  colourKey: z.string().nullable(),
  shown: z.string().nullable(),
  rollLook: z.string().nullable(),
  frameLook: z.string().nullable(),
  page: z.number(),
  path: z.string(),
  version: z.string(),
  best: bit,
  state: z.string(),
  pixelWidth: z.number().nullable(),
  pixelHeight: z.number().nullable(),
  x: z.number(),
  y: z.number(),
  width: z.number(),
  height: z.number(),
  turned: z.number(),
  mirrored: bit,
  reason: z.string(),
  confidence: z.number(),
});

const VERSIONS = `
SELECT frame_scan.frame_id, frame_scan.id AS frameScanId, scan.id AS scanId, scan.sha256, roll_colour.key AS colourKey,
  roll_colour.shown, roll.look_json AS rollLook, frame.look_json AS frameLook, frame_scan.page,
  scan_root.path || '/' || scan.path AS path, frame_scan.version, frame_scan.best,
  CASE WHEN scan.missing_since IS NULL THEN scan.state ELSE 'missing' END AS state,
  picture.width AS pixelWidth, picture.height AS pixelHeight, frame_scan.x, frame_scan.y, frame_scan.width,
  frame_scan.height, frame_scan.turned, frame_scan.mirrored, frame_scan.reason, frame_scan.confidence
FROM frame_scan JOIN scan ON scan.id = frame_scan.scan_id JOIN scan_root ON scan_root.id = scan.root_id
JOIN frame ON frame.id = frame_scan.frame_id JOIN roll ON roll.id = frame.roll_id
LEFT JOIN picture ON picture.sha256 = scan.sha256 AND picture.page = frame_scan.page
LEFT JOIN roll_colour ON roll_colour.roll_id = roll.id AND frame_scan.best = 1
WHERE frame_scan.frame_id IN (SELECT value FROM json_each(:ids))
ORDER BY frame_scan.frame_id, frame_scan.best DESC, frame_scan.id`;

/** The frames for which `condition` holds, along the film, each with its versions. */
export function findFrames(db: ReadableDb, condition: string, values: Values): Frame[] {
  const rows = query(db, frameRow, `${SELECT} WHERE ${condition} ORDER BY frame.roll_id, frame.ordinal`).all(
    values,
  );
  const versions = versionsOfFrames(
    db,
    rows.map((row) => row.id),
  );
  return rows.map((row) => frameFromRow(row, versions.get(row.id) ?? []));
}

/** The versions of frames, best first, by frame id. */
export function versionsOfFrames(db: ReadableDb, ids: readonly number[]): Map<number, FrameVersion[]> {
  const found = new Map<number, FrameVersion[]>();
  for (const row of query(db, versionRow, VERSIONS).all({ ids: JSON.stringify(ids) })) {
    const { frame_id: frameId, sha256, colourKey, shown, rollLook, frameLook, ...version } = row;
    const { pixelWidth, pixelHeight, x, y, width, height, ...rest } = version;
    const name = shownName({ key: colourKey, shown }, adjustOfFrame(rollLook, frameLook));
    const told = {
      ...rest,
      pictureId: pictureId(sha256, row.page, name),
      width: pixelWidth,
      height: pixelHeight,
      region: { x, y, width, height },
    };
    found.set(frameId, [...(found.get(frameId) ?? []), told]);
  }
  return found;
}

const faultsJson = z.array(
  z.strictObject({
    kind: z.string(),
    edge: z.enum(['left', 'right', 'top', 'bottom']).nullable(),
    fromEdgeMm: z.number().nullable(),
    note: z.string().nullable(),
  }),
);

function frameFromRow(row: z.output<typeof frameRow>, versions: FrameVersion[]): Frame {
  const { outing_id: outingId, outing_title: title } = row;
  return {
    id: row.id,
    rollId: row.rollId,
    ordinal: row.ordinal,
    label: row.label,
    frameFormat: row.frameFormat,
    caption: row.caption,
    place: row.place,
    latitude: row.latitude,
    longitude: row.longitude,
    taken: dateFromRow(row, 'taken'),
    shutter: row.shutter,
    aperture: row.aperture,
    lens: row.lens,
    filter: row.filter,
    note: row.note,
    turned: row.turned,
    mirrored: row.mirrored,
    outing: outingId === null || title === null ? null : { id: outingId, name: title },
    tags: z.array(z.string()).parse(JSON.parse(row.tags)),
    marks: z.array(pencilMark).parse(JSON.parse(row.marks)),
    faults: faultsJson.parse(JSON.parse(row.faults)),
    versions,
    lies: placeFromRow(row),
  };
}
