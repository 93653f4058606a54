import type { Frame, PencilMark } from '../../shared/api/methods/film-methods.ts';
import { formatAperture } from '../../shared/domain/exposure/aperture.ts';
import { formatFrameRange } from '../../shared/domain/frame/frame-range.ts';

/** `1 frame`, `12 frames`. */
export function count(many: number, one: string, more = `${one}s`): string {
  return `${many} ${many === 1 ? one : more}`;
}

/** `Binder 9`, unless the name says binder itself. */
export function binderWords(name: string): string {
  return /^binder\b/i.test(name) ? name : `Binder ${name}`;
}

/** Frames by their labels: `Frame 24`, `Frames 15–21`. */
export function framesWords(frames: readonly Pick<Frame, 'label'>[]): string {
  const range = formatFrameRange(frames.map(({ label }) => label));
  return `${frames.length === 1 ? 'Frame' : 'Frames'} ${range}`;
}

/** Frames in the middle of a sentence: `frame 24`, `7 frames`. */
export function whichWords(frames: readonly Pick<Frame, 'label'>[]): string {
  const [only] = frames;
  return frames.length === 1 && only ? `frame ${only.label}` : count(frames.length, 'frame');
}

/** What a frame was exposed with, as in a margin: `1/125 f/8`. */
export function exposureWords({ shutter, aperture }: Pick<Frame, 'shutter' | 'aperture'>): string {
  return [shutter, aperture === null ? null : formatAperture(aperture)]
    .filter((part) => part !== null)
    .join(' ');
}

/** The strips of a roll in their order along the film, by how many frames each has: `6 6 6 4`. */
export function cutWords(strips: readonly { readonly frames: number }[]): string {
  return strips.map(({ frames }) => frames).join(' ');
}

/** A pencil mark: what it means, what it looks like, and its key. */
export interface MarkKind {
  readonly kind: PencilMark['kind'];
  readonly means: string;
  readonly looks: string;
  readonly key: string;
}

/** The four marks; each has the letter of its own name. */
export const MARK_KINDS: readonly MarkKind[] = [
  { kind: 'box', means: 'Print this', looks: 'a box', key: 'B' },
  { kind: 'dot', means: 'Maybe', looks: 'a dot', key: 'D' },
  { kind: 'stroke', means: 'No', looks: 'a stroke', key: 'S' },
  { kind: 'crop', means: 'Crop', looks: 'crop lines', key: 'C' },
];

const STATE_WORDS: Readonly<Record<string, string>> = {
  complete: 'whole',
  damaged: 'damaged: only a part can be read',
  unfinished: 'unfinished: it may still be being written',
  refused: 'cannot be read',
  missing: 'missing: the file is not where it was',
};

/** The state of a scan in words; one that lies on a drive that is away says so first. */
export function scanStateWords(state: string, away: boolean): string {
  if (away) return 'offline: its drive or folder is not connected';
  return STATE_WORDS[state] ?? state;
}

/** Whether a scan needs a word of warning. */
export function isSound(state: string, away: boolean): boolean {
  return state === 'complete' && !away;
}

/** The name of a file without its folders. */
export function fileName(path: string): string {
  return path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
}

/** A file's size: `812 kB`, `24.3 MB`. */
export function sizeWords(bytes: number): string {
  if (bytes < 1e6) return `${Math.max(1, Math.round(bytes / 1e3))} kB`;
  return `${(bytes / 1e6).toFixed(bytes < 1e8 ? 1 : 0)} MB`;
}
