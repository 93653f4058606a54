import { renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder } from '../files/make-folder.ts';
import { pictureId } from './picture-id.ts';

/** Where the preview of a picture lies: by content, so that a moved or copied scan keeps its preview. */
export function previewPath(
  archiveFolder: string,
  sha256: string,
  page: number,
  size: 'small' | 'large',
  shown: string | null = null,
): string {
  return join(archiveFolder, 'previews', sha256.slice(0, 2), `${pictureId(sha256, page, shown)}-${size}.jpg`);
}

/**
 * Keeps a preview: whole under its name, or not there at all. Not flushed to the disk: a preview lost with the power is
 * made again from its scan.
 */
export function keepPreview(path: string, jpeg: Uint8Array): void {
  makeFolder(dirname(path));
  // Always the same name: what a kill left half written is written over when the preview is made again.
  const beside = `${path}.part`;
  writeFileSync(beside, jpeg);
  renameSync(beside, path);
}
