import { foldDigits } from '../text/digits.ts';
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

/** The numbers with which all names of a folder begin, one after the other until the first that changes. */
function findFixedNumbers(files: readonly ScanFile[]): ReadonlySet<string> | undefined {
  if (files.length < ENOUGH_FILES) return undefined;
  const rows = files.map((file) => numbersOf(file.path)).filter((numbers) => numbers.length > 1);
  const first = rows[0] ?? [];
  // Every name needs a number behind the fixed ones, so a name with one number ends the search at once.
  const numbered = files.filter((file) => numbersOf(file.path).length > 0).length;
  if (rows.length < ENOUGH_FILES || rows.length < numbered) return new Set();
  const changes = first.findIndex((number, at) => rows.some((row) => row[at] !== number));
  const shortest = Math.min(...rows.map((row) => row.length));
  return new Set(first.slice(0, Math.min(changes < 0 ? first.length : changes, shortest - 1)));
}

/** Reads all names of a folder, each in the light of the others. */
export function readNames(files: readonly ScanFile[], rollNumber: string | undefined): readonly NamedFile[] {
  const fixed = findFixedNumbers(files);
  const context = {
    ...(fixed === undefined ? {} : { fixed }),
    ...(rollNumber === undefined ? {} : { rollNumber }),
  };
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
