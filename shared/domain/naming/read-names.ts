import { foldDigits } from '../text/digits.ts';
import type { NameContext } from './name-numbers.ts';
import type { ScanFile } from './scan-mapping.ts';
import { readScanName } from './scan-name.ts';
import type { ScanName } from './name-finding.ts';
import { EXTENSION_PATTERN } from './name-words.ts';

/** A file with what its name says. */
export interface NamedFile {
  readonly file: ScanFile;
  readonly name: ScanName;
}

/** Files from which a number that never changes is taken for a constant. Our choice. */
const ENOUGH_FILES = 3;

function numbersOf(path: string): readonly string[] {
  const name = path.split(/[\\/]/).at(-1) ?? '';
  return foldDigits(name.replace(EXTENSION_PATTERN, '').normalize('NFKC')).match(/\d+/g) ?? [];
}

/** The number that stands at one place in nearly all rows (our choice: nine of ten), or null. */
function findConstant(rows: readonly (readonly string[])[], at: number): string | null {
  const counts = new Map<string, number>();
  for (const row of rows) {
    const number = row.at(at);
    if (number !== undefined) counts.set(number, (counts.get(number) ?? 0) + 1);
  }
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  return most !== undefined && most[1] >= 0.9 * rows.length ? most[0] : null;
}

/**
 * The numbers with which nearly all names of a folder begin, up to the first that changes; and the one with which they
 * end, if the number before it changes (`01 of 36`, `01_2019`).
 */
function findFixedNumbers(files: readonly ScanFile[]): Pick<NameContext, 'fixed' | 'fixedEnd'> {
  const rows = files.map((file) => numbersOf(file.path)).filter((numbers) => numbers.length > 0);
  if (rows.length < ENOUGH_FILES) return {};
  const several = rows.filter((row) => row.length > 1);
  if (several.length < 0.9 * rows.length) return { fixed: new Set() };
  const fixed = new Set<string>();
  const shortest = Math.min(...several.map((row) => row.length));
  for (let at = 0; at < shortest - 1; at += 1) {
    const constant = findConstant(several, at);
    if (constant === null) break;
    fixed.add(constant);
  }
  const end =
    fixed.size === 0 && several.every((row) => row.length === shortest) ? findConstant(several, -1) : null;
  return end === null ? { fixed } : { fixed, fixedEnd: end };
}

/** Reads all names of a folder, each in the light of the others. */
export function readNames(files: readonly ScanFile[], rollNumber: string | undefined): readonly NamedFile[] {
  const context = { ...findFixedNumbers(files), ...(rollNumber === undefined ? {} : { rollNumber }) };
  const named = files.map((file) => ({ file, name: readScanName(file.path, context) }));
  return settleSmallLetters(named);
}

/**
 * `03a` with `03b` are two scans of frame 3; `12a` with or without `12` stays the half step 12A, to be asked. A small
 * letter behind b is never a half step.
 */
function settleSmallLetters(files: readonly NamedFile[]): readonly NamedFile[] {
  const small = new Set(
    files.filter(({ name }) => name.smallLetter).map(({ name }) => `${name.series} ${name.labels[0] ?? ''}`),
  );
  return files.map(({ file, name }) => {
    const label = name.labels[0];
    if (!name.smallLetter || label === undefined) return { file, name };
    const number = label.slice(0, -1);
    const letter = label.slice(-1);
    const paired = small.has(`${name.series} ${number}A`) && small.has(`${name.series} ${number}B`);
    if (letter === 'A' && !paired) {
      const reason = `Frame ${label}, or the first of several scans of ${number}: the letter is small.`;
      return { file, name: { ...name, reason } };
    }
    return {
      file,
      name: {
        ...name,
        labels: [number],
        version: letter === 'A' ? name.version : 'rescan',
        versionNumber: letter.charCodeAt(0) - 'A'.charCodeAt(0) + 1,
        reason: `The small ${letter.toLowerCase()} behind ${number} looks like one of several scans of it.`,
      },
    };
  });
}
