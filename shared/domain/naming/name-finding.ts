import type { VersionKind } from './name-words.ts';

/** What one file name says. */
export interface ScanName {
  readonly path: string;
  /** The roll as written in the file name, leading zeros kept; else null. */
  readonly roll: string | null;
  /** A roll number that the folder's name may give. */
  readonly folderRoll: string | null;
  /** Frame labels in normal form: none, one, or those of a strip. With certainty `ask` a proposal. */
  readonly labels: readonly string[];
  /** The running number, when the name has one. */
  readonly position: number | null;
  /** Whether the running number is written as a frame label or may be any counter. */
  readonly numberIs: 'label' | 'counter' | 'none';
  /** What stays the same around the running number, folded: files of one series share it. */
  readonly series: string;
  readonly holds: 'frame' | 'strip' | 'page';
  readonly version: VersionKind;
  /** Which further scan or copy it is (2 in `v2`), or null. */
  readonly versionNumber: number | null;
  /** The label had a small letter: `03a` may be the half step or the first of two scans of 3. */
  readonly smallLetter: boolean;
  /** Date or date and time in the name, wall time; a scanner's, not the day of the picture. */
  readonly instant: string | null;
  readonly certainty: 'sure' | 'ask';
  readonly reason: string;
}

/** The part of a reading that names the frame. */
export type NameFinding = Pick<ScanName, 'labels' | 'position' | 'numberIs' | 'certainty' | 'reason'> & {
  readonly roll?: string | null;
  readonly holds?: ScanName['holds'];
  readonly smallLetter?: boolean;
  readonly versionNumber?: number;
};

/** Nothing is known but, perhaps, the running number; the reason says why. */
export function unknown(reason: string, position: number | null = null): NameFinding {
  return { labels: [], position, numberIs: position === null ? 'none' : 'counter', certainty: 'ask', reason };
}
