import { type FrameColumns, OPEN_END, OPEN_START } from './frame-columns.ts';
import type { FrameSet } from './frame-set.ts';
import { outingOf, spanOf } from './evaluate.ts';

export type FacetName =
  'stock' | 'camera' | 'year' | 'state' | 'process' | 'format' | 'tag' | 'place' | 'outing';

/** How many frames a search found: in all, by roll (by its place in the order) and by what facets count. */
export interface Tally {
  /** The frames found, by id. */
  readonly ids: Int32Array;
  readonly byRank: Uint32Array;
  readonly counts: ReadonlyMap<FacetName, ReadonlyMap<string, number>>;
}

/** A vague date over more years than this is counted in none. Our choice: such a frame says little of any year. */
const MOST_YEARS = 100;

/** Counts what `found` holds, in one walk. */
export function tallyFrames(columns: FrameColumns, found: FrameSet, facets: readonly FacetName[]): Tally {
  const { rolls, rollOf } = columns;
  const byRank = new Uint32Array(rolls.ordered.length + 1);
  const ids = found.ids();
  for (const id of ids) {
    const rank = rolls.rankOf[rollOf[id] ?? 0] ?? 0;
    byRank[rank] = (byRank[rank] ?? 0) + 1;
  }
  const counts = facets.map((facet) => [facet, COUNTERS[facet](columns, ids, byRank)] as const);
  return { ids, byRank, counts: new Map(counts) };
}

type Counter = (columns: FrameColumns, ids: Int32Array, byRank: Uint32Array) => Map<string, number>;

function byRoll(name: (columns: FrameColumns, rank: number) => string | undefined): Counter {
  return (columns, _ids, byRank) => {
    const counts = new Map<string, number>();
    for (let rank = 1; rank < byRank.length; rank += 1) {
      const frames = byRank[rank] ?? 0;
      const label = frames > 0 ? name(columns, rank - 1) : undefined;
      if (label) counts.set(label, (counts.get(label) ?? 0) + frames);
    }
    return counts;
  };
}

const COUNTERS: Readonly<Record<FacetName, Counter>> = {
  stock: byRoll(({ rolls }, at) => rolls.stocks.get(rolls.ordered[at]?.stock ?? 0)),
  camera: byRoll(({ rolls }, at) => rolls.cameras.get(rolls.ordered[at]?.camera ?? 0)),
  state: byRoll(({ rolls }, at) => rolls.ordered[at]?.state),
  process: byRoll(({ rolls }, at) => rolls.ordered[at]?.process),
  format: byRoll(({ rolls }, at) => rolls.ordered[at]?.format),
  year: countYears,
  tag: countTags,
  place: countPlaces,
  outing: countOutings,
};

function countYears(columns: FrameColumns, ids: Int32Array): Map<string, number> {
  const years = new Uint32Array(10_000);
  const span = { first: 0, last: 0 };
  for (const id of ids) {
    spanOf(columns, id, span);
    if (span.first <= OPEN_START || span.last >= OPEN_END) continue;
    const last = Math.floor(span.last / 10_000);
    const first = Math.floor(span.first / 10_000);
    if (last - first > MOST_YEARS) continue;
    for (let year = first; year <= last; year += 1) years[year] = (years[year] ?? 0) + 1;
  }
  return named(years, (year) => String(year).padStart(4, '0'));
}

function countTags(columns: FrameColumns, ids: Int32Array): Map<string, number> {
  const { tagHead, tagLinks, rolls } = columns;
  const counts = new Uint32Array([...rolls.tags.keys()].reduce((most, tag) => Math.max(most, tag), 0) + 1);
  for (const id of ids) {
    for (let link = tagHead[id] ?? 0; link !== 0; link = tagLinks[link + 1] ?? 0) {
      const tag = tagLinks[link] ?? 0;
      counts[tag] = (counts[tag] ?? 0) + 1;
    }
  }
  return named(counts, (tag) => rolls.tags.get(tag));
}

/** Where a frame was made: its own place, else that of its outing. */
function countPlaces(columns: FrameColumns, ids: Int32Array): Map<string, number> {
  const own = new Uint32Array(columns.places.length);
  const ofOutings = new Map<number, number>();
  for (const id of ids) {
    const place = columns.placeOf[id] ?? 0;
    if (place !== 0) {
      own[place] = (own[place] ?? 0) + 1;
      continue;
    }
    const outing = outingOf(columns, id);
    ofOutings.set(outing, (ofOutings.get(outing) ?? 0) + 1);
  }
  const counts = named(own, (place) => columns.places[place]);
  for (const [outing, frames] of ofOutings) {
    const place = columns.rolls.outings.get(outing)?.place;
    if (place) counts.set(place, (counts.get(place) ?? 0) + frames);
  }
  return counts;
}

function countOutings(columns: FrameColumns, ids: Int32Array): Map<string, number> {
  const byId = new Map<number, number>();
  for (const id of ids) {
    const outing = outingOf(columns, id);
    byId.set(outing, (byId.get(outing) ?? 0) + 1);
  }
  const counts = new Map<string, number>();
  for (const [outing, frames] of byId) {
    const title = columns.rolls.outings.get(outing)?.title;
    if (title !== undefined) counts.set(title, (counts.get(title) ?? 0) + frames);
  }
  return counts;
}

function named(counts: ArrayLike<number>, name: (at: number) => string | undefined): Map<string, number> {
  const found = new Map<string, number>();
  for (let at = 0; at < counts.length; at += 1) {
    const frames = counts[at] ?? 0;
    const label = frames > 0 ? name(at) : undefined;
    if (label) found.set(label, (found.get(label) ?? 0) + frames);
  }
  return found;
}
