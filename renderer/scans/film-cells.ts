import type { Frame } from '../../shared/api/methods/film-methods.ts';
import type { ProposedFile } from '../../shared/api/methods/scan-methods.ts';
import { fillGaps } from '../../shared/domain/naming/film-gaps.ts';
import { drawnFrame, plainPicture, type DrawnFrame, type DrawnPicture } from '../film/drawn-frame.ts';
import { frameGeometry } from '../film/film-geometry.ts';
import { describeStanding, fileName } from './scan-words.ts';

/** A frame of the film as it would be: what shows it, and what it has already. */
export interface FilmCell {
  /** Its place along the film, from 1; the id of the drawn frame. */
  readonly at: number;
  readonly label: string;
  /** The files that would be tied to it, or are; the first is drawn. */
  readonly files: readonly ProposedFile[];
  /** Whether one of the files is new to it. */
  readonly fresh: boolean;
  readonly known: Frame | null;
  readonly drawn: DrawnFrame;
}

/** The roll that scans are brought to. */
export interface ScannedRoll {
  readonly filmFormat: string;
  readonly frameFormat: string;
}

/** The film as it would be after the proposal: every frame it has or would get, and those that must lie between. */
export function cellsOf(
  files: readonly ProposedFile[],
  byHand: ReadonlySet<string>,
  known: readonly Frame[],
  roll: ScannedRoll,
): readonly FilmCell[] {
  const byLabel = new Map<string, ProposedFile[]>();
  for (const file of files) {
    // What cannot be used shows nothing; its frame stays without a scan.
    if (file.state === 'failed') continue;
    for (const { label } of file.frames) byLabel.set(label, [...(byLabel.get(label) ?? []), file]);
  }
  const frames = new Map(known.map((frame) => [frame.label, frame]));
  return fillGaps([...frames.keys(), ...byLabel.keys()]).map((label, index) => {
    const shown = byLabel.get(label) ?? [];
    const frame = frames.get(label) ?? null;
    const fresh = shown.some((file) => file.state === 'done');
    return {
      at: index + 1,
      label,
      files: shown,
      fresh,
      known: frame,
      drawn: drawCell({ at: index + 1, label, files: shown, known: frame, roll, byHand }),
    };
  });
}

interface CellParts {
  readonly at: number;
  readonly label: string;
  readonly files: readonly ProposedFile[];
  readonly known: Frame | null;
  readonly roll: ScannedRoll;
  readonly byHand: ReadonlySet<string>;
}

function drawCell({ at, label, files, known, roll, byHand }: CellParts): DrawnFrame {
  const first = files[0];
  const before = known ? drawnFrame(known, roll.filmFormat) : null;
  return {
    id: at,
    label,
    frameFormat: known?.frameFormat ?? roll.frameFormat,
    picture: first ? pictureOf(first, label) : (before?.picture ?? null),
    marks: [],
    faults: [],
    caption: first ? `${fileName(first.path)}, ${describeStanding(first, byHand.has(first.path))}` : null,
    scans: null,
  };
}

/** The picture by which a file shows a frame, or null where there is none. */
export function pictureOf(
  file: ProposedFile,
  label: string,
  size: 'small' | 'large' = 'small',
): DrawnPicture | null {
  const shown = file.frames.find((frame) => frame.label === label);
  if (!shown || shown.pictureId === null) return null;
  return { ...plainPicture(shown.pictureId, size), region: shown.region };
}

/** A sleeve's length of 35 mm film, mm: six frames of 38. */
const STRIP_MM = 6 * 38;

/** The cells as strips: as many frames to each as go into a sleeve, never fewer than one. */
export function stripsOf(cells: readonly FilmCell[], roll: ScannedRoll): readonly (readonly FilmCell[])[] {
  const { cellMm } = frameGeometry(roll.frameFormat, roll.filmFormat);
  const each = Math.max(1, Math.floor(STRIP_MM / cellMm + 1e-6));
  return Array.from({ length: Math.ceil(cells.length / each) }, (_, index) =>
    cells.slice(index * each, (index + 1) * each),
  );
}
