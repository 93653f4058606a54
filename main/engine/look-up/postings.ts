import { angleSixteenth, type PictureRecord } from './record.ts';

/** A run of postings of one cell: bits and places from `start` to before `end`. Good until the next visit. */
export interface PostingRun {
  readonly bits: Uint32Array;
  /** Slot of the picture × 16 + the feature's angle in sixteenths of a turn. */
  readonly places: Uint32Array;
  readonly start: number;
  readonly end: number;
}

/** Which pictures have a feature in which cell, in memory: 8 bytes a feature. */
export interface Postings {
  /**
   * Fills an empty store at once. `visitAll` is called twice and hands over the same records both times: so the
   * memory is taken once, at its final size.
   */
  readonly load: (visitAll: (take: (slot: number, record: PictureRecord) => void) => void) => void;
  readonly add: (slot: number, record: PictureRecord) => void;
  /** The postings of `cell`, none left out: `take` is called once or twice. */
  readonly visit: (cell: number, take: (run: PostingRun) => void) => void;
}

/** The fresh postings are sorted in when they are more than this, and more than their share of the sorted ones. */
const FEWEST_FRESH = 40_000;
const FRESH_SHARE = 0.25;
const END = -1;

/** Postings of a codebook with `cellCount` cells: a sorted block, and what came since in chains. */
export function createPostings(cellCount: number): Postings {
  let starts = new Uint32Array(cellCount + 1);
  let bits = new Uint32Array(0);
  let places = new Uint32Array(0);
  const heads = new Int32Array(cellCount).fill(END);
  let next = new Int32Array(FEWEST_FRESH);
  let freshBits = new Uint32Array(FEWEST_FRESH);
  let freshPlaces = new Uint32Array(FEWEST_FRESH);
  let freshCount = 0;
  let chain = { bits: new Uint32Array(64), places: new Uint32Array(64) };

  function makeRoom(): void {
    if (freshCount < next.length) return;
    next = grown(next, new Int32Array(next.length * 2));
    freshBits = grown(freshBits, new Uint32Array(freshBits.length * 2));
    freshPlaces = grown(freshPlaces, new Uint32Array(freshPlaces.length * 2));
  }

  function sortIn(): void {
    const total = bits.length + freshCount;
    const nextStarts = new Uint32Array(cellCount + 1);
    const nextBits = new Uint32Array(total);
    const nextPlaces = new Uint32Array(total);
    let at = 0;
    for (let cell = 0; cell < cellCount; cell++) {
      nextStarts[cell] = at;
      const end = starts[cell + 1] ?? 0;
      for (let k = starts[cell] ?? 0; k < end; k++, at++) {
        nextBits[at] = bits[k] ?? 0;
        nextPlaces[at] = places[k] ?? 0;
      }
      for (let k = heads[cell] ?? END; k !== END; k = next[k] ?? END, at++) {
        nextBits[at] = freshBits[k] ?? 0;
        nextPlaces[at] = freshPlaces[k] ?? 0;
      }
    }
    nextStarts[cellCount] = at;
    [starts, bits, places] = [nextStarts, nextBits, nextPlaces];
    heads.fill(END);
    freshCount = 0;
  }

  return {
    load(visitAll) {
      const counts = new Uint32Array(cellCount + 1);
      visitAll((_, record) => {
        for (const cell of record.features.cells) counts[cell] = (counts[cell] ?? 0) + 1;
      });
      let total = 0;
      for (let cell = 0; cell <= cellCount; cell++) {
        starts[cell] = total;
        total += counts[cell] ?? 0;
      }
      bits = new Uint32Array(total);
      places = new Uint32Array(total);
      const filled = starts.slice();
      visitAll((slot, { features, placement }) => {
        for (let i = 0; i < features.count; i++) {
          const cell = features.cells[i] ?? 0;
          const at = filled[cell] ?? 0;
          bits[at] = features.voteBits[i] ?? 0;
          places[at] = slot * 16 + angleSixteenth(placement[i] ?? 0);
          filled[cell] = at + 1;
        }
      });
    },
    add(slot, record) {
      const { count, cells, voteBits } = record.features;
      for (let i = 0; i < count; i++) {
        makeRoom();
        const cell = cells[i] ?? 0;
        freshBits[freshCount] = voteBits[i] ?? 0;
        freshPlaces[freshCount] = slot * 16 + angleSixteenth(record.placement[i] ?? 0);
        next[freshCount] = heads[cell] ?? END;
        heads[cell] = freshCount++;
      }
      if (freshCount > Math.max(FEWEST_FRESH, bits.length * FRESH_SHARE)) sortIn();
    },
    visit(cell, take) {
      const start = starts[cell] ?? 0;
      const end = starts[cell + 1] ?? 0;
      if (end > start) take({ bits, places, start, end });
      let length = 0;
      for (let k = heads[cell] ?? END; k !== END; k = next[k] ?? END, length++) {
        if (length === chain.bits.length) {
          chain = {
            bits: grown(chain.bits, new Uint32Array(length * 2)),
            places: grown(chain.places, new Uint32Array(length * 2)),
          };
        }
        chain.bits[length] = freshBits[k] ?? 0;
        chain.places[length] = freshPlaces[k] ?? 0;
      }
      if (length > 0) take({ ...chain, start: 0, end: length });
    },
  };
}

function grown<Numbers extends Int32Array | Uint32Array>(from: Numbers, to: Numbers): Numbers {
  to.set(from);
  return to;
}
