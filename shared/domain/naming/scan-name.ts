import { foldDigits } from '../text/digits.ts';
import { foldText } from '../text/fold.ts';
import type { Remainder } from './name-claims.ts';
import { TAKEN, looseNumbers, takeDate, takeEnd, takeTechnical } from './name-claims.ts';
import type { ScanName } from './name-finding.ts';
import { readLabelled, readSpecial, takeLabel } from './name-label.ts';
import { readNumbers } from './name-numbers.ts';
import type { NameContext } from './name-numbers.ts';
import { findRollWord } from './name-roll.ts';
import { takeVersion } from './name-version.ts';
import { EXTENSION_PATTERN } from './name-words.ts';

/**
 * Reads the name of one scan. `path` may have folders; `/` and `\` part them. Unicode digits of every script count.
 * Nothing is guessed silently: whatever can be meant in two ways has certainty `ask` and says why.
 */
export function readScanName(path: string, context: NameContext = {}): ScanName {
  const pieces = path.split(/[\\/]/);
  const name = pieces.at(-1) ?? '';
  const stem = name.replace(EXTENSION_PATTERN, '');
  const plain = foldDigits(stem.normalize('NFKC'));
  const start: Remainder = { text: plain };
  const rollFound = findRollWord(start, context.rollNumber ?? null);
  const dated = takeDate(rollFound.rest);
  const technical = takeTechnical(dated?.rest ?? rollFound.rest);
  const { labelled, rest } = takeLabel(technical);
  const versioned = takeVersion(
    rest,
    labelled !== null,
    /\.(?:dng|nef|cr[23w]|arw|raf|orf|rw2|pef|fff|3fr|iiq|raw)$/i.test(name),
  );
  const left =
    labelled === null && rollFound.roll === null ? takeEnd(versioned.rest, context.fixedEnd) : versioned.rest;
  const numbers = looseNumbers(left);
  const finding = labelled
    ? readLabelled(labelled, numbers)
    : (readSpecial(plain, left, numbers) ??
      readNumbers(numbers, left, { ...context, roll: rollFound.roll, dated: dated !== null }));
  const doubt =
    rollFound.doubt ?? (/(?![0-9])\p{Nd}/u.test(stem) ? 'Its digits are those of another script.' : null);
  return {
    path,
    roll: rollFound.roll ?? finding.roll ?? null,
    folderRoll: readFolderRoll(pieces.at(-2) ?? ''),
    labels: finding.labels,
    position: finding.position,
    numberIs: finding.numberIs,
    series: seriesOf(
      left,
      finding.versionNumber !== undefined && labelled === null,
      dated?.instant.length === 10 ? dated.instant : '',
    ),
    holds: finding.holds ?? 'frame',
    version: finding.versionNumber !== undefined && versioned.kind === 'scan' ? 'rescan' : versioned.kind,
    versionNumber: finding.versionNumber ?? versioned.number,
    smallLetter: finding.smallLetter ?? false,
    instant: dated?.instant ?? null,
    certainty: doubt === null ? finding.certainty : 'ask',
    reason: doubt === null ? finding.reason : `${finding.reason} ${doubt}`,
  };
}

/** A roll number that a folder's name may give: behind a roll word, or the whole name when there are figures in it. */
function readFolderRoll(folder: string): string | null {
  const plain = foldDigits(folder.normalize('NFKC')).trim();
  const roll = findRollWord({ text: plain }, null).roll;
  if (roll !== null) return roll;
  return /\d/.test(plain) && plain.length <= 40 ? plain : null;
}

/** The name without its running number (and without the number of a further scan behind it), folded. */
function seriesOf(rest: Remainder, hasFurther: boolean, day: string): string {
  const text = rest.text.replaceAll(TAKEN, ' ');
  const frame = hasFurther ? text.replace(/[-_ ]+\d+\D*$/u, '') : text;
  const series = foldText(frame.replace(/\d+(?!.*\d)[A-Za-z]?(?!\p{L})/u, '#'));
  return `${series.replace(/[\s_.-]+/g, ' ').trim()}|${day}`;
}
