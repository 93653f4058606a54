import type { StripPlace } from './cut.ts';

/**
 * A strip as it lies. `firstOrdinal`: its first frame along the film, from 1. `reversed`: it lies tail first, so
 * its last frame is at the left.
 */
export type LyingStrip = {
  readonly firstOrdinal: number;
  readonly count: number;
  readonly reversed: boolean;
  readonly place: StripPlace | null;
};

/** Where a frame lies: the strip's page and row, and its own position from the left. */
export type FramePlace = StripPlace;

/** Where the frame of that ordinal lies; null when it is loose or on none of the strips. */
export function findPlaceOfFrame(ordinal: number, strips: readonly LyingStrip[]): FramePlace | null {
  const strip = strips.find(
    ({ firstOrdinal, count }) => ordinal >= firstOrdinal && ordinal < firstOrdinal + count,
  );
  if (!strip?.place) return null;
  const along = ordinal - strip.firstOrdinal;
  const fromLeft = strip.reversed ? strip.count - 1 - along : along;
  return { ...strip.place, position: strip.place.position + fromLeft };
}

/** The ordinal of the frame at a place; null when nothing lies there. */
export function findFrameAtPlace(place: FramePlace, strips: readonly LyingStrip[]): number | null {
  for (const strip of strips) {
    if (strip.place?.page !== place.page || strip.place.row !== place.row) continue;
    const fromLeft = place.position - strip.place.position;
    if (fromLeft < 0 || fromLeft >= strip.count) continue;
    return strip.firstOrdinal + (strip.reversed ? strip.count - 1 - fromLeft : fromLeft);
  }
  return null;
}

/** An address in words: `Binder A, page 3, row 2, position 4`. A name that says binder itself is not told twice. */
export function formatAddress(address: {
  readonly binder: string;
  readonly page: number;
  readonly row: number;
  readonly position: number;
}): string {
  const binder = /^binder\b/i.test(address.binder) ? address.binder : `Binder ${address.binder}`;
  return `${binder}, page ${String(address.page)}, row ${String(address.row)}, position ${String(address.position)}`;
}
