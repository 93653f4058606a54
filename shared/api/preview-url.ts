/** The two sizes previews are kept in. */
export type PreviewSize = 'small' | 'large';

const PREVIEW_PATH = /^\/preview\/(small|large)\/([A-Za-z0-9][A-Za-z0-9._-]{0,199})$/;

/** The address of a picture's preview, from the window's own origin. */
export function previewAddress(pictureId: string, size: PreviewSize): string {
  return `/preview/${size}/${encodeURIComponent(pictureId)}`;
}

/** Which preview a path asks for; null when it asks for none. An id holds no slash, so no path can be made of it. */
export function parsePreviewPath(path: string): { size: PreviewSize; pictureId: string } | null {
  const match = PREVIEW_PATH.exec(path);
  const pictureId = match?.[2];
  if (pictureId === undefined) return null;
  return { size: match?.[1] === 'small' ? 'small' : 'large', pictureId };
}
