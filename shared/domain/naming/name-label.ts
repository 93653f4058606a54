import { normalizeFrameLabel } from '../frame/frame-label.ts';
import { parseFrameLabels } from '../frame/frame-range.ts';
import type { LooseNumber, Remainder } from './name-claims.ts';
import { TAKEN, take } from './name-claims.ts';
import type { NameFinding } from './name-finding.ts';
import { unknown } from './name-finding.ts';
import { splitLabNumber } from './name-roll.ts';
import { FRAME_PATTERN, HOLDER_PATTERN, PAGE_PATTERN, STRIP_PATTERN } from './name-words.ts';

/** A label as a word announces it. */
export interface Labelled {
  readonly text: string;
  readonly sheet: boolean;
}

/** A label that a word announces: `frame-07A`, `h03B`, `第7枚`. */
export function takeLabel(rest: Remainder): { readonly labelled: Labelled | null; readonly rest: Remainder } {
  const holder = take(rest, HOLDER_PATTERN);
  if (holder !== null) {
    const text = `${holder.groups[0] ?? ''}${holder.groups[1] ?? ''}`;
    return { labelled: { text, sheet: true }, rest: holder.rest };
  }
  const frame = take(rest, FRAME_PATTERN) ?? take(rest, /第(\d{1,3})(?:枚|コマ|張|张)/u);
  if (frame === null) return { labelled: null, rest };
  return { labelled: { text: frame.groups[0] ?? '', sheet: false }, rest: frame.rest };
}

export function readLabelled(labelled: Labelled, numbers: readonly LooseNumber[]): NameFinding {
  const label = normalizeFrameLabel(labelled.text);
  if (!label.ok) return unknown('The number behind the word for a frame is no label.');
  const further = numbers.find((number) => number.gap === `${TAKEN}-` || number.gap === `${TAKEN}_`);
  const isFurther = further !== undefined && further.word === '' && further.digits.length === 1;
  const smallLetter = !labelled.sheet && /[a-z]$/.test(labelled.text);
  const what = labelled.sheet ? 'Holder and side of sheet film' : 'The name says frame';
  return {
    labels: [label.value],
    position: Number.parseInt(labelled.text, 10),
    numberIs: 'label',
    smallLetter,
    certainty: isFurther || smallLetter ? 'ask' : 'sure',
    reason: isFurther
      ? `${what} ${label.value}; the ${further.digits} behind it looks like a further scan of it.`
      : `${what} ${label.value}.`,
    ...(isFurther ? { versionNumber: Number(further.digits) } : {}),
  };
}

/** Names of a known build: strips, pages, numbers of a lab, a minus sign. */
export function readSpecial(
  plain: string,
  rest: Remainder,
  numbers: readonly LooseNumber[],
): NameFinding | null {
  if (/^\s*[-−]\s*\d+$/u.test(plain)) return unknown('A minus sign before a number is not a frame label.');
  const strip = take(rest, STRIP_PATTERN);
  if (strip !== null) {
    const range = /(\d{1,3}[A-Z]?)\s?-\s?(\d{1,3}[A-Z]?)(?![\p{L}\p{N}])/u.exec(strip.rest.text);
    const labels = range === null ? null : parseFrameLabels(`${range[1] ?? ''}-${range[2] ?? ''}`);
    if (labels?.ok === true) {
      const found = labels.value.map((label) => label.text);
      const reason = `A strip with frames ${found[0] ?? ''} to ${found.at(-1) ?? ''}.`;
      return { labels: found, position: null, numberIs: 'label', certainty: 'sure', reason, holds: 'strip' };
    }
    if (strip.groups[0] !== undefined) {
      return {
        ...unknown('A whole strip; the name does not say which frames.', Number(strip.groups[0])),
        holds: 'strip',
      };
    }
  }
  if (take(rest, PAGE_PATTERN) !== null) {
    return { ...unknown('A scan of a whole page, not of one frame.'), holds: 'page' };
  }
  const lab = numbers.length > 0 ? splitLabNumber(plain) : null;
  if (lab === null) return null;
  return {
    ...unknown(
      `${lab.what} ${lab.roll} and position ${lab.position}; labs may begin at either end.`,
      lab.position,
    ),
    roll: lab.roll,
  };
}
