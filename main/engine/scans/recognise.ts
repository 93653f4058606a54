import type { ByteSource } from './byte-source.ts';
import { readTiff } from './tiff-directory.ts';
import { TIFF_TAG } from './tiff-tags.ts';

/** Kinds of image file that are read. */
export type ImageKind = 'jpeg' | 'png' | 'tiff' | 'dng' | 'webp';

const STARTS: readonly { readonly kind: ImageKind; readonly at: number; readonly bytes: Buffer }[] = [
  // Source: ISO/IEC 10918-1 B.1.1.3 (SOI, then a marker); ISO/IEC 15948 5.2; TIFF 6.0 p. 13; BigTIFF; RFC 9649 2.3.
  { kind: 'jpeg', at: 0, bytes: Buffer.from([0xff, 0xd8, 0xff]) },
  { kind: 'png', at: 0, bytes: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) },
  { kind: 'tiff', at: 0, bytes: Buffer.from('II*\0', 'latin1') },
  { kind: 'tiff', at: 0, bytes: Buffer.from('MM\0*', 'latin1') },
  { kind: 'tiff', at: 0, bytes: Buffer.from('II+\0', 'latin1') },
  { kind: 'tiff', at: 0, bytes: Buffer.from('MM\0+', 'latin1') },
  { kind: 'webp', at: 8, bytes: Buffer.from('WEBP', 'latin1') },
];

/** Whether the first 16 bytes are those of an image that is read here. */
export function startsLikePicture(head: Buffer): boolean {
  return STARTS.some(({ at, bytes }) => head.subarray(at, at + bytes.length).equals(bytes));
}

/** The kind of an image by its content, whatever its name says; null when it is none of those read here. */
export async function recogniseImage(source: ByteSource): Promise<ImageKind | null> {
  const head = await source.read(0, 16);
  const kind = STARTS.find(({ at, bytes }) => head.subarray(at, at + bytes.length).equals(bytes))?.kind;
  if (kind === 'webp') return head.toString('latin1', 0, 4) === 'RIFF' ? 'webp' : null;
  if (kind !== 'tiff') return kind ?? null;
  const tiff = await readTiff(source);
  const first = tiff.ok ? tiff.value.pages[0] : undefined;
  return first?.directory.entries.has(TIFF_TAG.dngVersion) === true ? 'dng' : 'tiff';
}
