import { compareNatural } from '../numbering/natural-order.ts';
import type { VersionKind } from './name-words.ts';
import type { NamedFile } from './read-names.ts';

/** Below this share of the largest file's pixels a file is its small version. Our choice. */
const SMALL_SHARE = 0.9;

function pixels({ file }: NamedFile): number | null {
  return file.width === undefined || file.height === undefined ? null : file.width * file.height;
}

function isJpeg({ file }: NamedFile): boolean {
  return /\.jpe?g$/i.test(file.path);
}

/**
 * Says what each file of one frame is, where the names leave it open: the largest plain file is the scan, a smaller
 * one (or, without sizes, a JPEG beside another kind) the small version, further ones rescans.
 */
export function gatherVersions(files: readonly NamedFile[]): ReadonlyMap<string, VersionKind> {
  const pictures = files.filter(({ name }) => name.version !== 'infrared');
  const largest = Math.max(...pictures.map((each) => pixels(each) ?? 0));
  const hasOther = pictures.some((each) => !isJpeg(each));
  const kinds = new Map<string, VersionKind>();
  let scanSeen = false;
  const plainFirst = [...files].sort(
    (a, b) => (pixels(b) ?? 0) - (pixels(a) ?? 0) || compareNatural(a.file.path, b.file.path),
  );
  for (const each of plainFirst) {
    const { name, file } = each;
    if (name.version !== 'scan') {
      kinds.set(file.path, name.version);
      continue;
    }
    const size = pixels(each);
    const small = size === null ? hasOther && isJpeg(each) : size < SMALL_SHARE * largest;
    kinds.set(file.path, small ? 'small' : scanSeen ? 'rescan' : 'scan');
    scanSeen ||= !small;
  }
  return kinds;
}
