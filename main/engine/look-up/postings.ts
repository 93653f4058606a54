import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import { VOTE_BITS, writeCellMiddle } from '../../../shared/domain/look-up/encode.ts';
import { DESCRIPTOR_LENGTH } from '../../../shared/domain/look-up/features.ts';
import { signBits } from '../../../shared/domain/look-up/mixing.ts';
import { angleSixteenth, type PictureRecord } from './record.ts';
import { voteFunctions } from './vote-kernels.ts';
import { createWasmMemory } from './wasm-memory.ts';

/** Which pictures have a feature in which cell, in memory, 8 bytes a feature; and the counting of votes over them. */
export interface Postings {
  /**
   * Fills an empty store at once. `visitAll` is called twice and hands over the same records both times: so the
   * memory is taken once, at its final size.
   */
  readonly load: (visitAll: (take: (slot: number, record: PictureRecord) => void) => void) => void;
  readonly add: (slot: number, record: PictureRecord) => void;
  /**
   * Takes down the pictures that have a feature in one of `cells` (nearest first) with bits near those of `row`, the
   * first values of a mixed descriptor, at the angle they have against `sixteenth` of a turn; each picture once.
   * Answers how many.
   */
  readonly scan: (cells: Uint32Array, row: Float32Array, sixteenth: number) => number;
  /** Adds what the last scan took down to the votes, each with its weight times `share`. */
  readonly tally: (share: number) => void;
  /**
   * Most votes of any turn, for each slot (with half of those of the turns beside it), and all votes, 16 a slot.
   * Good until something is added.
   */
  readonly count: () => { readonly sums: Float32Array; readonly votes: Float32Array };
  /** Forgets all votes. */
  readonly clear: () => void;
  /** Slots whose hash is within `radius` bits of one of `wanted` (pairs of low and high word), at most a thousand. */
  readonly nearHashes: (wanted: Uint32Array, radius: number) => NearHash[];
}

/** A slot with a hash near the `wanted`-th of those looked for. */
export interface NearHash {
  readonly slot: number;
  readonly wanted: number;
  readonly distance: number;
}

/** Postings read for one feature, nearest cells first: bounds the time however large the archive grows. */
const MOST_READ = 32_768;
// Ours, chosen on the half of the labelled set that is for choosing.
const BITS_LIMIT = 11;
const BITS_SPREAD = 60;
/** The fresh postings are sorted in when they are more than this, and more than their share of the sorted ones. */
const FEWEST_FRESH = 40_000;
const FRESH_SHARE = 0.25;
const END = -1;
const FEWEST_SLOTS = 1024;
const MOST_NEAR = 1024;
const MOST_WANTED = 16;
/** Cells that one feature may look in. */
const MOST_CELLS = 64;
const TURNS = 16;
const WORD = 4;

// The memory in words: what a query needs, what each slot needs, then the postings. Four words beyond an array may be
// read, and are not used.
const WEIGHTS_AT = 0;
const WANTED_AT = 64;
const NEAR_AT = WANTED_AT + 2 * MOST_WANTED;
const CELLS_AT = NEAR_AT + 2 * MOST_NEAR;
const ROW_AT = CELLS_AT + MOST_CELLS;
const HITS_AT = ROW_AT + VOTE_BITS;
const HIT_WEIGHTS_AT = HITS_AT + MOST_READ;
const RUN_BITS_AT = HIT_WEIGHTS_AT + MOST_READ;
const RUN_PLACES_AT = RUN_BITS_AT + MOST_READ + 4;
const UPPER_AT = RUN_PLACES_AT + MOST_READ + 4;

interface Layout {
  readonly slots: number;
  readonly postings: number;
}

/** Postings of the cells of `codebook`: a sorted block, and what came since in chains. */
export function createPostings(codebook: Codebook): Postings {
  const { size } = codebook;
  const cellCount = size * size;
  const lowerAt = UPPER_AT + size * VOTE_BITS;
  const startsAt = lowerAt + size * VOTE_BITS;
  const hashesAt = startsAt + cellCount + 2;
  const lastVotersAt = ({ slots }: Layout) => hashesAt + 2 * slots;
  const sumsAt = ({ slots }: Layout) => hashesAt + 3 * slots;
  const votesAt = ({ slots }: Layout) => hashesAt + 4 * slots;
  const bitsAt = ({ slots }: Layout) => hashesAt + (4 + TURNS) * slots;
  const placesAt = (of: Layout) => bitsAt(of) + of.postings + 4;
  const endOf = (of: Layout) => placesAt(of) + of.postings + 4;

  const addresses = {
    cells: CELLS_AT * WORD,
    row: ROW_AT * WORD,
    upper: UPPER_AT * WORD,
    lower: lowerAt * WORD,
    starts: startsAt * WORD,
    weights: WEIGHTS_AT * WORD,
    hits: HITS_AT * WORD,
    hitWeights: HIT_WEIGHTS_AT * WORD,
  };
  const memory = createWasmMemory(voteFunctions(addresses, BITS_LIMIT));
  const [scan, scanCells] = [memory.find('scan'), memory.find('scanCells')];
  const [tally, peaks, nearHashes] = [memory.find('tally'), memory.find('peaks'), memory.find('nearHashes')];
  let layout: Layout = { slots: FEWEST_SLOTS, postings: 0 };
  memory.reserve(endOf(layout) * WORD);
  memory
    .floats()
    .set(Float32Array.from({ length: 33 }, (_, distance) => Math.exp(-(distance ** 2) / BITS_SPREAD)));
  for (let word = 0; word < size; word++) {
    const from = word * DESCRIPTOR_LENGTH;
    const to = word * VOTE_BITS;
    memory.floats().set(codebook.mixedUpper.subarray(from, from + VOTE_BITS), UPPER_AT + to);
    memory.floats().set(codebook.mixedLower.subarray(from, from + VOTE_BITS), lowerAt + to);
  }

  let slotCount = 0;
  let sorted = 0;
  const heads = new Int32Array(cellCount).fill(END);
  let next = new Int32Array(0);
  let freshBits = new Uint32Array(0);
  let freshPlaces = new Uint32Array(0);
  let freshCount = 0;
  let voter = 0;
  let hitCount = 0;
  const middle = new Float32Array(VOTE_BITS);

  /** Gives slots and postings this much room; what is there stays. */
  function layOut(wanted: Layout): void {
    memory.reserve(endOf(wanted) * WORD);
    const words = memory.words();
    // From the end, because everything moves towards it.
    words.copyWithin(placesAt(wanted), placesAt(layout), placesAt(layout) + sorted);
    words.copyWithin(bitsAt(wanted), bitsAt(layout), bitsAt(layout) + sorted);
    words.fill(0, lastVotersAt(wanted), bitsAt(wanted));
    layout = wanted;
    voter = 0;
  }

  function keepHash(slot: number, { hash }: PictureRecord): void {
    if (slot >= layout.slots) layOut({ slots: 2 * slot, postings: layout.postings });
    slotCount = Math.max(slotCount, slot + 1);
    memory.words().set([hash.low, hash.high], hashesAt + 2 * slot);
  }

  function makeRoom(): void {
    if (freshCount < next.length) return;
    const room = Math.max(FEWEST_FRESH, 2 * next.length);
    next = grown(next, new Int32Array(room));
    freshBits = grown(freshBits, new Uint32Array(room));
    freshPlaces = grown(freshPlaces, new Uint32Array(room));
  }

  /** Sorts the fresh postings in where they lie, from the last cell on, so that nothing is needed twice. */
  function sortIn(): void {
    layOut({ slots: layout.slots, postings: sorted + freshCount });
    const words = memory.words();
    const [bits, places] = [bitsAt(layout), placesAt(layout)];
    let to = sorted + freshCount;
    let end = sorted;
    for (let cell = cellCount - 1; cell >= 0; cell--) {
      const start = words[startsAt + cell] ?? 0;
      words[startsAt + cell + 1] = to;
      for (let k = heads[cell] ?? END; k !== END; k = next[k] ?? END) {
        to--;
        words[bits + to] = freshBits[k] ?? 0;
        words[places + to] = freshPlaces[k] ?? 0;
      }
      to -= end - start;
      words.copyWithin(bits + to, bits + start, bits + end);
      words.copyWithin(places + to, places + start, places + end);
      end = start;
    }
    sorted += freshCount;
    heads.fill(END);
    freshCount = 0;
  }

  /** Copies the fresh postings of a cell to where a scan can read them; answers how many. */
  function gatherFresh(cell: number): number {
    const words = memory.words();
    let length = 0;
    for (let k = heads[cell] ?? END; k !== END && length < MOST_READ; k = next[k] ?? END, length++) {
      words[RUN_BITS_AT + length] = freshBits[k] ?? 0;
      words[RUN_PLACES_AT + length] = freshPlaces[k] ?? 0;
    }
    return length;
  }

  /** Scans what came since the last sorting, cell by cell; answers the number of hits. */
  function scanFresh(cells: Uint32Array, row: Float32Array, sixteenth: number, before: number): number {
    let found = before;
    for (const cell of cells) {
      if (heads[cell] === END) continue;
      const length = gatherFresh(cell);
      writeCellMiddle(codebook, cell, middle);
      const [bits, places, end] = [RUN_BITS_AT, RUN_PLACES_AT, RUN_BITS_AT + length];
      const own = signBits(row, middle, 0);
      const voters = lastVotersAt(layout) * WORD;
      // One scan more could be more than there is room for.
      if (found + length > MOST_READ) return found;
      found = scan(bits * WORD, places * WORD, end * WORD, own, sixteenth, voter, voters, found);
    }
    return found;
  }

  return {
    load(visitAll) {
      const counts = new Uint32Array(cellCount);
      let slots = FEWEST_SLOTS;
      let total = 0;
      visitAll((slot, { features }) => {
        slots = Math.max(slots, slot + 1);
        total += features.count;
        for (let i = 0; i < features.count; i++) {
          const cell = features.cells[i] ?? 0;
          counts[cell] = (counts[cell] ?? 0) + 1;
        }
      });
      let before = 0;
      layOut({ slots, postings: total });
      sorted = total;
      const words = memory.words();
      const [bits, places] = [bitsAt(layout), placesAt(layout)];
      for (let cell = 0; cell < cellCount; cell++) {
        words[startsAt + cell] = before;
        before += counts[cell] ?? 0;
      }
      words[startsAt + cellCount] = before;
      counts.set(words.subarray(startsAt, startsAt + cellCount));
      visitAll((slot, record) => {
        keepHash(slot, record);
        const { features, placement } = record;
        for (let i = 0; i < features.count; i++) {
          const cell = features.cells[i] ?? 0;
          const at = counts[cell] ?? 0;
          words[bits + at] = features.voteBits[i] ?? 0;
          words[places + at] = slot * TURNS + angleSixteenth(placement[i] ?? 0);
          counts[cell] = at + 1;
        }
      });
    },
    add(slot, record) {
      keepHash(slot, record);
      const { count, cells, voteBits } = record.features;
      for (let i = 0; i < count; i++) {
        makeRoom();
        const cell = cells[i] ?? 0;
        freshBits[freshCount] = voteBits[i] ?? 0;
        freshPlaces[freshCount] = slot * TURNS + angleSixteenth(record.placement[i] ?? 0);
        next[freshCount] = heads[cell] ?? END;
        heads[cell] = freshCount++;
      }
      if (freshCount > Math.max(FEWEST_FRESH, sorted * FRESH_SHARE)) sortIn();
    },
    scan(cells, row, sixteenth) {
      voter = (voter + 1) | 0;
      memory.words().set(cells, CELLS_AT);
      memory.floats().set(row, ROW_AT);
      hitCount = scanCells(
        (CELLS_AT + cells.length) * WORD,
        size,
        bitsAt(layout) * WORD,
        placesAt(layout) * WORD,
        sixteenth,
        voter,
        lastVotersAt(layout) * WORD,
        MOST_READ,
      );
      if (freshCount > 0) hitCount = scanFresh(cells, row, sixteenth, hitCount);
      return hitCount;
    },
    tally(share) {
      const end = (HITS_AT + hitCount) * WORD;
      tally(HITS_AT * WORD, end, (HIT_WEIGHTS_AT - HITS_AT) * WORD, votesAt(layout) * WORD, share);
    },
    count() {
      const [sums, votes] = [sumsAt(layout), votesAt(layout)];
      peaks(votes * WORD, sums * WORD, (sums + slotCount) * WORD);
      const floats = memory.floats();
      return {
        sums: floats.subarray(sums, sums + slotCount),
        votes: floats.subarray(votes, votes + slotCount * TURNS),
      };
    },
    clear() {
      const votes = votesAt(layout);
      memory.floats().fill(0, votes, votes + slotCount * TURNS);
    },
    nearHashes(wanted, radius) {
      const words = memory.words();
      words.set(wanted, WANTED_AT);
      const found = nearHashes(
        hashesAt * WORD,
        (hashesAt + 2 * slotCount) * WORD,
        WANTED_AT * WORD,
        (WANTED_AT + wanted.length) * WORD,
        radius,
        NEAR_AT * WORD,
        MOST_NEAR,
      );
      return Array.from({ length: found }, (_, i) => {
        const address = words[NEAR_AT + 2 * i] ?? 0;
        const packed = words[NEAR_AT + 2 * i + 1] ?? 0;
        return {
          slot: (address / WORD - hashesAt) / 2,
          wanted: packed & 255,
          distance: packed >>> 8,
        };
      });
    },
  };
}

function grown<Numbers extends Int32Array | Uint32Array>(from: Numbers, to: Numbers): Numbers {
  to.set(from);
  return to;
}
