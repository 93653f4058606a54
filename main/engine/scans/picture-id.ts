/** The name of a picture by content: the file's checksum and the page within it. Previews are asked for by it. */
export function pictureId(sha256: string, page: number): string {
  return `${sha256}-${page}`;
}

/** The parts of a picture's name, or null when it is none; never a path. */
export function parsePictureId(text: string): { readonly sha256: string; readonly page: number } | null {
  const match = /^([0-9a-f]{64})-(\d{1,5})$/.exec(text);
  return match?.[1] && match[2] ? { sha256: match[1], page: Number(match[2]) } : null;
}
