import { findFilmFormat } from '../film/film-format.ts';
import { compareFrameLabels, findLabelAfter, frameLabel, listLabelsFrom } from '../frame/frame-label.ts';
import { compareNatural } from '../numbering/natural-order.ts';
import type { NamedFile } from './read-names.ts';
import type { MapNote, MapQuestion, MappedRoll } from './scan-mapping.ts';

/** The files of one running number: one frame, or a pair of half frames. */
export interface Slot {
  readonly position: number | null;
  readonly files: readonly NamedFile[];
}

/** Labels for each slot of a series, in the same order, and what to say about them. */
export interface SeriesLabels {
  readonly labels: readonly (readonly string[])[];
  readonly reason: string;
  readonly confidence: number;
  readonly questions: readonly MapQuestion[];
  readonly notes: readonly MapNote[];
}

/** A camera's counter has four figures and begins again after 9999. */
const WRAP_FROM = 9000;
const WRAP_TO = 999;

/**
 * Most frames that a film gives beyond what its box says. Source: up to 3 extra when loaded in darkness, "135 film",
 * academickids.com/encyclopedia/index.php/135_film.
 */
const EXTRA_FRAMES = 3;

/** Frames that a roll may have, when the box does not say: 36 and those extra. */
const USUAL_FRAMES = 36;

/** Puts the files of counters together by their number, and the numbers in the order of scanning. */
export function slotsOf(files: readonly NamedFile[]): {
  readonly slots: readonly Slot[];
  readonly wrapped: boolean;
} {
  const slots = new Map<string, NamedFile[]>();
  for (const named of files) {
    const { name } = named;
    const key = name.position === null ? `${name.instant ?? name.path}` : `${name.series} ${name.position}`;
    slots.set(key, [...(slots.get(key) ?? []), named]);
  }
  const all = [...slots.values()].map((group) => ({
    position: group[0]?.name.position ?? null,
    files: group,
  }));
  const positions = all.flatMap((slot) => slot.position ?? []);
  const wrapped =
    positions.some((position) => position >= WRAP_FROM) &&
    positions.some((position) => position <= WRAP_TO) &&
    !positions.some((position) => position > WRAP_TO && position < WRAP_FROM);
  const place = ({ position }: Slot): number =>
    position === null ? 0 : wrapped && position <= WRAP_TO ? position + 10_000 : position;
  const text = ({ files: [first] }: Slot, what: 'series' | 'time' | 'path'): string => {
    if (what === 'series') return first?.name.series ?? '';
    return what === 'time' ? (first?.name.instant ?? '') : (first?.file.path ?? '');
  };
  const slotsInOrder = all.sort(
    (a, b) =>
      compareNatural(text(a, 'series'), text(b, 'series')) ||
      compareNatural(text(a, 'time'), text(b, 'time')) ||
      place(a) - place(b) ||
      compareNatural(text(a, 'path'), text(b, 'path')),
  );
  return { slots: slotsInOrder, wrapped };
}

/** Frames that the box promises: for half frame twice what a full-frame box says. */
export function expectedFrames(roll: MappedRoll): number | null {
  const halves = isHalfFrame(roll) ? 2 : 1;
  if (roll.exposures === null) return null;
  return roll.exposures > 2 * USUAL_FRAMES - 12 ? roll.exposures : roll.exposures * halves;
}

/** Whether the roll was taken in half frame, 18×24 mm. */
export function isHalfFrame(roll: MappedRoll): boolean {
  return roll.frameFormat.replace('×', 'x').startsWith('18x24');
}

/** Offsets from the first frame: the numbers themselves when they can be frames, else the place in the row. */
function offsetsOf(
  slots: readonly Slot[],
  highest: number,
): { readonly first: number; readonly offsets: readonly number[] } {
  const positions = slots.flatMap((slot) => slot.position ?? []);
  const distinct = new Set(positions).size === slots.length && positions.length === slots.length;
  if (distinct && positions.every((position) => position <= highest)) {
    return { first: 0, offsets: positions };
  }
  return { first: 1, offsets: slots.map((_, at) => at) };
}

/**
 * Proposes labels for files that only have a running number. `perFile` is 2 for pairs of half frames.
 * A number that can be a frame is taken for it; more files than frames on the box are counted back before 1.
 */
export function labelSeries(
  slots: readonly Slot[],
  roll: MappedRoll,
  firstLabel: string | null,
  perFile: 1 | 2,
): SeriesLabels {
  const paths = slots.flatMap((slot) => slot.files.map((named) => named.file.path));
  const known = [...roll.knownLabels].sort(compareFrameLabels);
  if (firstLabel === null && known.length > 0 && known.length === slots.length * perFile) {
    const labels = slots.map((_, at) => known.slice(at * perFile, (at + 1) * perFile));
    const reason = `As many as the roll has frames (${known.length}), so the first is ${known[0] ?? ''}.`;
    return { labels, reason, confidence: 0.7, questions: [directionQuestion(paths)], notes: [] };
  }
  if (perFile === 2) return labelPairs(slots, roll, paths);
  const series = labelSingles(slots, roll, paths);
  const side = /^0*(\d+)([AB])$/i.exec(firstLabel ?? '');
  if (side === null || findFilmFormat(roll.filmFormat)?.kind !== 'sheet') return series;
  const first = frameLabel(Number(side[1]), (side[2] ?? '').toUpperCase());
  return { ...series, labels: listLabelsFrom(first, slots.length, 'sheets').map((label) => [label]) };
}

function labelSingles(slots: readonly Slot[], roll: MappedRoll, paths: readonly string[]): SeriesLabels {
  const expected = expectedFrames(roll);
  const { first, offsets } = offsetsOf(slots, (expected ?? USUAL_FRAMES) + EXTRA_FRAMES);
  const count = slots.length;
  const extra = expected === null ? 0 : count - expected;
  const unbroken = offsets.length > 0 && Math.max(...offsets) - Math.min(...offsets) === count - 1;
  const startsAtOne = Math.min(...offsets) + first === 1;
  const before = unbroken && startsAtOne && extra > 0 && extra <= EXTRA_FRAMES ? Math.min(extra, 2) : 0;
  const labels = offsets.map((offset) => labelsAt(first + offset - before, 1));
  const start = labels[0]?.[0] ?? '';
  const questions = [firstLabelQuestion(paths, count, start), directionQuestion(paths)];
  if (before > 0) {
    const reason = `${count} files on a ${expected ?? 0}-exposure roll: ${before} more before 1, so the first is ${start}.`;
    const note: MapNote = {
      kind: 'more frames',
      text: `${count} files, ${expected ?? 0} exposures on the box.`,
    };
    return { labels, reason, confidence: 0.5, questions, notes: [note] };
  }
  const byNumber = first === 0;
  const reason = byNumber
    ? `Proposed: the running number is the frame, the first is ${start}.`
    : `Proposed by the order of the files, the first is ${start}.`;
  const overfull = extra > EXTRA_FRAMES;
  return { labels, reason, confidence: overfull ? 0.3 : byNumber ? 0.6 : 0.45, questions, notes: [] };
}

/** The labels of `count` frames from a number on; none above the highest label there is. */
function labelsAt(number: number, count: number): readonly string[] {
  return findLabelAfter(frameLabel(0), number) === null ? [] : listLabelsFrom(frameLabel(number), count);
}

/** File n shows frames 2n-1 and 2n. */
function labelPairs(slots: readonly Slot[], roll: MappedRoll, paths: readonly string[]): SeriesLabels {
  const expected = expectedFrames(roll) ?? 2 * USUAL_FRAMES;
  const { first, offsets } = offsetsOf(slots, Math.ceil(expected / 2) + EXTRA_FRAMES);
  const labels = offsets.map((offset) => {
    const number = Math.max(1, first + offset);
    return labelsAt(2 * number - 1, 2);
  });
  const question: MapQuestion = {
    kind: 'pairs',
    text: `Does each file show two half frames, the first file ${labels[0]?.join(' and ') ?? ''}?`,
    paths,
    choices: [],
  };
  const reason = 'Half frame and a long picture: file n shows frames 2n-1 and 2n.';
  return { labels, reason, confidence: 0.65, questions: [question, directionQuestion(paths)], notes: [] };
}

function directionQuestion(paths: readonly string[]): MapQuestion {
  return {
    kind: 'direction',
    text: 'Which end of the film was scanned first? The names do not tell; labs often begin at the tail.',
    paths,
    choices: [
      { text: 'The first file is the first frame', options: { reverse: false } },
      { text: 'The first file is the last frame', options: { reverse: true } },
    ],
  };
}

function firstLabelQuestion(paths: readonly string[], count: number, proposed: string): MapQuestion {
  const starts = [...new Set([proposed, '00', '0', '1'])];
  return {
    kind: 'first label',
    text: `Which label has the first frame? The ${count} files have running numbers only.`,
    paths,
    choices: starts.map((label) => ({
      text: `${label} to ${lastLabel(label, count)}`,
      options: { firstLabel: label },
    })),
  };
}

function lastLabel(first: string, count: number): string {
  const number = first === '00' ? -1 : Number.parseInt(first, 10);
  return findLabelAfter(frameLabel(number), count - 1)?.text ?? '999';
}
