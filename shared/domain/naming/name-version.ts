import type { Remainder } from './name-claims.ts';
import { take } from './name-claims.ts';
import { FURTHER_PATTERN, SCAN_NUMBER_PATTERN, VERSION_PATTERN, versionOf } from './name-words.ts';
import type { VersionKind } from './name-words.ts';

/** Which version of its frame a file is, the number of it if there is one, and what is left of the name. */
export interface VersionFound {
  readonly kind: VersionKind;
  readonly number: number | null;
  readonly rest: Remainder;
}

/** When a name has several such words, the one that says most about the picture counts. */
const MOST_TELLING_FIRST: readonly VersionKind[] = [
  'infrared',
  'raw',
  'positive',
  'small',
  'rescan',
  'copy',
  'scan',
];

/**
 * Takes the words for a version out of a name: `_raw`, `_ir`, `copy`, `(1)`, `v2`, and `scan-2` where the frame is
 * already known. A camera's or scanner's raw file (`rawFile`) is one without a word.
 */
export function takeVersion(rest: Remainder, frameKnown: boolean, rawFile: boolean): VersionFound {
  const kinds: VersionKind[] = rawFile ? ['raw'] : [];
  let left = rest;
  let number: number | null = null;
  const further = take(left, FURTHER_PATTERN);
  if (further !== null) {
    const [bracket, version, copy] = further.groups;
    number = Number(bracket ?? version ?? copy);
    kinds.push(version === undefined ? 'copy' : 'rescan');
    left = further.rest;
  }
  const scan = frameKnown ? take(left, SCAN_NUMBER_PATTERN) : null;
  if (scan !== null) {
    number = Number(scan.groups[0]);
    if (number > 1) kinds.push('rescan');
    left = scan.rest;
  }
  for (let word = take(left, VERSION_PATTERN); word !== null; word = take(left, VERSION_PATTERN)) {
    kinds.push(versionOf(word.groups[0] ?? ''));
    left = word.rest;
  }
  const kind = MOST_TELLING_FIRST.find((each) => kinds.includes(each)) ?? 'scan';
  return { kind, number, rest: left };
}
