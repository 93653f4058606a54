import { compareFrameLabels, findLabelAfter, parseFrameLabel } from '../frame/frame-label.ts';
import { parseFrameLabels } from '../frame/frame-range.ts';
import type { LooseNumber, Remainder } from './name-claims.ts';
import type { NameFinding } from './name-finding.ts';
import { unknown } from './name-finding.ts';
import { isCounterWord } from './name-words.ts';

/** What is known from the other files of the folder and from the roll. */
export interface NameContext {
  /** Numbers with which every name begins: they tell nothing about the frame. */
  readonly fixed?: ReadonlySet<string>;
  /** A number with which every name ends, behind one that changes. */
  readonly fixedEnd?: string;
  /** The number of the roll that the files belong to. */
  readonly rollNumber?: string;
}

/** Numbers that name a film format, a speed or a year when they stand before another number. */
const FORMATS_AND_SPEEDS =
  /^(?:35|110|120|126|127|135|220|45|57|810|645|6[6-9]|612|617|25|50|64|100|125|160|200|250|320|400|500|640|800|1000|1600|3200|6400|1[89]\d\d|20\d\d)$/;

/** Above this a number is a counter rather than a label. Our choice: 72 half frames and a few more. */
const HIGHEST_LABEL = 79;

/** What the numbers are read with: the roll found in the name, and whether it has a date. */
export interface NumberContext extends NameContext {
  readonly roll: string | null;
  readonly dated: boolean;
}

function isFurtherScan(
  last: LooseNumber,
  before: LooseNumber,
  fixed: ReadonlySet<string> | undefined,
): boolean {
  if (last.word !== '' || last.letter !== '' || !/^[-_ ]$/.test(last.gap)) return false;
  if (fixed?.has(before.digits) === true) return false;
  return before.letter === ''
    ? /^[1-9]$/.test(last.digits) && before.digits.length > 1
    : /^0?[1-9]$/.test(last.digits);
}

/** What the numbers say that no word explains. */
export function readNumbers(
  all: readonly LooseNumber[],
  rest: Remainder,
  context: NumberContext,
): NameFinding {
  const last = all.at(-1);
  if (last === undefined) {
    return unknown(
      context.dated ? 'Only a time stamp: it gives the order, not the frame.' : 'No number in the name.',
    );
  }
  const before = all.at(-2);
  if (before !== undefined && isFurtherScan(last, before, context.fixed)) {
    const frame = readNumbers(all.slice(0, -1), rest, context);
    if (frame.labels.length === 1 || frame.numberIs === 'counter') {
      const reason = `${frame.reason} The ${last.digits} behind it looks like a further scan of the same frame.`;
      return { ...frame, certainty: 'ask', reason, versionNumber: Number(last.digits) };
    }
  }
  const read = parseFrameLabel(`${last.digits}${last.letter}`);
  const number = Number(last.digits);
  const word = last.word === '' ? wordBefore(rest, last) : last.word;
  if (!read.ok && last.digits.length < 4)
    return unknown('A counter that begins at zero, or a label: the name does not tell.', number);
  if (!read.ok || last.digits.length > 3 || number > HIGHEST_LABEL) {
    return unknown(`The running number ${number} of a camera or scanner.`, number);
  }
  if (context.dated) return unknown(`A date and the running number ${number}.`, number);
  const label = read.value.text;
  const smallLetter = /[a-z]/.test(last.letter);
  const labelled = { labels: [label], position: number, smallLetter };
  if (before === undefined && context.roll === null) return readOnly(last, word, labelled);
  if (before === undefined || context.roll !== null) {
    const reason = `The number behind the roll is frame ${label}.`;
    return { ...labelled, numberIs: 'label', certainty: smallLetter ? 'ask' : 'sure', reason };
  }
  return readPair(all, last, before, labelled, context);
}

/** The word before the last number, when a blank, a hyphen or an underscore parts them. */
function wordBefore(rest: Remainder, last: LooseNumber): string {
  return (
    new RegExp(`(\\p{L}+)[-_. ]*${last.digits}${last.letter}[^\\p{N}]*$`, 'u').exec(rest.text)?.[1] ?? ''
  );
}

type LabelPart = Pick<NameFinding, 'labels' | 'position' | 'smallLetter'>;

/** A name with one number. */
function readOnly(last: LooseNumber, word: string, labelled: LabelPart): NameFinding {
  const label = labelled.labels[0] ?? '';
  if (word === '') {
    const certainty = labelled.smallLetter === true ? 'ask' : 'sure';
    return { ...labelled, numberIs: 'label', certainty, reason: `The name is the frame label ${label}.` };
  }
  if (!isCounterWord(word)) {
    const reason = `${label} may be the frame, or a running number behind “${word}”.`;
    return { ...labelled, numberIs: 'counter', certainty: 'ask', reason };
  }
  // Scanner programs count with three or four figures or with none to spare; two figures with a zero look like a label.
  const padded = /^0\d$/.test(last.digits);
  const reason = `A running number behind “${word}”; it need not be the frame label.`;
  return {
    ...labelled,
    labels: padded ? labelled.labels : [],
    numberIs: 'counter',
    certainty: 'ask',
    reason,
  };
}

/** A name with two or more numbers and no word for either. */
function readPair(
  all: readonly LooseNumber[],
  last: LooseNumber,
  before: LooseNumber,
  labelled: LabelPart,
  context: NumberContext,
): NameFinding {
  const label = labelled.labels[0] ?? '';
  const ask = { ...labelled, numberIs: 'label', certainty: 'ask' } as const;
  if (context.fixed?.has(before.digits) !== true && all.length === 2 && last.gap === '-') {
    const pair = readNeighbours(before, last);
    if (pair !== null) return { ...pair, numberIs: 'label', certainty: 'ask' };
  }
  const year = all.at(-3);
  if (year !== undefined && /^(?:19|20)\d\d$/.test(year.digits) && before.word === '' && before.gap === '-') {
    return { ...ask, roll: `${year.digits}-${before.digits}`, reason: `Year, roll and frame ${label}.` };
  }
  if (FORMATS_AND_SPEEDS.test(before.digits)) {
    return {
      ...ask,
      reason: `Frame ${label}; ${before.digits} may be a format, a speed, a year or the roll.`,
    };
  }
  if (context.fixed !== undefined && !context.fixed.has(before.digits) && /^0\d{2,}$/.test(before.digits)) {
    const reason = `A running number ${before.digits} and frame ${label}.`;
    return { ...ask, position: Number(before.digits), reason };
  }
  return { ...ask, roll: before.digits, reason: `Looks like roll ${before.digits}, frame ${label}.` };
}

/** `07-08`: two neighbours in one file; `07-12`: up to six frames, a strip. */
function readNeighbours(
  before: LooseNumber,
  last: LooseNumber,
): Pick<NameFinding, 'labels' | 'position' | 'reason'> | null {
  const first = parseFrameLabel(`${before.digits}${before.letter}`);
  const end = parseFrameLabel(`${last.digits}${last.letter}`);
  if (!first.ok || !end.ok || before.word !== '' || before.digits.length !== last.digits.length) return null;
  if (before.digits.length < 2 || before.letter !== last.letter) return null;
  if (compareFrameLabels(first.value.text, end.value.text) >= 0) return null;
  const steps = end.value.number - first.value.number;
  if (steps > LONGEST_STRIP - 1 || findLabelAfter(first.value, steps) === null) return null;
  const labels = parseFrameLabels(`${first.value.text}-${end.value.text}`);
  if (!labels.ok) return null;
  const what = steps === 1 ? 'Two frames in one file' : `${steps + 1} frames in one file`;
  return {
    labels: labels.value.map((label) => label.text),
    position: first.value.number,
    reason: `${what}, or roll ${before.digits}, frame ${last.digits}.`,
  };
}

/** Frames in the longest usual strip of 35 mm film. Common practice, no source. */
const LONGEST_STRIP = 6;
