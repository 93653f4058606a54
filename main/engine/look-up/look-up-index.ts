import type { Codebook } from '../../../shared/domain/look-up/codebook.ts';
import type { Answer, Candidate, Hit } from '../../../shared/domain/look-up/decide.ts';
import type { PictureDescription } from '../../../shared/domain/look-up/describe-picture.ts';
import { encodeFeatures } from '../../../shared/domain/look-up/encode.ts';
import type { Kernels } from '../../../shared/domain/look-up/kernels.ts';
import { createFinder, type FindOptions } from './find-picture.ts';
import { createPostings } from './postings.ts';
import { packPlacement, readEntry, writeAdded, writeRemoved, type PictureRecord } from './record.ts';
import { openSegments, type EntryPlace } from './segments.ts';
import { createSlots } from './slots.ts';

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
  /**
   * The preview of a picture, or null where there is none (any more). A small one, 256 px long or less, is asked for
   * to rule pictures out: it should be quick to come by.
   */
  readonly verify: (pictureId: number, size: 'small' | 'large') => Promise<Preview | null>;
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
  /** Looks for a picture of bytes (0 to 255) or floats (0 to 1), any size. @throws {AppError} cancelled */
  readonly find: (
    luma: Uint8Array | Float32Array,
    width: number,
    height: number,
    options: FindOptions,
  ) => Promise<{ answer: Answer; hits: Hit[] }>;
  readonly close: () => void;
}

/** Opens the index in `options.folder`; what a crash left half written there is cut off. */
export function openLookUpIndex(options: LookUpOptions): LookUpIndex {
  const { codebook, kernels } = options;
  const segments = openSegments(options.folder, codebook.version);
  const postings = createPostings(codebook);
  const slots = createSlots();

  const remember = ({ pictureId, groupId }: PictureRecord, place: EntryPlace) =>
    slots.add({ pictureId, groupId, place });

  let isFirst = true;
  postings.load((take) => {
    let slot = 0;
    segments.readAll((content, place) => {
      const entry = readEntry(content);
      if (entry?.kind === 'added') {
        if (isFirst) remember(entry.record, place);
        take(slot++, entry.record);
      } else if (entry?.kind === 'removed' && isFirst) slots.forget(entry.pictureId);
    });
    isFirst = false;
  });

  const finder = createFinder({
    codebook,
    kernels,
    postings,
    slots,
    read: (slot) => {
      const content = segments.read(slot.place);
      const entry = content === null ? null : readEntry(content);
      return entry?.kind === 'added' ? entry.record : null;
    },
    preview: options.verify,
    neighbours: options.neighbours ?? (() => []),
    observe: options.observe ?? (() => {}),
  });

  return {
    size: slots.size,
    has: (pictureId) => slots.find(pictureId) !== null,
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
      if (slots.find(pictureId) === null) return;
      segments.append(writeRemoved(pictureId));
      slots.forget(pictureId);
    },
    flush: () => segments.flush(),
    find: finder.find,
    close: () => segments.close(),
  };
}
