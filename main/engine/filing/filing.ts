import { appError } from '../../../shared/api/errors.ts';
import type { Input } from '../../../shared/api/contract.ts';
import type { Filed } from '../../../shared/api/methods/filing-methods.ts';
import { type CutProposal, type Pocket, proposeCut } from '../../../shared/domain/filing/cut.ts';
import { explainCut, describeCutRefusal } from '../../../shared/domain/filing/cut-words.ts';
import type { PageLayout } from '../../../shared/domain/filing/page-layout.ts';
import type { Archive } from '../archive/archive.ts';
import { changeRow } from '../db/change-row.ts';
import { command, type ReadableDb } from '../db/query.ts';
import { findFrames } from '../film/frame-rows.ts';
import { expectedLabels } from '../film/expected-frames.ts';
import { ensureFrames } from '../film/frames.ts';
import { setRollState } from '../film/rolls.ts';
import type { HandlersOf } from '../handler.ts';
import { addBinder, findBinderByName } from './binders.ts';
import { requireLayout } from './layouts.ts';
import { findPage, nextFreePages, occupiedPockets, type PageToFill } from './pages.ts';
import { requireStripRow, rollOfPocket } from './strips.ts';
import { findRollRows } from '../film/roll-rows.ts';

type Choice = Input<'filing.file'>;

interface FrameOnRoll {
  /** Null for a frame that will only be made when the roll is filed. */
  readonly id: number | null;
  readonly label: string;
  readonly frameFormat: string;
}

interface Plan {
  readonly layout: PageLayout;
  readonly pages: readonly PageToFill[];
  readonly frames: readonly FrameOnRoll[];
  readonly proposal: CutProposal;
  readonly explanation: readonly string[];
}

/** The frames of a roll, or those it is expected to have when none is noted yet. */
function framesToFile(
  db: ReadableDb,
  rollId: number,
): { number: string; filmFormat: string; frames: FrameOnRoll[] } {
  const roll = findRollRows(db, [rollId])[0];
  if (!roll) throw appError('roll_not_found', { name: String(rollId) });
  const known = findFrames(db, 'frame.roll_id = :rollId', { rollId });
  const frames: FrameOnRoll[] =
    known.length > 0
      ? known.map(({ id, label, frameFormat }) => ({ id, label, frameFormat }))
      : expectedLabels(roll).map((label) => ({ id: null, label, frameFormat: roll.frameFormat }));
  return { number: roll.number, filmFormat: roll.filmFormat, frames };
}

/** @throws {AppError} cut_not_possible, layout_not_found, roll_not_found, pocket_taken */
function planFiling(archive: Archive, choice: Choice): Plan {
  const { db } = archive;
  const layout = requireLayout(db, choice.layoutId);
  const { frames, filmFormat } = framesToFile(db, choice.rollId);
  const binderId = findBinderByName(db, choice.binder);
  const first = firstPage(archive, choice, layout, binderId);
  const offered = [{ occupied: occupiedPockets(db, first, choice.rollId) }];
  const request = {
    filmFormat,
    frames,
    layout,
    cut: choice.cut,
    pages: offered,
    morePages: choice.morePages,
  };
  const answer = proposeCut(request);
  if (!answer.ok) {
    if (answer.reason === 'no_free_pocket') throw pocketTaken(archive, choice, first);
    throw appError('cut_not_possible', { reason: describeCutRefusal(answer) });
  }
  const proposal = answer.value;
  const further = nextFreePages(db, binderId, layout.id, proposal.pagesUsed - 1, first.number);
  const pages = [first, ...further];
  const name = (page: number) => `${choice.binder}, page ${pages[page]?.number ?? '?'}`;
  return { layout, pages, frames, proposal, explanation: explainCut(request, proposal, name) };
}

function firstPage(
  archive: Archive,
  choice: Choice,
  layout: PageLayout,
  binderId: number | null,
): PageToFill {
  if (choice.page === null) {
    const [free] = nextFreePages(archive.db, binderId, layout.id, 1, 0, choice.rollId);
    if (!free) throw new Error('There is always a next page');
    return free;
  }
  const page = binderId === null ? null : findPage(archive.db, binderId, choice.page);
  if (!page) return { id: null, number: choice.page };
  if (page.layoutId !== layout.id && occupiedPockets(archive.db, page, choice.rollId).length > 0) {
    const reason = `Page ${page.number} of ${choice.binder} is a page of the layout ${page.layoutId} with film in it.`;
    throw appError('cut_not_possible', { reason });
  }
  return { id: page.id, number: page.number };
}

function pocketTaken(archive: Archive, choice: Choice, page: PageToFill) {
  const taken = page.id === null ? null : rollOfPocket(archive.db, page.id, choice.rollId);
  const name = `page ${page.number} of ${choice.binder}`;
  return appError('pocket_taken', { page: name, row: taken?.row ?? 1, roll: taken?.roll ?? '' });
}

/** Where each frame comes to lie, by its label. */
function placementsOf(plan: Plan, binder: string): Omit<Filed['placements'][number], 'frameId'>[] {
  return plan.proposal.strips.flatMap(({ place, labels }) => {
    const page = place ? plan.pages[place.page] : undefined;
    if (!place || !page) return [];
    return labels.map((frame, along) => ({
      frame,
      binder,
      page: page.number,
      row: place.row,
      position: place.position + along,
    }));
  });
}

function answerOf(plan: Plan, binder: string, ids: ReadonlyMap<string, number>): Filed {
  return {
    placements: placementsOf(plan, binder).map((placement) => ({
      frameId: ids.get(placement.frame) ?? null,
      ...placement,
    })),
    leftover: [...plan.proposal.leftover],
    explanation: [...plan.explanation],
  };
}

/** Writes strips and pages down; the roll's earlier strips are given up. */
function writePlan(archive: Archive, choice: Choice, plan: Plan): ReadonlyMap<string, number> {
  const { db } = archive;
  const ids = ensureFrames(
    db,
    choice.rollId,
    plan.frames.map((frame) => frame.label),
  );
  const binderId =
    findBinderByName(db, choice.binder) ??
    addBinder(archive, { name: choice.binder, place: null, note: null });
  command(db, 'DELETE FROM strip WHERE roll_id = :rollId')({ rollId: choice.rollId });
  const used = plan.pages.slice(0, plan.proposal.pagesUsed);
  const pageIds = used.map((page) => usePage(archive, binderId, page, plan.layout.id));
  const addStrip = command(
    db,
    'INSERT INTO strip (roll_id, ordinal, page_id, row, position) VALUES (:rollId, :ordinal, :pageId, :row, :position)',
  );
  const lay = command(
    db,
    'UPDATE frame SET strip_id = :stripId, strip_position = :position WHERE id = :frameId',
  );
  for (const [index, strip] of plan.proposal.strips.entries()) {
    const place = strip.place;
    const stripId = addStrip({
      rollId: choice.rollId,
      ordinal: index + 1,
      pageId: place ? (pageIds[place.page] ?? null) : null,
      row: place?.row ?? null,
      position: place?.position ?? null,
    }).id;
    for (const [along, label] of strip.labels.entries()) {
      lay({ stripId, position: along + 1, frameId: ids.get(label) ?? 0 });
    }
  }
  setRollState(archive, choice.rollId, 'filed', null);
  return ids;
}

function usePage(archive: Archive, binderId: number, page: PageToFill, layoutId: string): number {
  if (page.id !== null) {
    changeRow(archive.db, 'page', page.id, { layout_id: layoutId });
    return page.id;
  }
  return command(
    archive.db,
    'INSERT INTO page (binder_id, number, layout_id) VALUES (:binderId, :number, :layoutId)',
  )({ binderId, number: page.number, layoutId }).id;
}

/** Whether a strip may be laid into a pocket. @throws {AppError} pocket_taken, cut_not_possible, page_not_found */
function moveStrip(archive: Archive, move: Input<'strips.move'>): void {
  const { db } = archive;
  const strip = requireStripRow(db, move.stripId);
  const page = findPage(db, null, move.pageId);
  if (!page) throw appError('page_not_found', { name: String(move.pageId) });
  const layout = requireLayout(db, page.layoutId);
  const taken: readonly Pocket[] = occupiedPockets(db, page, null, move.stripId);
  const fits = proposeCut({
    filmFormat: strip.filmFormat,
    frames: strip.frames,
    layout,
    cut: [strip.frames.length],
    pages: [{ occupied: taken }],
    morePages: true,
  });
  if (!fits.ok) throw appError('cut_not_possible', { reason: describeCutRefusal(fits) });
  if (move.row > layout.rows || move.position > layout.positions) {
    throw appError('cut_not_possible', {
      reason: `The page has ${layout.rows} rows of ${layout.positions} positions.`,
    });
  }
  if (
    taken.some(
      (pocket) => pocket.row === move.row && (layout.pocket === 'strip' || pocket.position === move.position),
    )
  ) {
    const there = rollOfPocket(db, page.id, null, move.row);
    throw appError('pocket_taken', { page: `page ${page.number}`, row: move.row, roll: there?.roll ?? '' });
  }
  changeRow(db, 'strip', move.stripId, { page_id: page.id, row: move.row, position: move.position });
}

export const FILING_HANDLERS: HandlersOf<
  'filing.propose' | 'filing.file' | 'filing.takeOut' | 'strips.move'
> = {
  'filing.propose': (archive, choice) => {
    const plan = planFiling(archive, choice);
    const ids = new Map(plan.frames.flatMap(({ id, label }) => (id === null ? [] : [[label, id] as const])));
    return answerOf(plan, choice.binder, ids);
  },
  'filing.file': (archive, choice) => {
    const { number } = framesToFile(archive.db, choice.rollId);
    return archive.undo.record(`File roll ${number}`, () => {
      const plan = planFiling(archive, choice);
      return answerOf(plan, choice.binder, writePlan(archive, choice, plan));
    });
  },
  'filing.takeOut': (archive, { rollId }) => {
    const { number } = framesToFile(archive.db, rollId);
    archive.undo.record(`Take roll ${number} out`, () => {
      command(archive.db, 'DELETE FROM strip WHERE roll_id = :rollId')({ rollId });
      setRollState(archive, rollId, 'developed', null);
    });
    return {};
  },
  'strips.move': (archive, move) => {
    archive.undo.record('Move a strip', () => moveStrip(archive, move));
    return {};
  },
};
