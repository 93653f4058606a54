import type { CutStrip, PaperToFit, TrimmedEdges } from './sheet-fit.ts';
import { fitOnPaper, stackHeightMm } from './sheet-fit.ts';

/** A paper to try, by the id it is kept under. */
export type OtherPaper = PaperToFit & { readonly id: string };

/** What helps when strips do not fit on a paper; each way out has been tried and fits. */
export type WayOut =
  | { readonly kind: 'trim'; readonly trimmed: Exclude<TrimmedEdges, 'none'> }
  | { readonly kind: 'paper'; readonly paperId: string }
  /** Strips on each sheet in order. */
  | { readonly kind: 'sheets'; readonly stripsPerSheet: readonly number[] }
  /** Size on paper over true size, below 1. */
  | { readonly kind: 'scale'; readonly scale: number };

/** Strips in order over as few sheets as it takes, or null when a single strip is too large. */
function spreadOverSheets(
  strips: readonly CutStrip[],
  paper: PaperToFit,
  gapMm: number,
): readonly number[] | null {
  const sheets: number[] = [];
  let onSheet: readonly CutStrip[] = [];
  for (const strip of strips) {
    const together = [...onSheet, strip];
    if (onSheet.length > 0 && fitOnPaper(together, paper, 'none', gapMm).fits) {
      onSheet = together;
      sheets[sheets.length - 1] = together.length;
      continue;
    }
    onSheet = [strip];
    if (!fitOnPaper(onSheet, paper, 'none', gapMm).fits) return null;
    sheets.push(1);
  }
  return sheets;
}

/** The largest scale, 1 at most, at which the strips fit on the paper; gaps shrink with the film. */
function largestScale(strips: readonly CutStrip[], paper: PaperToFit, gapMm: number): number {
  const lengthMm = Math.max(0, ...strips.map((strip) => strip.lengthMm));
  const heightMm = stackHeightMm(strips, 'none', gapMm);
  const roomWidthMm = Math.max(0, paper.widthMm - 2 * paper.marginMm);
  const roomHeightMm = Math.max(0, paper.heightMm - 2 * paper.marginMm);
  return Math.min(
    1,
    Math.max(
      Math.min(roomWidthMm / lengthMm, roomHeightMm / heightMm),
      Math.min(roomHeightMm / lengthMm, roomWidthMm / heightMm),
    ),
  );
}

/**
 * What helps when strips do not fit at true size: trimmed edges, the smallest other paper first, more sheets, a
 * smaller scale. Nothing when they fit. `gapMm` ≥ 0 between strips.
 */
export function findWaysOut(
  strips: readonly CutStrip[],
  paper: PaperToFit,
  otherPapers: readonly OtherPaper[],
  gapMm: number,
): readonly WayOut[] {
  if (fitOnPaper(strips, paper, 'none', gapMm).fits) return [];
  const trims = (['outer', 'all'] as const)
    .filter((trimmed) => stackHeightMm(strips, trimmed, gapMm) < stackHeightMm(strips, 'none', gapMm))
    .filter((trimmed) => fitOnPaper(strips, paper, trimmed, gapMm).fits)
    .map((trimmed): WayOut => ({ kind: 'trim', trimmed }));
  const papers = otherPapers
    .filter((other) => fitOnPaper(strips, other, 'none', gapMm).fits)
    .sort((one, other) => one.widthMm * one.heightMm - other.widthMm * other.heightMm)
    .map((other): WayOut => ({ kind: 'paper', paperId: other.id }));
  const stripsPerSheet = spreadOverSheets(strips, paper, gapMm);
  const sheets: readonly WayOut[] = stripsPerSheet ? [{ kind: 'sheets', stripsPerSheet }] : [];
  const scale = largestScale(strips, paper, gapMm);
  const scales: readonly WayOut[] = scale > 0 ? [{ kind: 'scale', scale }] : [];
  return [...trims, ...papers, ...sheets, ...scales];
}

/** A block of equal strips. */
export type StripBlock = { readonly strips: number; readonly framesPerStrip: number };

/**
 * The block of equal strips with the most frames that a paper takes at true size; of two with as many the one with
 * longer strips. `pitchMm` and `filmWidthMm` > 0. Null when not even one frame fits.
 */
export function findLargestBlock(
  frame: { readonly pitchMm: number; readonly filmWidthMm: number },
  paper: PaperToFit,
): StripBlock | null {
  const room = [paper.widthMm - 2 * paper.marginMm, paper.heightMm - 2 * paper.marginMm] as const;
  const fit = (roomMm: number, eachMm: number) => Math.max(0, Math.floor((roomMm + 1e-6) / eachMm));
  const blocks = [
    { strips: fit(room[1], frame.filmWidthMm), framesPerStrip: fit(room[0], frame.pitchMm) },
    { strips: fit(room[0], frame.filmWidthMm), framesPerStrip: fit(room[1], frame.pitchMm) },
  ]
    .filter((block) => block.strips > 0 && block.framesPerStrip > 0)
    .sort(
      (one, other) =>
        other.strips * other.framesPerStrip - one.strips * one.framesPerStrip ||
        other.framesPerStrip - one.framesPerStrip,
    );
  return blocks[0] ?? null;
}
