import type { CutProposal, CutRefusal, CutRequest } from './cut.ts';
import { findFrameFormat } from '../film/frame-format.ts';
import { framesPerPocket, pitchInPage } from './pocket-fit.ts';

/** Millimetres to one decimal, without a needless `.0`. */
function formatMm(mm: number): string {
  return `${String(Math.round(mm * 10) / 10)} mm`;
}

function countFrames(count: number): string {
  return count === 1 ? '1 frame' : `${String(count)} frames`;
}

/** `1, 2 and 5`. */
function listWords(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

function explainPocket(frameFormat: string, request: CutRequest): string {
  const { filmFormat, layout } = request;
  const { pitchMm, known } = pitchInPage(frameFormat, filmFormat, layout);
  if (!known) {
    return `The size of ${frameFormat} is not known: each frame is counted as one place of the page.`;
  }
  const count = framesPerPocket(frameFormat, filmFormat, layout);
  const pocket = `A pocket of ${formatMm(layout.pocketLengthMm)} holds`;
  if (layout.pocket === 'single') return `${pocket} one frame.`;
  return `${pocket} ${countFrames(count)} of ${findFrameFormat(frameFormat)?.name ?? frameFormat}: ${String(count)} × ${formatMm(pitchMm)} = ${formatMm(count * pitchMm)}.`;
}

function explainPages(proposal: CutProposal, namePage: (page: number) => string): readonly string[] {
  const placed = proposal.strips.flatMap((strip) => (strip.place ? [strip.place] : []));
  const pages = [...new Set(placed.map((place) => place.page))];
  return pages.map((page) => {
    const rows = [...new Set(placed.filter((place) => place.page === page).map((place) => place.row))];
    const words = `${rows.length === 1 ? 'row' : 'rows'} ${listWords(rows.map(String))}`;
    return `${namePage(page)}: ${words}.`;
  });
}

/**
 * The proposal step by step, one sentence each: what a pocket holds, the cut, the rows, what is left over.
 * `namePage` gives the name of a page by its index in the proposal (`Page 12`).
 */
export function explainCut(
  request: CutRequest,
  proposal: CutProposal,
  namePage: (page: number) => string,
): readonly string[] {
  const formats = [...new Set(request.frames.map((frame) => frame.frameFormat))];
  const cut = proposal.strips.map((strip) => String(strip.count)).join(', ');
  const left = proposal.leftover;
  const loose = proposal.strips.filter((strip) => strip.place === null).length;
  const leftWords =
    left.length === 0
      ? []
      : [
          `Left over: ${countFrames(left.length)} in ${loose === 1 ? 'one strip' : `${String(loose)} strips`} (${left.join(', ')}). Another page takes them, or they stay loose.`,
        ];
  return [
    ...formats.map((format) => explainPocket(format, request)),
    `${countFrames(request.frames.length)} cut ${cut}.`,
    ...explainPages(proposal, namePage),
    ...leftWords,
  ];
}

/** Why the roll cannot be cut so, in a sentence with its figures. */
export function describeCutRefusal(refusal: CutRefusal): string {
  switch (refusal.reason) {
    case 'no_frames':
      return 'The roll has no frames to file.';
    case 'film_not_for_page':
      return `${refusal.filmFormat} film does not go into a page for ${refusal.layout}.`;
    case 'film_wider_than_pocket':
      return `${refusal.filmFormat} film is ${formatMm(refusal.overMm)} wider than the pocket.`;
    case 'frame_longer_than_pocket':
      return `Frame ${refusal.label} is ${formatMm(refusal.overMm)} longer than the pocket.`;
    case 'strip_longer_than_pocket':
      return `Strip ${String(refusal.strip)} (${countFrames(refusal.count)}) is ${formatMm(refusal.overMm)} longer than the pocket.`;
    case 'strip_not_one_frame':
      return `Strip ${String(refusal.strip)} has ${countFrames(refusal.count)}, but a pocket of this page holds one.`;
    case 'strip_not_counted':
      return `Strip ${String(refusal.strip)} needs a whole number of frames, at least 1.`;
    case 'cut_not_whole_roll':
      return `The strips add up to ${countFrames(refusal.cutFrames)}, the roll has ${String(refusal.frames)}.`;
    case 'no_free_pocket':
      return 'There is no free pocket on the page.';
  }
}
