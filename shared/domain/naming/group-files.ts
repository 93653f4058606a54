import { compareNatural } from '../numbering/natural-order.ts';
import { foldText } from '../text/fold.ts';
import { isPairShaped } from './file-frames.ts';
import { expectedFrames, isHalfFrame, slotsOf } from './label-series.ts';
import type { NamedFile } from './read-names.ts';
import type { MappedRoll } from './scan-mapping.ts';

function rollKey(roll: string): string {
  return foldText(roll).replace(/(?<!\d)0+(?=\d)/g, '');
}

/** Files that name another roll than most do (or than the roll at hand) are set aside. */
export function partRolls(
  files: readonly NamedFile[],
  roll: MappedRoll,
): { readonly own: readonly NamedFile[]; readonly others: readonly NamedFile[] } {
  const counts = new Map<string, number>();
  for (const { name } of files) {
    if (name.roll !== null) counts.set(rollKey(name.roll), (counts.get(rollKey(name.roll)) ?? 0) + 1);
  }
  const number = roll.number === undefined ? null : rollKey(roll.number);
  if (counts.size < 2) return { own: files, others: [] };
  const [most] = [...counts].sort((a, b) => b[1] - a[1] || compareNatural(a[0], b[0]));
  const chosen = number !== null && counts.has(number) ? number : (most?.[0] ?? '');
  const isOwn = ({ name }: NamedFile): boolean => name.roll === null || rollKey(name.roll) === chosen;
  return { own: files.filter(isOwn), others: files.filter((file) => !isOwn(file)) };
}

/** The files by what their names give. */
export interface FileGroups {
  readonly labelled: readonly NamedFile[];
  readonly counted: readonly NamedFile[];
  readonly strips: readonly NamedFile[];
  readonly unknown: readonly NamedFile[];
  /** Each counted file shows two half frames. */
  readonly pairs: boolean;
}

/** Parts the files by what their names give: labels, running numbers or times, several frames, nothing. */
export function groupFiles(files: readonly NamedFile[], roll: MappedRoll): FileGroups {
  const strips = files.filter(({ name }) => name.holds === 'strip' || name.labels.length > 1);
  const singles = files.filter((file) => !strips.includes(file) && file.name.holds === 'frame');
  const pages = files.filter(({ name }) => name.holds === 'page');
  const labelled = singles.filter(({ name }) => name.numberIs === 'label');
  const counted = singles.filter(({ name }) => name.numberIs === 'counter' && name.position !== null);
  const timed = singles.filter(({ name }) => name.numberIs === 'none' && (name.instant?.length ?? 0) > 10);
  const silent = singles.filter((file) => ![labelled, counted, timed].some((group) => group.includes(file)));
  if (showPairs([...labelled, ...counted], roll)) {
    return {
      labelled: [],
      counted: [...labelled, ...counted],
      strips,
      unknown: [...pages, ...timed, ...silent],
      pairs: true,
    };
  }
  // Where some names give labels, a bare counter beside them says nothing; where none do, it gives the order.
  if (labelled.length > 0 && labelled.length >= counted.length) {
    return {
      labelled,
      counted: [],
      strips,
      unknown: [...pages, ...counted, ...timed, ...silent],
      pairs: false,
    };
  }
  if (counted.length > 0) {
    return { labelled, counted, strips, unknown: [...pages, ...timed, ...silent], pairs: false };
  }
  return { labelled, counted: timed, strips, unknown: [...pages, ...silent], pairs: false };
}

/** Half frame, no more files than half the frames (and a few), and most pictures long where sizes are known. */
function showPairs(files: readonly NamedFile[], roll: MappedRoll): boolean {
  if (!isHalfFrame(roll) || files.length === 0) return false;
  if (slotsOf(files).slots.length * 2 > (expectedFrames(roll) ?? USUAL_HALF_FRAMES) + EXTRA_HALF_FRAMES)
    return false;
  const shapes = files.map(({ file }) => isPairShaped(file)).filter((shape) => shape !== null);
  return shapes.filter((shape) => shape).length * 2 >= shapes.length;
}

/** Twice 36, and twice the three frames that a film may give beyond its box. */
const USUAL_HALF_FRAMES = 2 * 36;
const EXTRA_HALF_FRAMES = 2 * 3;
