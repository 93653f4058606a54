import { appError } from '../../../shared/api/errors.ts';
import type { Roll, RollRow } from '../../../shared/api/methods/film-methods.ts';
import type { RollState } from '../../../shared/api/values.ts';
import { naturalKey } from '../../../shared/domain/numbering/natural-key.ts';
import {
  checkRollNumber,
  nextRollNumber,
  parseRollPattern,
} from '../../../shared/domain/numbering/roll-number.ts';
import { findFrameFormat, findFrameOnFilm } from '../../../shared/domain/film/frame-format.ts';
import { findFilmFormat } from '../../../shared/domain/film/film-format.ts';
import { describeReason } from '../../../shared/text/describe-reason.ts';
import type { Archive } from '../archive/archive.ts';
import { getSetting } from '../archive/settings.ts';
import { dateValues } from '../db/calendar-date.ts';
import { changeRow } from '../db/change-row.ts';
import { command, orTaken, query, type ReadableDb, type Value } from '../db/query.ts';
import type { HandlersOf } from '../handler.ts';
import { idRow, numberRow } from '../db/rows.ts';
import { recordCorrections } from '../archive/corrections.ts';
import {
  developmentsOfRoll,
  findRollRows,
  outingsOfRoll,
  requireRollFacts,
  stateDatesOfRoll,
} from './roll-rows.ts';
import { orderRolls } from './roll-order.ts';

/** A roll with everything on it. @throws {AppError} roll_not_found */
export function requireRoll(db: ReadableDb, id: number): Roll {
  const facts = requireRollFacts(db, id);
  const row = findRollRows(db, [id])[0];
  if (!row) throw appError('roll_not_found', { name: String(id) });
  return {
    ...row,
    ...facts,
    stateDates: stateDatesOfRoll(db, id),
    outings: outingsOfRoll(db, id),
    developments: developmentsOfRoll(db, id),
  };
}

/** The id of the roll numbered so. @throws {AppError} roll_not_found */
export function requireRollByNumber(db: ReadableDb, number: string): number {
  const found = query(db, idRow, 'SELECT id FROM roll WHERE number = :number').find({ number });
  if (!found) throw appError('roll_not_found', { name: number });
  return found.id;
}

/** The number that comes next by the archive's pattern. */
function numberAfter(archive: Archive): string {
  const used = query(archive.db, numberRow, 'SELECT number FROM issued_number')
    .all()
    .map((row) => row.number);
  const pattern = parseRollPattern(getSetting(archive, 'numberPattern'));
  if (!pattern.ok) throw new Error(`A numbering pattern that was never checked: ${pattern.reason}`);
  const now = archive.now();
  return nextRollNumber(pattern.value, used, { year: now.getFullYear(), month: now.getMonth() + 1 });
}

/**
 * Gives a number out for life.
 * @returns the number as it is kept
 * @throws {AppError} roll_number_taken: also when a removed roll once had it; value_not_valid
 */
function issueNumber(archive: Archive, typed: string): string {
  const checked = checkRollNumber(typed);
  if (!checked.ok) {
    throw appError('value_not_valid', {
      field: 'roll number',
      value: typed,
      reason: describeReason(checked.reason),
    });
  }
  const number = checked.value;
  return orTaken('roll_number_taken', number, () => {
    if (
      query(archive.db, numberRow, 'SELECT number FROM issued_number WHERE number = :number').find({ number })
    ) {
      throw appError('roll_number_taken', { name: number });
    }
    command(
      archive.db,
      'INSERT INTO issued_number (number, issued_at) VALUES (:number, :at)',
    )({
      number,
      at: archive.now().toISOString(),
    });
    return number;
  });
}

/** Moves a roll to a state and notes the day, where it is known. */
export function setRollState(archive: Archive, rollId: number, state: RollState, since: string | null): void {
  command(archive.db, 'UPDATE roll SET state = :state WHERE id = :rollId')({ rollId, state });
  const date = dateValues('since', since);
  command(
    archive.db,
    `INSERT INTO roll_state_date (roll_id, state, since_edtf, since_typed, since_earliest, since_latest)
     VALUES (:rollId, :state, :since_edtf, :since_typed, :since_earliest, :since_latest)
     ON CONFLICT (roll_id, state) DO UPDATE SET since_edtf = excluded.since_edtf, since_typed = excluded.since_typed,
       since_earliest = excluded.since_earliest, since_latest = excluded.since_latest
     WHERE excluded.since_edtf IS NOT NULL`,
  )({ rollId, state, ...date });
}

/** @throws {AppError} value_not_valid when the frame format does not go on the film format, or is not known */
function checkFormats(filmFormat: string, frameFormat: string): void {
  const film = findFilmFormat(filmFormat);
  if (!film)
    throw appError('value_not_valid', { field: 'film format', value: filmFormat, reason: 'it is not known' });
  const frame = findFrameFormat(frameFormat);
  if (!frame) {
    throw appError('value_not_valid', {
      field: 'frame format',
      value: frameFormat,
      reason: 'it is not known',
    });
  }
  if (!findFrameOnFilm(frame.id, film.id)) {
    const reason = `it does not go on ${filmFormat} film`;
    throw appError('value_not_valid', { field: 'frame format', value: frameFormat, reason });
  }
}

type RollColumns = Partial<Readonly<Record<string, Value>>>;

function columnsOf(change: Partial<{ [Key in keyof Roll]: unknown }> & Record<string, unknown>): RollColumns {
  const names: Readonly<Record<string, string>> = {
    title: 'title',
    stockId: 'stock_id',
    batchId: 'batch_id',
    cameraId: 'camera_id',
    filmFormat: 'film_format',
    frameFormat: 'frame_format',
    exposures: 'exposures',
    exposureIndex: 'exposure_index',
    pushStops: 'push_stops',
    scanPolarity: 'scan_polarity',
    lab: 'lab',
    cassette: 'cassette',
    holder: 'holder',
    note: 'note',
  };
  const columns: Record<string, Value> = {};
  for (const [key, column] of Object.entries(names)) {
    const value = change[key];
    if (typeof value === 'string' || typeof value === 'number' || value === null) columns[column] = value;
  }
  return columns;
}

export const ROLL_HANDLERS: HandlersOf<
  | 'rolls.nextNumber'
  | 'rolls.add'
  | 'rolls.change'
  | 'rolls.setState'
  | 'rolls.remove'
  | 'rolls.byNumber'
  | 'rolls.get'
  | 'rolls.order'
  | 'rolls.rows'
> = {
  'rolls.nextNumber': (archive) => ({ number: numberAfter(archive) }),

  'rolls.add': (archive, roll) => {
    checkFormats(roll.filmFormat, roll.frameFormat);
    const typed = roll.number ?? numberAfter(archive);
    const state = roll.state ?? 'on hand';
    return archive.undo.record(`Add roll ${typed}`, () => {
      const number = issueNumber(archive, typed);
      const { id } = command(
        archive.db,
        `INSERT INTO roll (number, number_sort, title, stock_id, batch_id, camera_id, film_format, frame_format,
           exposures, exposure_index, push_stops, expires_edtf, expires_typed, expires_earliest, expires_latest,
           state, scan_polarity, lab, cassette, holder, note, created_at)
         VALUES (:number, :sort, :title, :stockId, :batchId, :cameraId, :filmFormat, :frameFormat, :exposures,
           :exposureIndex, :pushStops, :expires_edtf, :expires_typed, :expires_earliest, :expires_latest,
           :state, :scanPolarity, :lab, :cassette, :holder, :note, :at)`,
      )({
        number,
        sort: naturalKey(number),
        title: roll.title ?? null,
        stockId: roll.stockId ?? null,
        batchId: roll.batchId ?? null,
        cameraId: roll.cameraId ?? null,
        filmFormat: roll.filmFormat,
        frameFormat: roll.frameFormat,
        exposures: roll.exposures ?? null,
        exposureIndex: roll.exposureIndex ?? null,
        pushStops: roll.pushStops ?? null,
        ...dateValues('expires', roll.expires),
        state,
        scanPolarity: roll.scanPolarity ?? 'auto',
        lab: roll.lab ?? null,
        cassette: roll.cassette ?? null,
        holder: roll.holder ?? null,
        note: roll.note ?? null,
        at: archive.now().toISOString(),
      });
      setRollState(archive, id, state, null);
      return { id, number };
    });
  },

  'rolls.change': (archive, { id, change }) => {
    const before = requireRoll(archive.db, id);
    checkFormats(change.filmFormat ?? before.filmFormat, change.frameFormat ?? before.frameFormat);
    archive.undo.record(`Change roll ${before.number}`, () => {
      if (change.number !== undefined && change.number !== before.number) {
        const number = issueNumber(archive, change.number);
        changeRow(archive.db, 'roll', id, { number, number_sort: naturalKey(number) });
      }
      recordCorrections(archive, 'roll', id, columnsOf(change));
      changeRow(archive.db, 'roll', id, columnsOf(change));
      if (change.expires !== undefined)
        changeRow(archive.db, 'roll', id, dateValues('expires', change.expires));
      if (change.state !== undefined) setRollState(archive, id, change.state, null);
    });
    return {};
  },

  'rolls.setState': (archive, { id, state, since }) => {
    const { number } = requireRoll(archive.db, id);
    archive.undo.record(`Roll ${number} ${state}`, () => setRollState(archive, id, state, since));
    return {};
  },

  'rolls.remove': (archive, { id }) => {
    const { number } = requireRoll(archive.db, id);
    archive.undo.record(`Remove roll ${number}`, () => {
      command(archive.db, 'DELETE FROM roll WHERE id = :id')({ id });
    });
    return {};
  },

  'rolls.byNumber': ({ db }, { number }) => requireRoll(db, requireRollByNumber(db, number)),
  'rolls.get': ({ db }, { id }) => requireRoll(db, id),
  'rolls.order': ({ db }, input) => ({ ids: orderRolls(db, input) }),
  'rolls.rows': ({ db }, { ids }): RollRow[] => findRollRows(db, ids),
};
