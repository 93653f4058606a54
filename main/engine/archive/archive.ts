import type { MeasuredRoll } from '../colour/measured-roll.ts';
import type { SharedWork } from '../colour/share-work.ts';
import type { Undo } from '../db/undo.ts';
import type { WritableDb } from '../db/query.ts';
import type { ArchivePictures } from '../look-up/archive-pictures.ts';

/** An open archive: what every store and handler works on. */
export interface Archive {
  /** The folder, absolute. */
  readonly folder: string;
  readonly db: WritableDb;
  readonly undo: Undo;
  /** The index of what the pictures show. */
  readonly pictures: ArchivePictures;
  /** Rolls whose colour is being measured. */
  readonly measuring: SharedWork<MeasuredRoll>;
  /** The clock, given by whoever made the engine. */
  readonly now: () => Date;
  close(): void;
}
