import type { EntryPlace } from './segments.ts';

/** One picture as the index holds it in memory; its features lie on disk. */
export interface Slot {
  readonly pictureId: number;
  readonly groupId: number;
  readonly place: EntryPlace;
}

/** The pictures of the index by number, in typed arrays: a million of them take 40 MB. */
export interface Slots {
  /** Pictures that are known. */
  readonly size: () => number;
  /** The slot of a picture, or null. */
  readonly find: (pictureId: number) => number | null;
  /** What a slot holds; null where its picture went. */
  readonly get: (slot: number) => Slot | null;
  /** Gives a picture the next slot, in the place of what was known of it. */
  readonly add: (entry: Slot) => number;
  readonly forget: (pictureId: number) => void;
}

const NUMBERS = 5;
const GONE = -1;

export function createSlots(): Slots {
  const slotOf = new Map<number, number>();
  // Rows of: picture, frame, segment, offset, length.
  let rows = new Float64Array(NUMBERS * 256);
  let count = 0;

  function forget(pictureId: number): void {
    const slot = slotOf.get(pictureId);
    if (slot === undefined) return;
    rows[slot * NUMBERS] = GONE;
    slotOf.delete(pictureId);
  }

  return {
    size: () => slotOf.size,
    find: (pictureId) => slotOf.get(pictureId) ?? null,
    get(slot) {
      const [pictureId = GONE, groupId = 0, segment = 0, offset = 0, length = 0] = rows.subarray(
        slot * NUMBERS,
        Math.min(slot, count) * NUMBERS + NUMBERS,
      );
      return slot >= count || pictureId === GONE
        ? null
        : { pictureId, groupId, place: { segment, offset, length } };
    },
    add({ pictureId, groupId, place }) {
      forget(pictureId);
      if ((count + 1) * NUMBERS > rows.length) {
        const more = new Float64Array(Math.ceil(rows.length * 1.5));
        more.set(rows);
        rows = more;
      }
      rows.set([pictureId, groupId, place.segment, place.offset, place.length], count * NUMBERS);
      slotOf.set(pictureId, count);
      return count++;
    },
    forget,
  };
}
