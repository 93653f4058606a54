import { compareFrameLabels } from '../frame/frame-label.ts';
import { compareNatural } from '../numbering/natural-order.ts';
import type { VersionKind } from './name-words.ts';

/** A file of the folder, as far as it is known. `width` and `height` in pixels, upright. */
export interface ScanFile {
  readonly path: string;
  readonly pages?: number;
  readonly width?: number;
  readonly height?: number;
  /** When it was scanned, ISO 8601; for the order only. */
  readonly scannedAt?: string;
}

/** The roll that the files belong to. */
export interface MappedRoll {
  readonly number?: string;
  readonly filmFormat: string;
  /** `24x36`, `18x24`, `6x6` … */
  readonly frameFormat: string;
  /** Frames as the box says; null when not known. For half frame the box may still say 36. */
  readonly exposures: number | null;
  /** Labels of the frames that the roll already has. */
  readonly knownLabels: readonly string[];
}

/** What the user has said about the folder. */
export interface MapOptions {
  /** The first file shows the last frame; null or absent while the user has not said. */
  readonly reverse?: boolean | null;
  /** Label of the first frame along the film, normal form. */
  readonly firstLabel?: string | null;
  /** Paths that are no frames of the roll. */
  readonly skip?: readonly string[];
}

/** A part of a picture; fractions 0 to 1 of its width and height, from the top left. */
export interface Region {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const WHOLE: Region = { x: 0, y: 0, width: 1, height: 1 };

/** A frame that a file shows: on which page of the file (from 0), in which part of the picture. */
export interface MappedFrame {
  readonly label: string;
  readonly page: number;
  readonly region: Region;
}

/** The proposal for one file. */
export interface MappedFile {
  readonly path: string;
  /** Empty when the file is left out or nothing can be proposed. */
  readonly frames: readonly MappedFrame[];
  /** Place along the film, from 1; files of one frame share it. 0 without a frame. */
  readonly order: number;
  readonly version: VersionKind;
  /** The roll as the name gives it, or null. */
  readonly roll: string | null;
  readonly reason: string;
  /** 0 to 1. Our choice of steps; no probability. */
  readonly confidence: number;
  /** Something about this file should be asked before it is accepted. */
  readonly needsAnswer: boolean;
}

/** One thing to ask about several files at once; `options` of a choice answers it. */
export interface MapQuestion {
  readonly kind: 'first label' | 'direction' | 'pairs' | 'strip' | 'roll' | 'name' | 'letters' | 'duplicate';
  readonly text: string;
  readonly paths: readonly string[];
  readonly choices: readonly { readonly text: string; readonly options: MapOptions }[];
}

/** Something seen in the folder that needs no answer. */
export interface MapNote {
  readonly kind: 'gaps' | 'versions' | 'reversed' | 'counter wrap' | 'more frames' | 'left out';
  readonly text: string;
}

/** What is proposed for a folder. `files` in natural order of their paths. */
export interface ScanMapping {
  readonly files: readonly MappedFile[];
  readonly questions: readonly MapQuestion[];
  readonly notes: readonly MapNote[];
}

/** The files with their places along the film worked out afresh, in natural order of their paths. */
export function withOrder(files: readonly MappedFile[]): readonly MappedFile[] {
  const firsts = files.flatMap((file) => file.frames[0]?.label ?? []);
  const along = [...new Set(firsts)].sort(compareFrameLabels);
  return files
    .map((file) => {
      const first = file.frames[0]?.label;
      return { ...file, order: first === undefined ? 0 : along.indexOf(first) + 1 };
    })
    .sort((a, b) => compareNatural(a.path, b.path));
}

/** The labels of a mapping, each once, in the order of the film. */
export function labelsOf(files: readonly MappedFile[]): readonly string[] {
  const labels = files.flatMap((file) => file.frames.map((frame) => frame.label));
  return [...new Set(labels)].sort(compareFrameLabels);
}
