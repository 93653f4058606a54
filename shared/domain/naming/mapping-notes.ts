import { compareFrameLabels, frameLabel, parseFrameLabel } from '../frame/frame-label.ts';
import { formatFrameRange } from '../frame/frame-range.ts';
import type { NamedFile } from './read-names.ts';
import type { MapNote, MappedFile } from './scan-mapping.ts';
import { labelsOf } from './scan-mapping.ts';

/** Fewer files than this show no direction. Our choice. */
const ENOUGH_FOR_DIRECTION = 4;

/** What is to be seen in a mapping as a whole: gaps, frames with several files, labels that run down. */
export function notesOf(files: readonly MappedFile[], named: readonly NamedFile[]): readonly MapNote[] {
  return [gapsNote(files), versionsNote(files), reversedNote(files, named)].filter((note) => note !== null);
}

/** Whole labels that are missing between the lowest and the highest. */
function missingLabels(files: readonly MappedFile[]): readonly string[] {
  const numbers = labelsOf(files).flatMap((label) => {
    const read = parseFrameLabel(label);
    return read.ok ? [read.value.number] : [];
  });
  const first = Math.min(...numbers);
  const last = Math.max(...numbers);
  const present = new Set(numbers);
  const missing: string[] = [];
  for (let number = first; number <= last; number += 1) {
    if (!present.has(number)) missing.push(frameLabel(number).text);
  }
  return missing;
}

function gapsNote(files: readonly MappedFile[]): MapNote | null {
  const missing = missingLabels(files);
  return missing.length === 0 ? null : { kind: 'gaps', text: `No file for ${formatFrameRange(missing)}.` };
}

function versionsNote(files: readonly MappedFile[]): MapNote | null {
  const counts = new Map<string, number>();
  for (const file of files) {
    for (const frame of file.frames) counts.set(frame.label, (counts.get(frame.label) ?? 0) + 1);
  }
  const several = [...counts].filter(([, count]) => count > 1).map(([label]) => label);
  return several.length === 0
    ? null
    : { kind: 'versions', text: `Several files for ${formatFrameRange(several)}.` };
}

/** Labels from the names that fall while the running numbers or the times of scanning rise. */
function reversedNote(files: readonly MappedFile[], named: readonly NamedFile[]): MapNote | null {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const labelled = named.filter(
    ({ file, name }) => name.numberIs === 'label' && byPath.get(file.path)?.frames.length === 1,
  );
  const byTime = labelled.filter(({ file }) => file.scannedAt !== undefined);
  const byNumber = labelled.filter(({ name }) => name.position !== null);
  const runs = [
    byTime.sort((a, b) => compareText(a.file.scannedAt ?? '', b.file.scannedAt ?? '')),
    byNumber.sort((a, b) => (a.name.position ?? 0) - (b.name.position ?? 0)),
  ];
  const falls = runs.some((run) => {
    const labels = [...new Set(run.map(({ file }) => byPath.get(file.path)?.frames[0]?.label ?? ''))];
    if (labels.length < ENOUGH_FOR_DIRECTION) return false;
    return labels.every((label, at) => at === 0 || compareFrameLabels(labels[at - 1] ?? '', label) > 0);
  });
  return falls
    ? { kind: 'reversed', text: 'Scanned tail first: the labels run down. The frames keep their labels.' }
    : null;
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
