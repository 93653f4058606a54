import type { Page, StripOnPage } from '../../shared/api/methods/filing-methods.ts';
import type { Frame } from '../../shared/api/methods/film-methods.ts';
import { drawnFrame, drawnFrameOnPage, type DrawnFrame } from './drawn-frame.ts';
import { frameGeometry, stripLengthMm } from './film-geometry.ts';
import { hasSinglePockets, rowLengthMm } from './page-geometry.ts';
import type { SmallStrip } from './page-small.tsx';

/** A strip as it lies in its pocket. */
export interface LyingStrip {
  readonly id: number;
  /** Of the roll, for the strip's name: `2024-031`. */
  readonly roll: string;
  readonly filmFormat: string;
  /** Row and position of its left end, from 1. */
  readonly row: number;
  readonly position: number;
  readonly frames: readonly DrawnFrame[];
  /** What the film's edge says, in turn along it. */
  readonly edgeTexts: readonly string[];
}

/** A strip in words: `Roll 2024-031, frames 6 to 11`. */
export function describeStrip({
  roll,
  frames,
}: {
  readonly roll: string;
  readonly frames: readonly { readonly label: string }[];
}): string {
  const [first, last] = [frames[0]?.label ?? '', frames.at(-1)?.label ?? ''];
  return frames.length < 2 ? `Roll ${roll}, frame ${first}` : `Roll ${roll}, frames ${first} to ${last}`;
}

/**
 * A strip of a page of the engine, ready to be drawn. `known` are the frames of its roll with marks, turns and faults;
 * frames that are not among them are drawn without.
 */
export function lyingStrip(
  strip: StripOnPage,
  known: ReadonlyMap<number, Frame>,
  edgeTexts: readonly string[],
): LyingStrip {
  return {
    id: strip.stripId,
    roll: strip.roll,
    filmFormat: strip.filmFormat,
    row: strip.row,
    position: strip.position,
    frames: strip.frames.map((frame) => {
      const whole = known.get(frame.id);
      return whole ? drawnFrame(whole, strip.filmFormat) : drawnFrameOnPage(frame);
    }),
    edgeTexts,
  };
}

/** The strips of a page for `PageSmall`. */
export function smallStrips(page: Pick<Page, 'layout' | 'strips'>): readonly SmallStrip[] {
  return page.strips.map((strip) => {
    const { from, longMm } = placeInRow(page.layout, strip);
    const rowMm = rowLengthMm(page.layout);
    return { row: strip.row, from: from / rowMm, to: Math.min(1, (from + longMm) / rowMm) };
  });
}

/** Where a frame of the page lies in its row, as fractions of the row's length, for `PageSmall`; null if it is not there. */
export function smallPlace(
  page: Pick<Page, 'layout' | 'strips'>,
  frameId: number,
): { readonly row: number; readonly from: number; readonly to: number } | null {
  const strip = page.strips.find(({ frames }) => frames.some(({ id }) => id === frameId));
  if (!strip) return null;
  const index = strip.frames.findIndex(({ id }) => id === frameId);
  const before = strip.frames.slice(0, index).map(({ frameFormat }) => frameFormat);
  const start = placeInRow(page.layout, strip).from + stripLengthMm(strip.filmFormat, before);
  const long = frameGeometry(strip.frames[index]?.frameFormat ?? '', strip.filmFormat).cellMm;
  const rowMm = rowLengthMm(page.layout);
  return { row: strip.row, from: start / rowMm, to: (start + long) / rowMm };
}

function placeInRow(layout: Page['layout'], strip: StripOnPage): { from: number; longMm: number } {
  const formats = strip.frames.map(({ frameFormat }) => frameFormat);
  const placeMm = hasSinglePockets(layout)
    ? layout.pocketLengthMm
    : frameGeometry(formats[0] ?? '', strip.filmFormat).cellMm;
  return { from: (strip.position - 1) * placeMm, longMm: stripLengthMm(strip.filmFormat, formats) };
}
