import type { Frame, FrameVersion, PencilMark } from '../../shared/api/methods/film-methods.ts';
import type { StripOnPage } from '../../shared/api/methods/filing-methods.ts';
import { previewAddress, type PreviewSize } from '../../shared/api/preview-url.ts';
import type { QuarterTurn } from '../../shared/sheet/display-list.ts';
import { turnToLie } from '../../shared/sheet/sheet-plan.ts';
import { frameGeometry } from './film-geometry.ts';

/** A picture as it is to be shown: the region is cut out, mirrored left to right, then turned clockwise. */
export interface DrawnPicture {
  readonly address: string;
  readonly region: FrameVersion['region'];
  readonly turned: QuarterTurn;
  readonly mirrored: boolean;
  /** The whole picture in pixels, null where nobody knows: a region is then taken to fill the gate. */
  readonly widthPx: number | null;
  readonly heightPx: number | null;
}

/** Something wrong on a frame, and the edge it shows at. */
export interface DrawnFault {
  readonly kind: string;
  readonly edge: 'left' | 'right' | 'top' | 'bottom' | null;
}

/** Everything that is drawn of a frame. */
export interface DrawnFrame {
  readonly id: number;
  readonly label: string;
  readonly frameFormat: string;
  /** Null for film that was not scanned: a clear frame with its label. */
  readonly picture: DrawnPicture | null;
  readonly marks: readonly PencilMark[];
  readonly faults: readonly DrawnFault[];
  readonly caption: string | null;
  /** How many scans show it; null where it is not known. */
  readonly scans: number | null;
}

const WHOLE: FrameVersion['region'] = { x: 0, y: 0, width: 1, height: 1 };

/** A frame of the engine as it lies on its film, by its best version that can be shown. */
export function drawnFrame(frame: Frame, filmFormat: string, size: PreviewSize = 'small'): DrawnFrame {
  const best = frame.versions.find((version) => version.state !== 'refused');
  return {
    id: frame.id,
    label: frame.label,
    frameFormat: frame.frameFormat,
    picture: best ? pictureOnFilm(frame, best, filmFormat, size) : null,
    marks: frame.marks,
    faults: frame.faults.map(({ kind, edge }) => ({ kind, edge })),
    caption: frame.caption,
    scans: frame.versions.length,
  };
}

/** A frame as a page of a binder tells of it: without marks, faults and turns. */
export function drawnFrameOnPage(frame: StripOnPage['frames'][number]): DrawnFrame {
  return {
    id: frame.id,
    label: frame.label,
    frameFormat: frame.frameFormat,
    picture: frame.pictureId === null ? null : plainPicture(frame.pictureId),
    marks: [],
    faults: [],
    caption: frame.caption,
    scans: null,
  };
}

/** The whole of a picture, upright, as it was scanned. */
export function plainPicture(pictureId: string, size: PreviewSize = 'small'): DrawnPicture {
  return {
    address: previewAddress(pictureId, size),
    region: WHOLE,
    turned: 0,
    mirrored: false,
    widthPx: null,
    heightPx: null,
  };
}

/**
 * A version of a frame as it lies on the film: turned and mirrored as was recorded, and an upright picture laid on
 * its side where the film has it so.
 */
export function pictureOnFilm(
  frame: Pick<Frame, 'turned' | 'mirrored' | 'frameFormat'>,
  version: FrameVersion,
  filmFormat: string,
  size: PreviewSize,
): DrawnPicture {
  const recorded = frame.turned + version.turned;
  const { width, height, region } = version;
  const upright = recorded % 180 === 0;
  const shown =
    width === null || height === null
      ? { width: 1, height: 1 }
      : { width: width * region.width, height: height * region.height };
  const held = upright ? shown : { width: shown.height, height: shown.width };
  return {
    address: previewAddress(version.pictureId, size),
    region,
    turned: quarterTurn(recorded + turnToLie(held, frameGeometry(frame.frameFormat, filmFormat))),
    mirrored: frame.mirrored !== version.mirrored,
    widthPx: width,
    heightPx: height,
  };
}

/** A version of a frame upright, as people look at it: only turned and mirrored as was recorded. */
export function uprightPicture(
  frame: Pick<Frame, 'turned' | 'mirrored'>,
  version: FrameVersion,
  size: PreviewSize,
): DrawnPicture {
  return {
    address: previewAddress(version.pictureId, size),
    region: version.region,
    turned: quarterTurn(frame.turned + version.turned),
    mirrored: frame.mirrored !== version.mirrored,
    widthPx: version.width,
    heightPx: version.height,
  };
}

/** The quarter turn that `degrees`, a multiple of 90, come to. */
export function quarterTurn(degrees: number): QuarterTurn {
  const turned = ((degrees % 360) + 360) % 360;
  return turned === 90 || turned === 180 || turned === 270 ? turned : 0;
}

const MARK_WORDS = { box: 'print this', dot: 'maybe', stroke: 'no', crop: 'cropped' } as const;

/** A pencil mark in a word or two. */
export function nameMark(kind: PencilMark['kind']): string {
  return MARK_WORDS[kind];
}

/** A frame in words, for its accessible name: `Frame 16, Ewe and lamb, marked print this, 2 scans, fault: fog`. */
export function describeFrame(frame: DrawnFrame): string {
  const marks = [...new Set(frame.marks.map(({ kind }) => nameMark(kind)))];
  const faults = [...new Set(frame.faults.map(({ kind }) => kind))];
  return [
    `Frame ${frame.label}`,
    frame.caption,
    marks.length > 0 ? `marked ${marks.join(' and ')}` : null,
    frame.picture === null ? 'no scan' : null,
    frame.scans !== null && frame.scans > 1 ? `${frame.scans} scans` : null,
    faults.length > 0 ? `${faults.length === 1 ? 'fault' : 'faults'}: ${faults.join(', ')}` : null,
  ]
    .filter((part) => part !== null)
    .join(', ');
}
