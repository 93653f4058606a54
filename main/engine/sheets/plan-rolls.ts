import { appError } from '../../../shared/api/errors.ts';
import type { Frame, Roll } from '../../../shared/api/methods/film-methods.ts';
import { formatPartialDate } from '../../../shared/domain/date/partial-date.ts';
import { proposeCut } from '../../../shared/domain/filing/cut.ts';
import { layoutsFor } from '../../../shared/domain/filing/page-layout.ts';
import { findFilmFormat } from '../../../shared/domain/film/film-format.ts';
import { findFrameFormat, findFrameOnFilm } from '../../../shared/domain/film/frame-format.ts';
import {
  type PlannedFrame,
  type PlannedPage,
  type PlannedRow,
  turnToLie,
} from '../../../shared/sheet/sheet-plan.ts';
import { formatTemperature, PROCESS_NAMES } from '../../../shared/text/format.ts';
import type { ReadableDb } from '../db/query.ts';
import { allLayouts } from '../filing/layouts.ts';
import { findFrames } from '../film/frame-rows.ts';
import { requireRoll } from '../film/rolls.ts';
import { developerFactsOfRoll } from './developer-facts.ts';

/** A run of frames that lie side by side; `page` names where, null when they lie nowhere yet. */
interface Lying {
  readonly page: string | null;
  readonly row: number;
  readonly position: number;
  readonly frames: readonly Frame[];
}

/** The pages of a roll as they lie in the binder, or cut as they might be when the roll is not filed. */
export function planRoll(db: ReadableDb, rollId: number): PlannedPage[] {
  const roll = requireRoll(db, rollId);
  const frames = findFrames(db, 'frame.roll_id = :rollId', { rollId });
  if (frames.length === 0) throw appError('sheet_empty', { name: roll.number });
  const lying = [
    ...stripsInPages(frames),
    ...looseStrips(
      db,
      roll,
      frames.filter((frame) => !frame.lies),
    ),
  ];
  const pages = [...new Set(lying.map((strip) => strip.page))];
  return pages.map((page) =>
    plannedPage(
      db,
      roll,
      page,
      lying.filter((strip) => strip.page === page),
    ),
  );
}

/** Frames that lie side by side in a pocket, each run one strip. */
function stripsInPages(frames: readonly Frame[]): Lying[] {
  const strips: Lying[] = [];
  const placed = frames
    .flatMap((frame) => (frame.lies ? [{ frame, lies: frame.lies }] : []))
    .sort(
      (a, b) => a.lies.pageId - b.lies.pageId || a.lies.row - b.lies.row || a.lies.position - b.lies.position,
    );
  for (const { frame, lies } of placed) {
    const page = `${lies.binder}, page ${lies.page}`;
    const last = strips.at(-1);
    const follows =
      last?.page === page && last.row === lies.row && last.position + last.frames.length === lies.position;
    if (last && follows) strips[strips.length - 1] = { ...last, frames: [...last.frames, frame] };
    else strips.push({ page, row: lies.row, position: lies.position, frames: [frame] });
  }
  return strips;
}

/** Frames without a pocket, cut as the usual page of their film would have them. */
function looseStrips(db: ReadableDb, roll: Roll, frames: readonly Frame[]): Lying[] {
  if (frames.length === 0) return [];
  const layout = layoutsFor(roll.filmFormat, allLayouts(db))[0];
  const cut = layout
    ? proposeCut({ filmFormat: roll.filmFormat, frames, layout, cut: null, pages: [], morePages: true })
    : null;
  const lengths = cut?.ok ? cut.value.strips.map((strip) => strip.count) : frames.map(() => 1);
  let first = 0;
  return lengths.map((length, at) => {
    const strip = { page: null, row: at + 1, position: 1, frames: frames.slice(first, first + length) };
    first += length;
    return strip;
  });
}

function plannedPage(db: ReadableDb, roll: Roll, page: string | null, strips: readonly Lying[]): PlannedPage {
  const film = findFilmFormat(roll.filmFormat);
  if (!film) throw appError('sheet_empty', { name: roll.number });
  const rows = [...new Set(strips.map((strip) => strip.row))].sort((a, b) => a - b);
  return {
    title: roll.title === null ? roll.number : `${roll.number}  ${roll.title}`,
    captionLines: captionLines(db, roll, page),
    film: { widthMm: film.widthMm, perforated: film.perforated && film.kind !== 'sheet' },
    rows: rows.map((row) =>
      plannedRow(
        roll,
        row,
        strips.filter((strip) => strip.row === row),
      ),
    ),
  };
}

function plannedRow(roll: Roll, row: number, strips: readonly Lying[]): PlannedRow {
  const edge = [roll.stock?.name, roll.number].filter((text) => text !== undefined);
  return {
    row,
    strips: strips.map((strip) => ({
      startMm: strip.frames[0] ? (strip.position - 1) * pitchMm(roll, strip.frames[0]) : 0,
      edgeTexts: edge,
      frames: strip.frames.map((frame) => plannedFrame(roll, frame)),
    })),
  };
}

function pitchMm(roll: Roll, frame: Frame): number {
  const format = findFrameFormat(frame.frameFormat);
  return findFrameOnFilm(frame.frameFormat, roll.filmFormat)?.pitchMm ?? (format?.alongMm ?? 36) + 2;
}

function plannedFrame(roll: Roll, frame: Frame): PlannedFrame {
  const format = findFrameFormat(frame.frameFormat);
  const picture = { widthMm: format?.alongMm ?? 36, heightMm: format?.acrossMm ?? 24 };
  return {
    key: String(frame.id),
    label: frame.label,
    picture,
    pitchMm: Math.max(pitchMm(roll, frame), picture.widthMm),
    scan: plannedScan(frame, picture),
    remark: remarkOf(frame),
    marks: frame.marks.map((mark) =>
      mark.kind === 'crop'
        ? { kind: 'crop', x: mark.x ?? 0, y: mark.y ?? 0, width: mark.width ?? 1, height: mark.height ?? 1 }
        : { kind: mark.kind },
    ),
    caption: frame.caption,
  };
}

function plannedScan(frame: Frame, picture: { widthMm: number; heightMm: number }): PlannedFrame['scan'] {
  const best = frame.versions.find((version) => version.width !== null && version.state !== 'refused');
  if (!best || best.width === null || best.height === null) return null;
  const shown = { width: best.width * best.region.width, height: best.height * best.region.height };
  const turned = frame.turned + best.turned;
  const asHeld = turned % 180 === 0 ? shown : { width: shown.height, height: shown.width };
  return {
    pictureId: best.pictureId,
    region: best.region,
    turned: quarter(turned + turnToLie(asHeld, picture)),
    mirrored: frame.mirrored !== best.mirrored,
  };
}

function quarter(degrees: number): 0 | 90 | 180 | 270 {
  const turned = ((degrees % 360) + 360) % 360;
  return turned === 90 || turned === 180 || turned === 270 ? turned : 0;
}

function remarkOf(frame: Frame): string | null {
  const best = frame.versions[0];
  if (!best) return null;
  if (best.state === 'damaged') return 'scan damaged';
  if (best.state === 'unfinished') return 'scan unfinished';
  return best.state === 'refused' ? 'scan not readable' : null;
}

/** What is known of the roll, a line each: film, outings, development, address. */
function captionLines(db: ReadableDb, roll: Roll, page: string | null): string[] {
  const film = [
    roll.stock?.name,
    roll.exposureIndex === null ? null : `EI ${roll.exposureIndex}`,
    roll.expires ? `expires ${formatPartialDate(roll.expires.edtf)}` : null,
    `${roll.filmFormat}, ${roll.frameFormat}`,
    roll.camera?.name,
  ];
  const outings = roll.outings.map((outing) =>
    [outing.title, outing.place, outing.date ? formatPartialDate(outing.date.edtf) : null]
      .filter(Boolean)
      .join(', '),
  );
  const facts = developerFactsOfRoll(db, roll.id);
  const development = facts && [
    `Developed ${facts.date === null ? '' : formatPartialDate(facts.date)}`.trim(),
    PROCESS_NAMES[facts.process],
    facts.tempC === null ? null : formatTemperature(facts.tempC),
    facts.time,
  ];
  return [film, [outings.join('; ')], development ?? [], [page ?? 'not filed']]
    .map((parts) => parts.filter(Boolean).join(' · '))
    .filter((line) => line !== '');
}
