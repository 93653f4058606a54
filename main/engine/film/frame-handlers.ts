import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { FrameChange } from '../../../shared/api/methods/film-methods.ts';
import type { Archive } from '../archive/archive.ts';
import { dateValues } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, query, type Value } from '../db/query.ts';
import { idRow } from '../db/rows.ts';
import type { HandlersOf } from '../handler.ts';
import { findFrames } from './frame-rows.ts';
import {
  ensureFrames,
  labelsOfRoll,
  orderByLabel,
  readLabel,
  requireFrame,
  requireFrameByLabel,
} from './frames.ts';

/** How an action on frames is called in undo. */
function framesInWords(archive: Archive, ids: readonly number[]): string {
  if (ids.length !== 1 || ids[0] === undefined) return `${ids.length} frames`;
  return `frame ${requireFrame(archive.db, ids[0]).label}`;
}

/** The id of a lens by name, made when it is not there yet. */
function lensId(archive: Archive, name: string): number {
  const found = query(archive.db, idRow, 'SELECT id FROM lens WHERE name = :name').find({ name });
  return found?.id ?? command(archive.db, 'INSERT INTO lens (name) VALUES (:name)')({ name }).id;
}

function tagId(archive: Archive, name: string): number {
  const found = query(archive.db, idRow, 'SELECT id FROM tag WHERE name = :name').find({ name });
  return found?.id ?? command(archive.db, 'INSERT INTO tag (name) VALUES (:name)')({ name }).id;
}

function columnsOf(archive: Archive, change: FrameChange): Record<string, Value | undefined> {
  return {
    caption: change.caption,
    place: change.place,
    shutter: change.shutter,
    aperture: change.aperture,
    filter: change.filter,
    note: change.note,
    frame_format: change.frameFormat,
    outing_id: change.outingId,
    latitude: change.latitude,
    longitude: change.longitude,
    turned: change.turned,
    mirrored: change.mirrored === undefined ? undefined : Number(change.mirrored),
    lens_id: typeof change.lens === 'string' ? lensId(archive, change.lens) : change.lens,
    ...(change.taken === undefined ? {} : dateValues('taken', change.taken)),
  };
}

function changeFrame(
  archive: Archive,
  id: number,
  columns: Record<string, Value | undefined>,
  change: FrameChange,
) {
  changeRow(archive.db, 'frame', id, columns);
  for (const name of change.addTags ?? []) {
    command(
      archive.db,
      'INSERT INTO frame_tag (tag_id, frame_id) VALUES (:tag, :id) ON CONFLICT DO NOTHING',
    )({ id, tag: tagId(archive, name) });
  }
  for (const name of change.removeTags ?? []) {
    command(
      archive.db,
      'DELETE FROM frame_tag WHERE frame_id = :id AND tag_id = (SELECT id FROM tag WHERE name = :name)',
    )({ id, name });
  }
  if (change.faults) {
    command(archive.db, 'DELETE FROM fault WHERE frame_id = :id')({ id });
    const add = command(
      archive.db,
      `INSERT INTO fault (frame_id, kind, edge, from_edge_mm, note) VALUES (:id, :kind, :edge, :fromEdgeMm, :note)`,
    );
    for (const fault of change.faults) add({ id, ...fault });
  }
}

const tagRow = z.object({ name: z.string(), frames: z.number() });

export const FRAME_HANDLERS: HandlersOf<
  | 'frames.ofRoll'
  | 'frames.get'
  | 'frames.byLabel'
  | 'frames.add'
  | 'frames.change'
  | 'frames.changeEach'
  | 'frames.relabel'
  | 'frames.remove'
  | 'frames.mark'
  | 'frames.chooseBest'
  | 'tags.list'
> = {
  'frames.ofRoll': ({ db }, { rollId }) => findFrames(db, 'frame.roll_id = :rollId', { rollId }),
  'frames.get': ({ db }, { id }) => requireFrame(db, id),
  'frames.byLabel': ({ db }, { roll, label }) => ({ id: requireFrameByLabel(db, roll, label) }),

  'frames.add': (archive, { rollId, labels }) => {
    archive.undo.record(`Add ${labels.length} frames`, () => ensureFrames(archive.db, rollId, labels));
    return {};
  },

  'frames.change': (archive, { ids, change }) => {
    archive.undo.record(`Change ${framesInWords(archive, ids)}`, () => {
      const columns = columnsOf(archive, change);
      for (const id of ids) {
        requireFrame(archive.db, id);
        changeFrame(archive, id, columns, change);
      }
    });
    return {};
  },

  'frames.changeEach': (archive, { changes }) => {
    const count = new Set(changes.flatMap(({ ids }) => ids)).size;
    archive.undo.record(`Change ${count} frames`, () => {
      for (const { ids, change } of changes) {
        const columns = columnsOf(archive, change);
        for (const id of ids) {
          requireFrame(archive.db, id);
          changeFrame(archive, id, columns, change);
        }
      }
    });
    return {};
  },

  'frames.relabel': (archive, { rollId, labels }) => {
    const frames = labelsOfRoll(archive.db, rollId);
    const read = labels.map(readLabel);
    if (read.length !== frames.length || new Set(read).size !== read.length) {
      const reason = `${frames.length} different labels are needed, one per frame along the film`;
      throw appError('value_not_valid', { field: 'frame labels', value: labels.join(', '), reason });
    }
    archive.undo.record('Relabel frames', () => {
      const set = command(archive.db, 'UPDATE frame SET label = :label WHERE id = :id');
      // Labels are unique within a roll at every moment, so they step aside first.
      for (const frame of frames) set({ id: frame.id, label: `was ${frame.label}` });
      for (const [at, frame] of frames.entries()) set({ id: frame.id, label: read[at] ?? frame.label });
      orderByLabel(archive.db, rollId);
    });
    return {};
  },

  'frames.remove': (archive, { ids }) => {
    archive.undo.record(`Remove ${framesInWords(archive, ids)}`, () => {
      const rolls = new Set(ids.map((id) => requireFrame(archive.db, id).rollId));
      for (const id of ids) command(archive.db, 'DELETE FROM frame WHERE id = :id')({ id });
      for (const rollId of rolls) orderByLabel(archive.db, rollId);
    });
    return {};
  },

  'frames.mark': (archive, { ids, mark, on }) => {
    archive.undo.record(`${on ? 'Mark' : 'Unmark'} ${framesInWords(archive, ids)}`, () => {
      for (const id of ids) {
        command(
          archive.db,
          'DELETE FROM pencil_mark WHERE frame_id = :id AND kind = :kind',
        )({ id, kind: mark.kind });
        if (!on) continue;
        command(
          archive.db,
          `INSERT INTO pencil_mark (frame_id, kind, x, y, width, height, made_at)
           VALUES (:id, :kind, :x, :y, :width, :height, :at)`,
        )({ id, ...mark, at: archive.now().toISOString() });
      }
    });
    return {};
  },

  'frames.chooseBest': (archive, { frameScanId }) => {
    archive.undo.record('Choose the best scan', () => {
      command(
        archive.db,
        `UPDATE frame_scan SET best = (id = :frameScanId)
         WHERE frame_id = (SELECT frame_id FROM frame_scan WHERE id = :frameScanId)`,
      )({ frameScanId });
    });
    return {};
  },

  'tags.list': ({ db }) =>
    query(
      db,
      tagRow,
      `SELECT tag.name, count(frame_tag.frame_id) AS frames FROM tag LEFT JOIN frame_tag ON frame_tag.tag_id = tag.id
       GROUP BY tag.id ORDER BY fold(tag.name)`,
    ).all(),
};
