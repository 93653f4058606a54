import { angleSixteenth, type PictureRecord } from './record.ts';

/** A run of postings of one cell: bits and places from `start` to before `end`. */
export interface PostingRun {
  readonly bits: Uint32Array;
  /** Slot of the picture × 16 + the feature's angle in sixteenths of a turn. */
  readonly places: Uint32Array;
  readonly start: number;
  readonly end: number;
}

/** Which pictures have a feature in which cell, in memory: 8 bytes a feature. */
export interface Postings {
  readonly add: (slot: number, record: PictureRecord) => void;
  /** The postings of `cell`, none left out: `take` is called once or twice. */
  readonly visit: (cell: number, take: (run: PostingRun) => void) => void;
  /** Postings of a cell on average: what is far above it says little. */
  readonly meanLength: () => number;
}

interface Fresh {
  readonly bits: number[];
  readonly places: number[];
}

const FEWEST_FRESH = 400_000;
/** The fresh ones are sorted in when they are more than this share of the sorted ones. */
const FRESH_SHARE = 0.125;

/** Postings of a codebook with `cellCount` cells: a sorted block, and what came since in lists. */
export function createPostings(cellCount: number): Postings {
  let starts = new Uint32Array(cellCount + 1);
  let bits = new Uint32Array(0);
  let places = new Uint32Array(0);
  let fresh = new Map<number, Fresh>();
  let freshCount = 0;

  function sortIn(): void {
    const total = bits.length + freshCount;
    const nextStarts = new Uint32Array(cellCount + 1);
    const nextBits = new Uint32Array(total);
    const nextPlaces = new Uint32Array(total);
    let at = 0;
    for (let cell = 0; cell < cellCount; cell++) {
      nextStarts[cell] = at;
      const start = starts[cell] ?? 0;
      const end = starts[cell + 1] ?? 0;
      if (end > start) {
        nextBits.set(bits.subarray(start, end), at);
        nextPlaces.set(places.subarray(start, end), at);
        at += end - start;
      }
      const list = fresh.get(cell);
      if (list === undefined) continue;
      nextBits.set(list.bits, at);
      nextPlaces.set(list.places, at);
      at += list.bits.length;
    }
    nextStarts[cellCount] = at;
    [starts, bits, places] = [nextStarts, nextBits, nextPlaces];
    fresh = new Map();
    freshCount = 0;
  }

  return {
    add(slot, record) {
      const { count, cells, voteBits } = record.features;
      for (let i = 0; i < count; i++) {
        const cell = cells[i] ?? 0;
        let list = fresh.get(cell);
        if (list === undefined) {
          list = { bits: [], places: [] };
          fresh.set(cell, list);
        }
        list.bits.push(voteBits[i] ?? 0);
        list.places.push(slot * 16 + angleSixteenth(record.placement[i] ?? 0));
      }
      freshCount += count;
      if (freshCount > Math.max(FEWEST_FRESH, bits.length * FRESH_SHARE)) sortIn();
    },
    visit(cell, take) {
      const start = starts[cell] ?? 0;
      const end = starts[cell + 1] ?? 0;
      if (end > start) take({ bits, places, start, end });
      const list = fresh.get(cell);
      if (list === undefined) return;
      take({
        bits: Uint32Array.from(list.bits),
        places: Uint32Array.from(list.places),
        start: 0,
        end: list.bits.length,
      });
    },
    meanLength: () => (bits.length + freshCount) / cellCount,
  };
}
