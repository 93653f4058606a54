import type { Examined } from './examine.ts';
import { invert, mapPoint, slopeAt, type Matrix } from './matrix.ts';

/** A frame that the picture was laid over, with what spoke for it. */
export interface Candidate extends Examined {
  readonly pictureId: number;
  /** The frame that the archive's picture shows: two scans of one frame have the same. */
  readonly groupId: number;
  readonly negative: boolean;
  /** Features that agree; 0 where the hash found it. */
  readonly inliers: number;
}

/** Where in a frame a picture lies, in fractions of the frame. */
export interface Region {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One picture of the archive that shows what was looked for. */
export interface Hit {
  readonly pictureId: number;
  /** 0 to 1: 0.5 is just enough to be answered. */
  readonly confidence: number;
  readonly region: Region;
  /** How the picture that was looked for is turned against the frame, clockwise, after mirroring. */
  readonly turned: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
  readonly negative: boolean;
  /** Fractions of the picture to fractions of the frame, for laying one over the other. */
  readonly homography: Matrix;
}

/** `frame`: the first hit is it. `scene`: one of the hits is. `cannot-tell`: the picture has too little detail. */
export type Answer = 'frame' | 'scene' | 'none' | 'cannot-tell';

// Ours, chosen on one half of a labelled set and checked on the other: see test/bench/look-up-measure.ts.
const LEAST_COVER = 0.7;
/** The more features agree, the less the comparison has to show: poor copies of soft pictures have little detail. */
const GATES = [
  { inliers: 5, correlation: 0.7, certainty: 8 },
  { inliers: 12, correlation: 0.5, certainty: 6 },
  { inliers: 25, correlation: 0.4, certainty: 4 },
] as const;
const LEAST_CERTAINTY = GATES[2].certainty;
/** Two frames are told apart where the blocks speak for one by this many standard errors. */
const TELLING_ERRORS = 2.5;

/** How sure the comparison is: the correlation in standard errors (R. A. Fisher's z, 1921). */
export function certaintyOf({ likeness }: Examined): number {
  const correlation = Math.min(0.999, Math.max(-0.999, likeness.correlation));
  return Math.atanh(correlation) * Math.sqrt(likeness.blocks);
}

/** The larger of: how much of the frame the picture covers, how much of the picture the frame explains. */
export function coverOf({ likeness }: Examined): number {
  return Math.max(likeness.seen, likeness.explained);
}

/** Whether the picture shows this frame or its scene. */
export function isMatch(candidate: Candidate): boolean {
  if (coverOf(candidate) < LEAST_COVER) return false;
  // The hash speaks for the whole picture at once: it counts as the fewest features that may agree.
  const inliers = candidate.inliers === 0 ? GATES[0].inliers : candidate.inliers;
  return GATES.some(
    (gate) =>
      inliers >= gate.inliers &&
      candidate.likeness.correlation >= gate.correlation &&
      certaintyOf(candidate) >= gate.certainty,
  );
}

/** How well a candidate explains the whole picture, for putting candidates in order. */
export function scoreOf({ likeness }: Examined): number {
  return likeness.detail === 0 ? 0 : likeness.gains.reduce((sum, gain) => sum + gain, 0) / likeness.detail;
}

/** By how many standard errors the blocks speak for `one` rather than `other`. */
export function tellApart(one: Examined, other: Examined): number {
  let [sum, squares] = [0, 0];
  one.likeness.gains.forEach((gain, i) => {
    const difference = gain / one.likeness.detail - (other.likeness.gains[i] ?? 0) / other.likeness.detail;
    sum += difference;
    squares += difference * difference;
  });
  return squares === 0 ? 0 : sum / Math.sqrt(squares);
}

/** The answer that the candidates give, and the hits behind it, best first, one for each of the archive's pictures. */
export function decide(candidates: readonly Candidate[], limit: number): { answer: Answer; hits: Hit[] } {
  const best = new Map<number, Candidate>();
  for (const candidate of candidates.filter(isMatch)) {
    const known = best.get(candidate.pictureId);
    if (known === undefined || scoreOf(candidate) > scoreOf(known)) best.set(candidate.pictureId, candidate);
  }
  const ranked = [...best.values()].sort((a, b) => scoreOf(b) - scoreOf(a));
  const [first] = ranked;
  if (first === undefined) return { answer: 'none', hits: [] };
  const rivals = ranked.filter(
    (other) => other.groupId !== first.groupId && tellApart(first, other) < TELLING_ERRORS,
  );
  return {
    answer: rivals.length === 0 ? 'frame' : 'scene',
    hits: ranked.slice(0, limit).map((candidate) => hitFrom(candidate)),
  };
}

function hitFrom(candidate: Candidate): Hit {
  const surplus = certaintyOf(candidate) / LEAST_CERTAINTY - 1;
  return {
    pictureId: candidate.pictureId,
    confidence: 1 - 0.5 * Math.exp(-Math.max(0, surplus)),
    region: regionOf(candidate.matrix),
    ...bearingOf(candidate.matrix),
    negative: candidate.negative,
    homography: candidate.matrix,
  };
}

/**
 * The box around where `matrix` puts the whole picture, cut off at the frame's edges. A corner beyond the horizon of
 * a steep perspective is left out.
 */
export function regionOf(matrix: Matrix): Region {
  const corners = [
    mapPoint(matrix, 0, 0),
    mapPoint(matrix, 1, 0),
    mapPoint(matrix, 0, 1),
    mapPoint(matrix, 1, 1),
  ].filter(([x, y]) => Number.isFinite(x) && Number.isFinite(y));
  const inFrame = (value: number) => Math.min(1, Math.max(0, value));
  const left = inFrame(Math.min(...corners.map(([x]) => x)));
  const right = inFrame(Math.max(...corners.map(([x]) => x)));
  const top = inFrame(Math.min(...corners.map(([, y]) => y)));
  const bottom = inFrame(Math.max(...corners.map(([, y]) => y)));
  return { x: left, y: top, width: Math.max(0, right - left), height: Math.max(0, bottom - top) };
}

/** Whether the picture is the frame mirrored, and by which quarter it was then turned clockwise. */
export function bearingOf(matrix: Matrix): { turned: 0 | 90 | 180 | 270; mirrored: boolean } {
  const frameToPicture = invert(matrix);
  if (frameToPicture === null) return { turned: 0, mirrored: false };
  const [x, y] = mapPoint(matrix, 0.5, 0.5);
  const [a, b, c, d] = slopeAt(frameToPicture, x, y);
  const mirrored = a * d - b * c < 0;
  // The frame's own right points here in the picture, before mirroring is taken into account.
  const angle = mirrored ? Math.atan2(-c, -a) : Math.atan2(c, a);
  const quarter = (Math.round(angle / (Math.PI / 2)) + 4) % 4;
  return { turned: ([0, 90, 180, 270] as const)[quarter] ?? 0, mirrored };
}
