/**
 * The name of a picture by content: the file's checksum and the page within it. Previews are asked for by it.
 * `shown` names a rendering of it, where a negative is shown as a positive; null for the picture as scanned.
 */
export function pictureId(sha256: string, page: number, shown: string | null = null): string {
  return shown === null ? `${sha256}-${page}` : `${sha256}-${page}-${shown}`;
}

interface PictureParts {
  readonly sha256: string;
  readonly page: number;
  readonly shown: string | null;
}

/** The parts of a picture's name, or null when it is none; never a path. */
export function parsePictureId(text: string): PictureParts | null {
  const match = /^([0-9a-f]{64})-(\d{1,5})(?:-([0-9a-f]{16}))?$/.exec(text);
  return match?.[1] && match[2]
    ? { sha256: match[1], page: Number(match[2]), shown: match[3] ?? null }
    : null;
}
