import { parseFrameLabel } from '../frame/frame-label.ts';
import { compareNatural } from '../numbering/natural-order.ts';
import { relabelFrom, reverseMapping } from './adjust-mapping.ts';
import { sliceFrames, wholeFrame } from './file-frames.ts';
import { gatherVersions } from './gather-versions.ts';
import { groupFiles, partRolls } from './group-files.ts';
import { labelSeries, slotsOf } from './label-series.ts';
import { mapStrips } from './map-strips.ts';
import { notesOf } from './mapping-notes.ts';
import type { NamedFile } from './read-names.ts';
import { readNames } from './read-names.ts';
import type {
  MapNote,
  MapOptions,
  MapQuestion,
  MappedFile,
  MappedFrame,
  MappedRoll,
  ScanFile,
  ScanMapping,
} from './scan-mapping.ts';
import { withOrder } from './scan-mapping.ts';

/** A folder of scans and the roll they belong to. */
export interface MapInput {
  readonly files: readonly ScanFile[];
  readonly roll: MappedRoll;
  readonly options?: MapOptions;
}

/** What one way of reading the files gives. */
interface Part {
  readonly files: readonly MappedFile[];
  readonly questions: readonly MapQuestion[];
  readonly notes: readonly MapNote[];
}

const NOTHING: Part = { files: [], questions: [], notes: [] };

/**
 * Proposes which file shows which frame of a roll, with a reason and a confidence for each and the questions that the
 * names leave open. The order in which the files are given makes no difference.
 */
export function mapScans(input: MapInput): ScanMapping {
  const { roll, options = {} } = input;
  const skipped = new Set(options.skip);
  const files = [...input.files].sort((a, b) => compareNatural(a.path, b.path));
  const named = readNames(
    files.filter((file) => !skipped.has(file.path)),
    roll.number,
  );
  const { own, others } = partRolls(named, roll);
  const groups = groupFiles(own, roll);
  const parts: readonly Part[] = [
    leaveOutPart(files.filter((file) => skipped.has(file.path))),
    othersPart(others),
    labelledPart(groups.labelled),
    countedPart(groups.counted, roll, options.firstLabel ?? null, groups.pairs ? 2 : 1),
    mapStrips(groups.strips, options.firstLabel ?? null),
    unknownPart(groups.unknown),
  ];
  const mapping: ScanMapping = {
    files: withOrder(parts.flatMap((part) => part.files)),
    questions: parts.flatMap((part) => part.questions),
    notes: parts.flatMap((part) => part.notes),
  };
  const answered = answer(mapping, options);
  return { ...answered, notes: [...answered.notes, ...notesOf(answered.files, named)] };
}

/** Does what the user has said: first label, then direction. The questions so answered fall away. */
function answer(mapping: ScanMapping, options: MapOptions): ScanMapping {
  const first = options.firstLabel ?? null;
  const lowest = mapping.files.find((file) => file.order === 1);
  let answered = mapping;
  if (first !== null && lowest !== undefined) {
    const moved = relabelFrom(mapping, lowest.path, first, `Counted from ${first}, as you said.`);
    if (moved.ok) answered = moved.value;
  }
  if (options.reverse === true)
    answered = reverseMapping(answered, 'The first file is the last frame, as you said.');
  const questions = mapping.questions.filter((question) => !isAnswered(question, options));
  const open = new Set(questions.flatMap((question) => question.paths));
  const before = new Map(mapping.files.map((file) => [file.path, file]));
  const files = answered.files.map((file) => {
    const { needsAnswer, confidence } = before.get(file.path) ?? file;
    const stillOpen = needsAnswer && (open.has(file.path) || file.frames.length === 0);
    return {
      ...file,
      needsAnswer: stillOpen,
      confidence: needsAnswer && !stillOpen ? Math.max(confidence, ANSWERED) : confidence,
    };
  });
  return { ...answered, files, questions };
}

/** Confidence of a proposal whose questions are all answered. Our choice. */
const ANSWERED = 0.9;

function isAnswered(question: MapQuestion, options: MapOptions): boolean {
  if (question.kind === 'first label') return (options.firstLabel ?? null) !== null;
  return question.kind === 'direction' && (options.reverse ?? null) !== null;
}

function mapped(named: NamedFile, frames: readonly MappedFrame[], about: Partial<MappedFile>): MappedFile {
  return {
    path: named.file.path,
    frames,
    order: 0,
    version: named.name.version,
    roll: named.name.roll,
    reason: named.name.reason,
    confidence: 0,
    needsAnswer: false,
    ...about,
  };
}

/** Labels that the names give. A run of them that looks like a film is evidence for each. */
function labelledPart(files: readonly NamedFile[]): Part {
  const frames = new Map<string, NamedFile[]>();
  for (const file of files) {
    const label = file.name.labels[0] ?? '';
    frames.set(label, [...(frames.get(label) ?? []), file]);
  }
  const isRun = looksLikeFilm([...frames.keys()]);
  const mappedFiles = [...frames].flatMap(([label, sharing]) => {
    const kinds = gatherVersions(sharing);
    return sharing.map((named) => {
      const { name } = named;
      const backed = sharing.some((other) => other !== named && other.name.certainty === 'sure');
      const trusted = name.certainty === 'sure' || ((isRun || backed) && !name.smallLetter);
      const confidence = name.certainty === 'sure' ? 0.95 : trusted ? 0.85 : name.smallLetter ? 0.7 : 0.6;
      return mapped(named, wholeFrame(label), {
        version: kinds.get(named.file.path) ?? name.version,
        confidence,
        needsAnswer: !trusted,
        reason:
          isRun && name.certainty === 'ask' && trusted
            ? `${name.reason} The other names run with it.`
            : name.reason,
      });
    });
  });
  return { files: mappedFiles, questions: nameQuestions(mappedFiles, files), notes: [] };
}

function nameQuestions(
  mappedFiles: readonly MappedFile[],
  files: readonly NamedFile[],
): readonly MapQuestion[] {
  const small = new Set(files.filter(({ name }) => name.smallLetter).map(({ file }) => file.path));
  const open = mappedFiles.filter((file) => file.needsAnswer).map((file) => file.path);
  const letters = open.filter((path) => small.has(path));
  const plain = open.filter((path) => !small.has(path));
  const questions: MapQuestion[] = [];
  if (letters.length > 0) {
    const text = 'Are small letters behind a number further scans of it, or half steps of the film?';
    questions.push({ kind: 'letters', text, paths: letters, choices: [] });
  }
  if (plain.length > 0) {
    const text = 'Are the last numbers of these names the labels of the frames?';
    questions.push({ kind: 'name', text, paths: plain, choices: [] });
  }
  return questions;
}

/** Five labels or more, the first of them 3 or lower, and most numbers between the first and the last there. */
function looksLikeFilm(labels: readonly string[]): boolean {
  const numbers = labels.flatMap((label) => {
    const read = parseFrameLabel(label);
    return read.ok ? [read.value.number] : [];
  });
  if (numbers.length < 5) return false;
  const first = Math.min(...numbers);
  const span = Math.max(...numbers) - first + 1;
  return first <= 3 && new Set(numbers).size / span >= 0.6;
}

/** Running numbers or time stamps: the order is known, the labels are proposed. */
function countedPart(
  files: readonly NamedFile[],
  roll: MappedRoll,
  firstLabel: string | null,
  perFile: 1 | 2,
): Part {
  if (files.length === 0) return NOTHING;
  const { slots, wrapped } = slotsOf(files);
  const series = labelSeries(slots, roll, firstLabel, perFile);
  const mappedFiles = slots.flatMap((slot, at) => {
    const labels = series.labels[at] ?? [];
    const kinds = gatherVersions(slot.files);
    return slot.files.map((named) =>
      mapped(named, sliceFrames(labels, named.file), {
        version: kinds.get(named.file.path) ?? named.name.version,
        confidence: series.confidence,
        needsAnswer: true,
        reason: `${named.name.reason} ${series.reason}`,
      }),
    );
  });
  const note: MapNote = {
    kind: 'counter wrap',
    text: 'The counter began again after 9999; the low numbers come last.',
  };
  return {
    files: mappedFiles,
    questions: series.questions,
    notes: wrapped ? [...series.notes, note] : series.notes,
  };
}

function leaveOutPart(files: readonly ScanFile[]): Part {
  const mappedFiles = files.map((file): MappedFile => ({
    path: file.path,
    frames: [],
    order: 0,
    version: 'scan',
    roll: null,
    reason: 'Left out as you said.',
    confidence: 1,
    needsAnswer: false,
  }));
  return { ...NOTHING, files: mappedFiles };
}

function othersPart(files: readonly NamedFile[]): Part {
  if (files.length === 0) return NOTHING;
  const rolls = [...new Set(files.map(({ name }) => name.roll ?? ''))].sort(compareNatural);
  const mappedFiles = files.map((named) =>
    mapped(named, [], {
      reason: `The name gives another roll (${named.name.roll ?? ''}).`,
      needsAnswer: true,
    }),
  );
  const question: MapQuestion = {
    kind: 'roll',
    text: `Some files name another roll (${rolls.join(', ')}). To which roll do they belong?`,
    paths: files.map(({ file }) => file.path),
    choices: [],
  };
  return { files: mappedFiles, questions: [question], notes: [] };
}

function unknownPart(files: readonly NamedFile[]): Part {
  if (files.length === 0) return NOTHING;
  const paths = files.map(({ file }) => file.path);
  const text = 'Which frames do these files show? Their names do not tell.';
  return {
    files: files.map((named) => mapped(named, [], { needsAnswer: true })),
    questions: [{ kind: 'name', text, paths, choices: [] }],
    notes: [],
  };
}
