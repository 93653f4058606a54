import { accept, refuse } from '../checked.ts';
import type { Checked } from '../checked.ts';
import { compareFrameLabels, findLabelAfter, parseFrameLabel } from './frame-label.ts';
import type { FrameLabel, FrameLabelReason, LabelKind } from './frame-label.ts';

export type FrameRangeReason =
  | FrameLabelReason
  /** The second label of a range lies before the first. */
  | 'range_backwards'
  /** `12-14A`: by whole or by half steps? Cannot be told without the labels of the roll. */
  | 'range_letters_differ'
  /** More frames than any roll has (our choice: 500). */
  | 'range_too_long'
  /** A label, or a whole range, that the roll does not have. */
  | 'frame_not_on_roll';

const LONGEST = 500;

/** What a frame list is read against. */
export interface FrameRangeOptions {
  readonly kind?: LabelKind;
  /** The labels of the roll. A range then means every one of them between its ends, half steps included. */
  readonly known?: readonly string[];
}

/**
 * Reads a list of frames such as `1-12`, `00-3`, `7, 9-11`, `12A-14A` or `5–8 10` into normal labels in the order
 * of the film, each once. Dashes of every length, `..` and the word "to" join a range; commas, semicolons and
 * blanks part the items.
 */
export function parseFrameLabels(
  text: string,
  options: FrameRangeOptions = {},
): Checked<readonly FrameLabel[], FrameRangeReason> {
  const items = text
    .normalize('NFKC')
    .replace(/\s*(?:[-‐-―−]|\.\.+|…|\bto\b)\s*/giu, '-')
    .split(/[\s,;]+/u)
    .filter((item) => item !== '');
  if (items.length === 0) return refuse('label_empty');
  const labels = new Map<string, FrameLabel>();
  for (const item of items) {
    const found = parseItem(item, options);
    if (!found.ok) return found;
    for (const label of found.value) labels.set(label.text, label);
    if (labels.size > LONGEST) return refuse('range_too_long');
  }
  return accept([...labels.values()].sort((a, b) => compareFrameLabels(a.text, b.text)));
}

function parseItem(
  item: string,
  options: FrameRangeOptions,
): Checked<readonly FrameLabel[], FrameRangeReason> {
  const [from = '', to, ...rest] = item.split('-');
  if (rest.length > 0) return refuse('label_not_understood');
  const first = parseFrameLabel(from);
  if (!first.ok) return from === '' ? refuse('label_not_understood') : first;
  if (to === undefined) return checkOnRoll([first.value], options.known);
  const last = parseFrameLabel(to);
  if (!last.ok) return to === '' ? refuse('label_not_understood') : last;
  if (compareFrameLabels(first.value.text, last.value.text) > 0) return refuse('range_backwards');
  if (options.known !== undefined) return pickBetween(first.value, last.value, options.known);
  return countUp(first.value, last.value, options.kind ?? 'film');
}

function countUp(
  first: FrameLabel,
  last: FrameLabel,
  kind: LabelKind,
): Checked<readonly FrameLabel[], FrameRangeReason> {
  const turnsSides = kind === 'sheets' && /^[AB]$/.test(first.letter) && /^[AB]$/.test(last.letter);
  if (first.letter !== last.letter && !turnsSides) return refuse('range_letters_differ');
  const labels: FrameLabel[] = [];
  for (let label: FrameLabel | null = first; label !== null; label = findLabelAfter(label, 1, kind)) {
    labels.push(label);
    if (label.text === last.text) return accept(labels);
    if (labels.length >= LONGEST) break;
  }
  return refuse('range_too_long');
}

function checkOnRoll(
  labels: readonly FrameLabel[],
  known: readonly string[] | undefined,
): Checked<readonly FrameLabel[], FrameRangeReason> {
  if (known === undefined) return accept(labels);
  const onRoll = new Set(known);
  return labels.every((label) => onRoll.has(label.text)) ? accept(labels) : refuse('frame_not_on_roll');
}

/** Both ends must be on the roll: a range that runs past the film is more likely a slip than a wish. */
function pickBetween(
  first: FrameLabel,
  last: FrameLabel,
  known: readonly string[],
): Checked<readonly FrameLabel[], FrameRangeReason> {
  const ends = checkOnRoll([first, last], known);
  if (!ends.ok) return ends;
  return accept(
    known
      .map((label) => parseFrameLabel(label))
      .flatMap((label) => (label.ok ? [label.value] : []))
      .filter(
        (label) =>
          compareFrameLabels(first.text, label.text) <= 0 && compareFrameLabels(label.text, last.text) <= 0,
      ),
  );
}

/** Labels as a short list for people, runs of whole frames joined: `00–3, 7, 12A`. In the order of the film. */
export function formatFrameRange(labels: readonly string[], kind: LabelKind = 'film'): string {
  const sorted = [...new Set(labels)].sort(compareFrameLabels);
  const runs: string[][] = [];
  for (const label of sorted) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    const parsed = before === undefined ? null : parseFrameLabel(before);
    const follows = parsed?.ok === true ? findLabelAfter(parsed.value, 1, kind) : null;
    if (run !== undefined && follows?.text === label) run.push(label);
    else runs.push([label]);
  }
  return runs
    .map((run) => (run.length > 2 ? `${run[0] ?? ''}–${run.at(-1) ?? ''}` : run.join(', ')))
    .join(', ');
}
