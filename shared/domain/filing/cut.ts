import type { PageLayout } from './page-layout.ts';
import { excessLengthMm, excessWidthMm, findSheetAlongRowMm, pitchInPage } from './pocket-fit.ts';

/** A frame as it lies on the film, in order. */
export type FrameToFile = { readonly label: string; readonly frameFormat: string };

/** A pocket by its row and the position at its left end, both from 1. */
export type Pocket = { readonly row: number; readonly position: number };

/** Where a strip begins: `page` counts the pages offered from 0, further ones follow. Row and position from 1. */
export type StripPlace = Pocket & { readonly page: number };

/** A strip of the proposal. `firstOrdinal` counts the frames given from 1; `place` null: no pocket is left for it. */
type ProposedStrip = {
  readonly firstOrdinal: number;
  readonly count: number;
  readonly labels: readonly string[];
  readonly lengthMm: number;
  readonly place: StripPlace | null;
};

/** What to cut, and where there is room. */
export type CutRequest = {
  readonly filmFormat: string;
  readonly frames: readonly FrameToFile[];
  readonly layout: PageLayout;
  /** Frames per strip in order; null to fill each pocket. */
  readonly cut: readonly number[] | null;
  /** The pages to use, in order, each with the pockets that hold film already. */
  readonly pages: readonly { readonly occupied: readonly Pocket[] }[];
  /** Whether to go on with empty pages of the same layout. */
  readonly morePages: boolean;
};

/** Strips in the order of the film; `leftover` are the labels of the frames without a pocket. */
export type CutProposal = {
  readonly strips: readonly ProposedStrip[];
  readonly leftover: readonly string[];
  /** One more than the index of the last page a strip lies on. */
  readonly pagesUsed: number;
};

/** Why a roll cannot be cut so. Lengths in mm; `strip` counts from 1. */
export type CutRefusal = { readonly ok: false } & (
  | { readonly reason: 'no_frames' }
  | { readonly reason: 'film_not_for_page'; readonly filmFormat: string; readonly layout: string }
  | { readonly reason: 'film_wider_than_pocket'; readonly filmFormat: string; readonly overMm: number }
  | { readonly reason: 'frame_longer_than_pocket'; readonly label: string; readonly overMm: number }
  | {
      readonly reason: 'strip_longer_than_pocket';
      readonly strip: number;
      readonly count: number;
      readonly overMm: number;
    }
  | { readonly reason: 'strip_not_one_frame'; readonly strip: number; readonly count: number }
  | { readonly reason: 'strip_not_counted'; readonly strip: number }
  | { readonly reason: 'cut_not_whole_roll'; readonly cutFrames: number; readonly frames: number }
  | { readonly reason: 'no_free_pocket' }
);

/** The proposal, or the refusal with its figures. */
export type CutAnswer = { readonly ok: true; readonly value: CutProposal } | CutRefusal;

/** The pockets of a page, row by row from the left. */
export function pocketsOf(layout: PageLayout): readonly Pocket[] {
  const starts = layout.pocket === 'single' ? layout.positions : 1;
  return Array.from({ length: layout.rows }, (_row, row) =>
    Array.from({ length: starts }, (_position, position) => ({ row: row + 1, position: position + 1 })),
  ).flat();
}

/** The pockets that hold no film, row by row. A strip anywhere in a row takes a pocket that is the whole row. */
export function freePockets(layout: PageLayout, occupied: readonly Pocket[]): readonly Pocket[] {
  return pocketsOf(layout).filter(
    (pocket) =>
      !occupied.some(
        (taken) =>
          taken.row === pocket.row && (layout.pocket === 'strip' || taken.position === pocket.position),
      ),
  );
}

function fillPockets(
  pitches: readonly number[],
  request: CutRequest,
): { readonly ok: true; readonly cut: readonly number[] } | CutRefusal {
  const { layout, frames } = request;
  const single = layout.pocket === 'single';
  const cut: number[] = [];
  let lengthMm = 0;
  for (const [index, pitchMm] of pitches.entries()) {
    const overMm = excessLengthMm(pitchMm, layout);
    if (overMm > 0) {
      return { ok: false, reason: 'frame_longer_than_pocket', label: frames[index]?.label ?? '', overMm };
    }
    const before = cut.at(-1);
    if (before === undefined || single || excessLengthMm(lengthMm + pitchMm, layout) > 0) {
      cut.push(1);
      lengthMm = pitchMm;
    } else {
      cut[cut.length - 1] = before + 1;
      lengthMm += pitchMm;
    }
  }
  return { ok: true, cut };
}

function checkCut(cut: readonly number[], pitches: readonly number[], layout: PageLayout): CutRefusal | null {
  const uncounted = cut.findIndex((count) => !Number.isInteger(count) || count < 1);
  if (uncounted !== -1) return { ok: false, reason: 'strip_not_counted', strip: uncounted + 1 };
  const cutFrames = cut.reduce((sum, count) => sum + count, 0);
  if (cutFrames !== pitches.length) {
    return { ok: false, reason: 'cut_not_whole_roll', cutFrames, frames: pitches.length };
  }
  let first = 0;
  for (const [index, count] of cut.entries()) {
    if (layout.pocket === 'single' && count > 1) {
      return { ok: false, reason: 'strip_not_one_frame', strip: index + 1, count };
    }
    const lengthMm = sum(pitches.slice(first, first + count));
    const overMm = excessLengthMm(lengthMm, layout);
    if (overMm > 0) {
      return { ok: false, reason: 'strip_longer_than_pocket', strip: index + 1, count, overMm };
    }
    first += count;
  }
  return null;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** Film along the row that each frame takes. */
function pitchesOf({ filmFormat, frames, layout }: CutRequest): readonly number[] {
  const sheetMm = findSheetAlongRowMm(filmFormat, layout);
  return frames.map((frame) => sheetMm ?? pitchInPage(frame.frameFormat, filmFormat, layout).pitchMm);
}

/** Free pockets of the pages in order, as many as there are strips, opening further pages if asked. */
function placesFor(strips: number, request: CutRequest): readonly StripPlace[] {
  const { layout, pages, morePages } = request;
  const offered = pages.flatMap(({ occupied }, page) =>
    freePockets(layout, occupied).map((pocket) => ({ page, ...pocket })),
  );
  if (!morePages) return offered.slice(0, strips);
  const perPage = pocketsOf(layout);
  const missing = Math.max(0, strips - offered.length);
  const further = Array.from({ length: Math.ceil(missing / perPage.length) }, (_page, extra) =>
    perPage.map((pocket) => ({ page: pages.length + extra, ...pocket })),
  ).flat();
  return [...offered, ...further].slice(0, strips);
}

/**
 * Cuts a roll to a page: every frame in order in exactly one strip, every strip in a free pocket as long as there
 * are any. Frames are measured by their real pitch, so formats may be mixed on one roll. Nothing is recorded.
 */
export function proposeCut(request: CutRequest): CutAnswer {
  const { filmFormat, frames, layout } = request;
  if (frames.length === 0) return { ok: false, reason: 'no_frames' };
  if (!layout.filmFormats.includes(filmFormat)) {
    return { ok: false, reason: 'film_not_for_page', filmFormat, layout: layout.name };
  }
  const overMm = excessWidthMm(filmFormat, layout);
  if (overMm > 0) return { ok: false, reason: 'film_wider_than_pocket', filmFormat, overMm };

  const pitches = pitchesOf(request);
  const filled =
    request.cut === null ? fillPockets(pitches, request) : { ok: true as const, cut: request.cut };
  if (!filled.ok) return filled;
  const refusal = checkCut(filled.cut, pitches, layout);
  if (refusal) return refusal;

  const places = placesFor(filled.cut.length, request);
  if (places.length === 0) return { ok: false, reason: 'no_free_pocket' };

  let first = 0;
  const strips = filled.cut.map((count, index): ProposedStrip => {
    const start = first;
    first += count;
    return {
      firstOrdinal: start + 1,
      count,
      labels: frames.slice(start, start + count).map((frame) => frame.label),
      lengthMm: sum(pitches.slice(start, start + count)),
      place: places[index] ?? null,
    };
  });
  return {
    ok: true,
    value: {
      strips,
      leftover: strips.filter((strip) => strip.place === null).flatMap((strip) => strip.labels),
      pagesUsed: Math.max(0, ...places.map((place) => place.page + 1)),
    },
  };
}

/** The layouts whose one empty page takes the whole roll, each pocket filled, in the order given. */
export function findLayoutsThatHold(
  filmFormat: string,
  frames: readonly FrameToFile[],
  layouts: readonly PageLayout[],
): readonly PageLayout[] {
  return layouts.filter((layout) => {
    const emptyPage = [{ occupied: [] }];
    const answer = proposeCut({ filmFormat, frames, layout, cut: null, pages: emptyPage, morePages: false });
    return answer.ok && answer.value.leftover.length === 0;
  });
}
