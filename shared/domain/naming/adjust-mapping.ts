import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import { compareFrameLabels, findLabelAfter, frameLabel, parseFrameLabel } from '../frame/frame-label.ts';
import type { FrameLabel, FrameLabelReason, LabelKind } from '../frame/frame-label.ts';
import type { MappedFile, MappedFrame, ScanMapping } from './scan-mapping.ts';
import { labelsOf, withOrder } from './scan-mapping.ts';

export type AdjustReason =
  | FrameLabelReason
  /** A frame would lie before 00 or above 999. */
  | 'labels_end'
  /** No such file in the mapping, or it has no frame. */
  | 'file_not_mapped';

/** Sheets when every label is a holder's side and both sides occur. */
function labelKindOf(files: readonly MappedFile[]): LabelKind {
  const labels = labelsOf(files);
  const letters = new Set(labels.map((label) => label.at(-1)));
  return letters.size === 2 && letters.has('A') && letters.has('B') ? 'sheets' : 'film';
}

function parsed(label: string): FrameLabel | null {
  const read = parseFrameLabel(label);
  return read.ok ? read.value : null;
}

/** Slices of one page show the film as it lies, lower labels first, whichever end was scanned first. */
function relabel(frames: readonly MappedFrame[], change: (label: string) => string): readonly MappedFrame[] {
  const labels = frames.map((frame) => change(frame.label));
  const onePage = frames.every((frame) => frame.page === frames[0]?.page);
  if (onePage) labels.sort(compareFrameLabels);
  return frames.map((frame, at) => ({ ...frame, label: labels[at] ?? frame.label }));
}

/** By the user's own hand: certain, and open to no question. */
function byHand(file: MappedFile, frames: readonly MappedFrame[], remark: string): MappedFile {
  return { ...file, frames, reason: `${file.reason} ${remark}`, confidence: 1, needsAnswer: false };
}

function rebuilt(mapping: ScanMapping, files: readonly MappedFile[]): ScanMapping {
  const open = new Set(files.filter((file) => file.needsAnswer).map((file) => file.path));
  const questions = mapping.questions.filter((question) => question.paths.some((path) => open.has(path)));
  return { ...mapping, files: withOrder(files), questions };
}

function shiftFiles(
  mapping: ScanMapping,
  steps: number,
  moves: (file: MappedFile) => boolean,
  remark: string,
): Checked<ScanMapping, AdjustReason> {
  const kind = labelKindOf(mapping.files);
  const moved = new Map<string, string>();
  for (const label of labelsOf(mapping.files.filter(moves))) {
    const from = parsed(label);
    const to = from && findLabelAfter(from, steps, kind);
    if (to === null) return refuse('labels_end');
    moved.set(label, to.text);
  }
  const files = mapping.files.map((file) =>
    file.frames.length > 0 && moves(file)
      ? byHand(
          file,
          relabel(file.frames, (label) => moved.get(label) ?? label),
          remark,
        )
      : file,
  );
  return accept(rebuilt(mapping, files));
}

/** Every frame `steps` labels further on (back when negative). Reasons stay, with a remark. */
export function shiftMapping(mapping: ScanMapping, steps: number): Checked<ScanMapping, AdjustReason> {
  return shiftFiles(mapping, steps, () => true, `Moved by ${steps} by hand.`);
}

/** The steps from one label to another on this kind of film, or null between a whole and a half step. */
function stepsBetween(from: FrameLabel, to: FrameLabel, kind: LabelKind): number | null {
  if (kind === 'film') return from.letter === to.letter ? to.number - from.number : null;
  const place = (label: FrameLabel): number => label.number * 2 + (label.letter === 'B' ? 1 : 0);
  return place(to) - place(from);
}

/**
 * Gives the file at `path` the label `text`, and moves every file behind it along the film by as much.
 * Further scans of the same frame move with it.
 */
export function relabelFrom(
  mapping: ScanMapping,
  path: string,
  text: string,
  remark = `Counted from ${text} by hand.`,
): Checked<ScanMapping, AdjustReason> {
  const label = parseFrameLabel(text);
  if (!label.ok) return label;
  const file = mapping.files.find((each) => each.path === path);
  const from = parsed(file?.frames[0]?.label ?? '');
  if (file === undefined || from === null) return refuse('file_not_mapped');
  const steps = stepsBetween(from, label.value, labelKindOf(mapping.files));
  if (steps !== null) return shiftFiles(mapping, steps, (each) => each.order >= file.order, remark);
  // From whole to half steps or back: the letter changes on this file and all behind it.
  const changed = new Map<string, string>();
  for (const old of labelsOf(mapping.files.filter((each) => each.order >= file.order))) {
    const before = parsed(old);
    if (before === null) continue;
    const after = findLabelAfter({ ...before, letter: label.value.letter }, label.value.number - from.number);
    if (after === null) return refuse('labels_end');
    changed.set(old, after.text);
  }
  const files = mapping.files.map((each) =>
    each.order >= file.order
      ? byHand(
          each,
          relabel(each.frames, (old) => changed.get(old) ?? old),
          remark,
        )
      : each,
  );
  return accept(rebuilt(mapping, files));
}

/**
 * The roll the other way round: the file with the lowest label gets the highest. Gaps keep their distance from the
 * ends, since a roll scanned tail first with a picture missing misses it at the mirrored place. A roll with half
 * steps or sheets exchanges the labels it has.
 */
export function reverseMapping(mapping: ScanMapping, remark = 'Reversed by hand.'): ScanMapping {
  const mirror = mirrorLabels(labelsOf(mapping.files));
  const files = mapping.files.map((file) =>
    file.frames.length > 0
      ? byHand(
          file,
          relabel(file.frames, (label) => mirror.get(label) ?? label),
          remark,
        )
      : file,
  );
  return rebuilt(mapping, files);
}

/** Each label with its counterpart from the other end. */
function mirrorLabels(labels: readonly string[]): ReadonlyMap<string, string> {
  const numbers = labels.map(parsed);
  const first = numbers[0];
  const last = numbers.at(-1);
  const plain = numbers.every((label) => label !== null && label.letter === '');
  return new Map(
    labels.map((label, at) => {
      const number = numbers[at]?.number;
      if (plain && first && last && number !== undefined) {
        return [label, frameLabel(first.number + last.number - number).text];
      }
      return [label, labels[labels.length - 1 - at] ?? label];
    }),
  );
}

/** Takes a file off the roll: it shows no frame of it. The labels of the others stay. */
export function leaveOut(mapping: ScanMapping, path: string): ScanMapping {
  const files = mapping.files.map((file) =>
    file.path === path ? byHand(file, [], 'Left out by hand.') : file,
  );
  return rebuilt(mapping, files);
}

/**
 * Takes a file off the roll and closes the gap: the files behind it move one frame back, as when a test shot or a
 * leader was counted as a frame. Further scans of the same frame go with it.
 */
export function skipFile(mapping: ScanMapping, path: string): Checked<ScanMapping, AdjustReason> {
  const file = mapping.files.find((each) => each.path === path);
  if (file === undefined || file.frames.length === 0) return refuse('file_not_mapped');
  const same = mapping.files.filter((each) => each.order === file.order);
  const rest = same.reduce((left, each) => leaveOut(left, each.path), mapping);
  const behind = new Set(mapping.files.filter((each) => each.order > file.order).map((each) => each.path));
  return shiftFiles(rest, -file.frames.length, (each) => behind.has(each.path), 'Moved up by hand.');
}
