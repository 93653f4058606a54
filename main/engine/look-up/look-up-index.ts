import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import type { Answer, Candidate, Hit } from '../../../shared/domain/look-up/decide.ts';
import type { PictureDescription } from '../../../shared/domain/look-up/describe-picture.ts';
import { encodeFeatures } from '../../../shared/domain/look-up/encode.ts';
import type { Kernels } from '../../../shared/domain/look-up/kernels.ts';
import { createFinder } from './find-picture.ts';
import { createPostings } from './postings.ts';
import { packPlacement, readEntry, writeAdded, writeRemoved, type PictureRecord } from './record.ts';
import { openSegments, type EntryPlace } from './segments.ts';

/** A preview of a picture of the archive: bytes (0 to 255) or floats (0 to 1), best at 512 px on the long side. */
export interface Preview {
  readonly luma: Uint8Array | Float32Array;
  readonly width: number;
  readonly height: number;
}

/** What the index needs from the rest of the archive. */
export interface LookUpOptions {
  /** Where the files of the index lie. They are a cache: the folder may be deleted while the index is closed. */
  readonly folder: string;
  readonly codebook: Codebook;
  readonly kernels: Kernels;
  /** The preview of a picture, or null where there is none (any more). */
  readonly verify: (pictureId: number) => Promise<Preview | null>;
  /** Pictures of the frames around that of `pictureId` on its roll: where the rest of a burst is. */
  readonly neighbours?: (pictureId: number) => readonly number[];
  /** Told of every frame that a picture was laid over, before the answer: for measuring. */
  readonly observe?: (candidates: readonly Candidate[]) => void;
}

/** The index that finds pictures by what they show. */
export interface LookUpIndex {
  /** Number of pictures in it. */
  readonly size: () => number;
  readonly has: (pictureId: number) => boolean;
  /** Adds a picture that shows frame `groupId`, in the place of what was known of it. On disk after `flush`. */
  readonly add: (pictureId: number, groupId: number, description: PictureDescription) => void;
  /** Forgets a picture. On disk after `flush`. */
  readonly remove: (pictureId: number) => void;
  readonly flush: () => void;
  /** Looks for a picture of bytes (0 to 255) or floats (0 to 1), any size. */
  readonly find: (
    luma: Uint8Array | Float32Array,
    width: number,
    height: number,
    options: { readonly limit: number },
  ) => Promise<{ answer: Answer; hits: Hit[] }>;
  readonly close: () => void;
}

/** One picture as the index holds it in memory; its features lie on disk. */
export interface Slot {
  readonly pictureId: number;
  readonly groupId: number;
  readonly place: EntryPlace;
}

/** Opens the index in `options.folder`; what a crash left half written there is cut off. */
export function openLookUpIndex(options: LookUpOptions): LookUpIndex {
  const { codebook, kernels } = options;
  const segments = openSegments(options.folder, codebook.version);
  const postings = createPostings(codebook.size * codebook.size);
  const slots: (Slot | null)[] = [];
  const slotOf = new Map<number, number>();
  const hashes: number[] = [];

  function forget(pictureId: number): void {
    const slot = slotOf.get(pictureId);
    if (slot === undefined) return;
    slots[slot] = null;
    slotOf.delete(pictureId);
  }

  function remember(record: PictureRecord, place: EntryPlace): number {
    forget(record.pictureId);
    const slot = slots.length;
    slots.push({ pictureId: record.pictureId, groupId: record.groupId, place });
    slotOf.set(record.pictureId, slot);
    hashes.push(record.hash.low, record.hash.high);
    return slot;
  }

  postings.load((take) => {
    const first = slots.length === 0;
    let slot = 0;
    segments.readAll((content, place) => {
      const entry = readEntry(content);
      if (entry?.kind === 'added') {
        if (first) remember(entry.record, place);
        take(slot++, entry.record);
      } else if (entry?.kind === 'removed' && first) forget(entry.pictureId);
    });
  });

  const finder = createFinder({
    codebook,
    kernels,
    postings,
    slots,
    slotOf,
    hashes,
    read: (slot) => {
      const content = segments.read(slot.place);
      const entry = content === null ? null : readEntry(content);
      return entry?.kind === 'added' ? entry.record : null;
    },
    preview: async (pictureId): Promise<Preview | null> => options.verify(pictureId),
    neighbours: options.neighbours ?? (() => []),
    observe: options.observe ?? (() => {}),
  });

  return {
    size: () => slotOf.size,
    has: (pictureId) => slotOf.has(pictureId),
    add(pictureId, groupId, description) {
      const record: PictureRecord = {
        pictureId,
        groupId,
        width: description.width,
        height: description.height,
        hash: description.hash,
        features: encodeFeatures(description.features, codebook, kernels),
        placement: packPlacement(description.features),
      };
      postings.add(remember(record, segments.append(writeAdded(record))), record);
    },
    remove(pictureId) {
      if (!slotOf.has(pictureId)) return;
      segments.append(writeRemoved(pictureId));
      forget(pictureId);
    },
    flush: () => segments.flush(),
    find: (luma, width, height, { limit }) => finder.find(luma, width, height, limit),
    close: () => segments.close(),
  };
}
