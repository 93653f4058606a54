import { z } from 'zod';
import { appError } from '../../../shared/api/errors.ts';
import type { Frame } from '../../../shared/api/methods/film-methods.ts';
import { compareFrameLabels, parseFrameLabel } from '../../../shared/domain/frame/frame-label.ts';
import { describeReason } from '../../../shared/text/describe-reason.ts';
import { idRow } from '../db/rows.ts';
import { command, query, type ReadableDb, type WritableDb } from '../db/query.ts';
import { findFrames } from './frame-rows.ts';

const labelRow = z.object({ id: z.number(), label: z.string(), ordinal: z.number() });

/** The labels of a roll's frames, in their order along the film. */
export function labelsOfRoll(
  db: ReadableDb,
  rollId: number,
): { id: number; label: string; ordinal: number }[] {
  const sql = 'SELECT id, label, ordinal FROM frame WHERE roll_id = :rollId ORDER BY ordinal';
  return query(db, labelRow, sql).all({ rollId });
}

/** The label as the archive keeps it. @throws {AppError} value_not_valid */
export function readLabel(text: string): string {
  const read = parseFrameLabel(text);
  if (!read.ok)
    throw appError('value_not_valid', {
      field: 'frame label',
      value: text,
      reason: describeReason(read.reason),
    });
  return read.value.text;
}

/**
 * Sees to it that the roll has a frame for every label; new ones take their place along the film by label order.
 * @returns the frame ids by label
 * @throws {AppError} value_not_valid
 */
export function ensureFrames(db: WritableDb, rollId: number, labels: readonly string[]): Map<string, number> {
  const byLabel = new Map(labelsOfRoll(db, rollId).map((frame) => [frame.label, frame.id]));
  const missing = [...new Set(labels.map(readLabel))].filter((label) => !byLabel.has(label));
  if (missing.length > 0) {
    const add = command(db, 'INSERT INTO frame (roll_id, ordinal, label) VALUES (:rollId, :ordinal, :label)');
    let ordinal = Math.max(0, ...labelsOfRoll(db, rollId).map((frame) => frame.ordinal));
    for (const label of missing) byLabel.set(label, add({ rollId, label, ordinal: (ordinal += 1) }).id);
    orderByLabel(db, rollId);
  }
  return byLabel;
}

/** Puts the frames of a roll in the order of their labels, ordinals 1, 2, 3 … */
export function orderByLabel(db: WritableDb, rollId: number): void {
  const frames = labelsOfRoll(db, rollId);
  const sorted = [...frames].sort((a, b) => compareFrameLabels(a.label, b.label) || a.id - b.id);
  setOrder(
    db,
    sorted.map((frame) => frame.id),
    frames,
  );
}

function setOrder(
  db: WritableDb,
  ids: readonly number[],
  before: readonly { id: number; ordinal: number }[],
): void {
  const known = new Map(before.map((frame) => [frame.id, frame.ordinal]));
  const moved = ids.flatMap((id, at) => (known.get(id) === at + 1 ? [] : [{ id, ordinal: at + 1 }]));
  const set = command(db, 'UPDATE frame SET ordinal = :ordinal WHERE id = :id');
  // Two passes: an ordinal is unique within its roll at every moment, so frames step aside first.
  for (const frame of moved) set({ id: frame.id, ordinal: -frame.ordinal });
  for (const frame of moved) set(frame);
}

/** One frame with everything on it. @throws {AppError} frame_not_found */
export function requireFrame(db: ReadableDb, id: number): Frame {
  const frame = findFrames(db, 'frame.id = :id', { id })[0];
  if (!frame) throw appError('frame_not_found', { roll: '', frame: String(id) });
  return frame;
}

/** The id of a frame by roll number and label. @throws {AppError} roll_not_found, frame_not_found, value_not_valid */
export function requireFrameByLabel(db: ReadableDb, roll: string, label: string): number {
  const rollFound = query(db, idRow, 'SELECT id FROM roll WHERE number = :roll').find({ roll });
  if (!rollFound) throw appError('roll_not_found', { name: roll });
  const found = query(db, idRow, 'SELECT id FROM frame WHERE roll_id = :rollId AND label = :label').find({
    rollId: rollFound.id,
    label: readLabel(label),
  });
  if (!found) throw appError('frame_not_found', { roll, frame: label });
  return found.id;
}
