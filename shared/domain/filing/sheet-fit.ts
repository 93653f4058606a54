/** A strip as cut, with the film's real width. Millimetres. `pictureHeightMm`: across the film; null if unknown. */
export type CutStrip = {
  readonly lengthMm: number;
  readonly heightMm: number;
  readonly pictureHeightMm: number | null;
};

/** Paper with the margin that cannot be printed, the same on each side. Millimetres. */
export type PaperToFit = {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
};

/**
 * Which film edges may fall away: none, those above the first and below the last strip, or those of every strip.
 */
export type TrimmedEdges = 'none' | 'outer' | 'all';

/** How strips lie on a paper: the way round that lacks least. Spare lengths are negative where film sticks out. */
export type SheetFit = {
  readonly fits: boolean;
  /** The side of the paper that the strips run along. */
  readonly along: 'width' | 'height';
  readonly filmLengthMm: number;
  readonly filmHeightMm: number;
  /** Along the strips. */
  readonly spareLengthMm: number;
  /** Across the strips. */
  readonly spareHeightMm: number;
  /** The larger of the two lengths that are missing; 0 when it fits. */
  readonly overMm: number;
};

/** Sums of lengths are compared with this slack, mm: exactly as large as the paper is a fit. */
const ROUNDING_MM = 1e-6;

function marginOf(strip: CutStrip | undefined): number {
  if (!strip || strip.pictureHeightMm === null) return 0;
  return (strip.heightMm - strip.pictureHeightMm) / 2;
}

/** Height of the strips one above the other, mm, `gapMm` between them; 0 for no strips. */
export function stackHeightMm(strips: readonly CutStrip[], trimmed: TrimmedEdges, gapMm: number): number {
  if (strips.length === 0) return 0;
  const heights = strips.map((strip) =>
    trimmed === 'all' ? (strip.pictureHeightMm ?? strip.heightMm) : strip.heightMm,
  );
  const whole = heights.reduce((sum, height) => sum + height, 0) + gapMm * (strips.length - 1);
  return trimmed === 'outer' ? whole - marginOf(strips[0]) - marginOf(strips.at(-1)) : whole;
}

function spare(roomMm: number, filmMm: number): number {
  const spareMm = roomMm - filmMm;
  return Math.abs(spareMm) < ROUNDING_MM ? 0 : spareMm;
}

function fitAlong(
  along: 'width' | 'height',
  film: { readonly lengthMm: number; readonly heightMm: number },
  paper: PaperToFit,
): SheetFit {
  const roomWidthMm = paper.widthMm - 2 * paper.marginMm;
  const roomHeightMm = paper.heightMm - 2 * paper.marginMm;
  const spareLengthMm = spare(along === 'width' ? roomWidthMm : roomHeightMm, film.lengthMm);
  const spareHeightMm = spare(along === 'width' ? roomHeightMm : roomWidthMm, film.heightMm);
  const overMm = Math.max(0, -spareLengthMm, -spareHeightMm);
  return {
    fits: overMm === 0,
    along,
    filmLengthMm: film.lengthMm,
    filmHeightMm: film.heightMm,
    spareLengthMm,
    spareHeightMm,
    overMm,
  };
}

/** Whether strips as cut fit on a paper at true size, and if not, by how many mm. `gapMm` ≥ 0 between strips. */
export function fitOnPaper(
  strips: readonly CutStrip[],
  paper: PaperToFit,
  trimmed: TrimmedEdges,
  gapMm: number,
): SheetFit {
  const film = {
    lengthMm: Math.max(0, ...strips.map((strip) => strip.lengthMm)),
    heightMm: stackHeightMm(strips, trimmed, gapMm),
  };
  const acrossWidth = fitAlong('width', film, paper);
  const acrossHeight = fitAlong('height', film, paper);
  return acrossHeight.overMm < acrossWidth.overMm ? acrossHeight : acrossWidth;
}
