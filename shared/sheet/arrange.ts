import { blockHeightMm, describeScale } from './heading.ts';
import type { Heading } from './heading.ts';
import { CHECK_BOX, RULER_ROOM_MM } from './ruler.ts';
import type { FilmBlock } from './film-block.ts';
import type { PaperSize } from './paper.ts';
import type { SheetSpec } from './sheet-spec.ts';

/** A ruler band with the check box beside the ruler, without it, and the one line that heading and ruler share, mm. */
const BOX_BAND_MM = CHECK_BOX.heightMm + 3;
const RULER_BAND_MM = 7;
export const LINE_BAND_MM = 4.8;
/** Between heading and film, mm. */
const HEADING_GAP_MM = 2.5;
/** Between ruler and box, and between the one-line heading and the ruler, mm. */
export const NOTES_BESIDE_MM = 6;
/** The widest a gap between rows becomes, mm at true size. */
const ROW_GAP_MM = 2;
/** Slack for sums of floating point numbers, mm: far below what a printer resolves. */
const SLACK_MM = 1e-6;

/**
 * Where the notes go. `headed`: heading above, ruler below. `sided`: heading up the left side, ruler down the right.
 * `mixed`: heading above, ruler at the right. `line-below`, `line-beside`: both in one line. `bare`: no notes.
 */
type NotesPlace = 'headed' | 'sided' | 'mixed' | 'line-below' | 'line-beside' | 'bare';

interface NotesOption {
  readonly place: NotesPlace;
  readonly box: boolean;
}

/** Most roomy first. */
const OPTIONS: readonly NotesOption[] = [
  { place: 'headed', box: true },
  { place: 'mixed', box: true },
  { place: 'sided', box: true },
  { place: 'headed', box: false },
  { place: 'mixed', box: false },
  { place: 'sided', box: false },
  { place: 'line-below', box: false },
  { place: 'line-beside', box: false },
];
const BARE: readonly NotesOption[] = [{ place: 'bare', box: false }];

/** How much of the paper the notes take on its four sides, mm. */
interface Frame {
  readonly topMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
  readonly leftMm: number;
}

/** One sheet of paper with its film and notes placed. Everything in mm on paper, but `scale`. */
export interface Arrangement {
  readonly paper: PaperSize;
  readonly notes: NotesPlace;
  readonly box: boolean;
  readonly notesMm: Frame;
  /** Where the film starts, and the gap between its rows. */
  readonly filmXMm: number;
  readonly filmYMm: number;
  readonly gapMm: number;
  readonly scale: number;
}

/** What has to go on one sheet. */
export interface SheetLoad {
  readonly block: FilmBlock;
  readonly heading: Heading;
}

/** The heading with the scale put before its lines where the film is not printed at true size. */
export function headingAtScale(heading: Heading, scale: number): Heading {
  const words = describeScale(scale);
  return words === null ? heading : { ...heading, lines: [words, ...heading.lines] };
}

/** The paper both ways round, as far as the user lets it turn; upright first. */
function waysRound(paper: PaperSize, orientation: SheetSpec['orientation']): readonly PaperSize[] {
  const short = Math.min(paper.widthMm, paper.heightMm);
  const long = Math.max(paper.widthMm, paper.heightMm);
  const upright = { widthMm: short, heightMm: long };
  const wide = { widthMm: long, heightMm: short };
  if (orientation === 'upright') return [upright];
  if (orientation === 'wide') return [wide];
  return short === long ? [upright] : [upright, wide];
}

/** Room that notes take on each side, or null where the ruler is longer than the paper allows. */
function frameOf(option: NotesOption, heading: Heading, spec: SheetSpec, area: PaperSize): Frame | null {
  const none: Frame = { topMm: 0, rightMm: 0, bottomMm: 0, leftMm: 0 };
  if (option.place === 'bare') return none;
  const rulerMm = spec.ruler ? RULER_ROOM_MM + (option.box ? NOTES_BESIDE_MM + CHECK_BOX.widthMm : 0) : 0;
  const bandMm = spec.ruler ? (option.box ? BOX_BAND_MM : RULER_BAND_MM) : 0;
  const headingMm = (roomMm: number): number => {
    const height = blockHeightMm(heading, roomMm);
    return height === 0 ? 0 : height + HEADING_GAP_MM;
  };
  switch (option.place) {
    case 'headed':
      return rulerMm > area.widthMm ? null : { ...none, topMm: headingMm(area.widthMm), bottomMm: bandMm };
    case 'mixed':
      return rulerMm > area.heightMm - headingMm(area.widthMm)
        ? null
        : { ...none, topMm: headingMm(area.widthMm), rightMm: bandMm };
    case 'sided':
      return rulerMm > area.heightMm ? null : { ...none, leftMm: headingMm(area.heightMm), rightMm: bandMm };
    case 'line-below':
      return rulerMm > area.widthMm ? null : { ...none, bottomMm: LINE_BAND_MM };
    case 'line-beside':
      return rulerMm > area.heightMm ? null : { ...none, leftMm: LINE_BAND_MM };
  }
}

interface Candidate {
  readonly paper: PaperSize;
  readonly option: NotesOption;
  readonly frame: Frame;
  /** Paper left for film, mm. */
  readonly roomMm: PaperSize;
}

/** What may be tried, roomiest first; each is worked out only when it is asked for. */
function* candidates(
  load: SheetLoad,
  spec: SheetSpec,
  paper: PaperSize,
  scale: number,
): Generator<Candidate, void, void> {
  const heading = headingAtScale(load.heading, scale);
  const says = heading.title !== '' || heading.lines.length > 0;
  const options = (says || spec.ruler ? OPTIONS : BARE).filter((option) => spec.ruler || !option.box);
  for (const option of options) {
    for (const size of waysRound(paper, spec.orientation)) {
      const area = {
        widthMm: size.widthMm - 2 * spec.marginMm,
        heightMm: size.heightMm - 2 * spec.marginMm,
      };
      const frame = frameOf(option, heading, spec, area);
      if (!frame) continue;
      const widthMm = area.widthMm - frame.leftMm - frame.rightMm;
      const heightMm = area.heightMm - frame.topMm - frame.bottomMm;
      yield { paper: size, option, frame, roomMm: { widthMm, heightMm } };
    }
  }
}

/** The roomiest arrangement at that scale, or null when none holds the film. */
export function arrangeAtScale(
  load: SheetLoad,
  spec: SheetSpec,
  paper: PaperSize,
  scale: number,
): Arrangement | null {
  const lengthMm = load.block.lengthMm * scale;
  const heightMm = load.block.heightMm * scale;
  const found = firstThatHolds(candidates(load, spec, paper, scale), lengthMm, heightMm);
  if (!found) return null;
  const gaps = load.block.bands.length - 1;
  const spareMm = Math.max(0, found.roomMm.heightMm - heightMm);
  const gapMm = gaps === 0 ? 0 : Math.min(ROW_GAP_MM * scale, spareMm / gaps);
  return {
    paper: found.paper,
    notes: found.option.place,
    box: found.option.box,
    notesMm: found.frame,
    filmXMm: spec.marginMm + found.frame.leftMm,
    filmYMm: spec.marginMm + found.frame.topMm,
    gapMm,
    scale,
  };
}

function firstThatHolds(tried: Iterable<Candidate>, lengthMm: number, heightMm: number): Candidate | null {
  for (const candidate of tried) {
    const { widthMm, heightMm: roomMm } = candidate.roomMm;
    if (lengthMm <= widthMm + SLACK_MM && heightMm <= roomMm + SLACK_MM) return candidate;
  }
  return null;
}

/** Stands for the words of a scale not known yet: no scale takes more room. */
const WIDEST_SCALE = 8.888;

/** The largest scale at which the load fits, in steps of 0.1 %, at most `most`; null where nothing fits at all. */
export function largestScale(
  load: SheetLoad,
  spec: SheetSpec,
  paper: PaperSize,
  most: number,
): number | null {
  const scales = [...candidates(load, spec, paper, WIDEST_SCALE)].map(({ roomMm }) =>
    Math.min(roomMm.widthMm / load.block.lengthMm, roomMm.heightMm / load.block.heightMm),
  );
  const best = Math.min(most, Math.max(0, ...scales));
  const stepped = Math.floor(best * 1000 + SLACK_MM) / 1000;
  return stepped > 0 ? stepped : null;
}

/** What the film alone lacks on the paper at that scale, mm, the way round that lacks least. */
export interface Shortfall {
  readonly paper: PaperSize;
  /** Negative where there is room to spare. */
  readonly lengthMm: number;
  readonly heightMm: number;
}

/** How far the film is from fitting inside the margins, without any notes. */
export function filmShortfall(block: FilmBlock, spec: SheetSpec, paper: PaperSize, scale: number): Shortfall {
  const all = waysRound(paper, spec.orientation).map((size): Shortfall => ({
    paper: size,
    lengthMm: block.lengthMm * scale - (size.widthMm - 2 * spec.marginMm),
    heightMm: block.heightMm * scale - (size.heightMm - 2 * spec.marginMm),
  }));
  return all.reduce((best, each) => (missingMm(each) < missingMm(best) ? each : best));
}

/** Millimetres that are missing, the worse of the two ways; 0 when the film fits. */
export function missingMm(shortfall: Shortfall): number {
  return Math.max(0, shortfall.lengthMm, shortfall.heightMm);
}

/** Millimetres that the notes lack where the film alone fits: the least over all arrangements. */
export function notesShortfallMm(load: SheetLoad, spec: SheetSpec, paper: PaperSize, scale: number): number {
  const lacks = [...candidates(load, spec, paper, scale)].map(({ roomMm }) =>
    Math.max(load.block.lengthMm * scale - roomMm.widthMm, load.block.heightMm * scale - roomMm.heightMm),
  );
  const perhaps = waysRound(paper, spec.orientation).map(
    (size) => RULER_ROOM_MM - (Math.max(size.widthMm, size.heightMm) - 2 * spec.marginMm),
  );
  return lacks.length === 0 ? Math.max(0, Math.min(...perhaps)) : Math.max(0, Math.min(...lacks));
}
