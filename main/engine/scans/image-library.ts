import sharp from 'sharp';
import { readJpegHeader } from './jpeg-header.ts';
import { sourceFromBuffer } from './byte-source.ts';

// One thread per picture and several pictures at once is fastest and steadiest; without a cache no handle stays
// open on a scan (it can be moved at once) and memory does not creep up over thousands of files.
sharp.concurrency(1);
sharp.cache(false);

export { sharp };
export type { Sharp, SharpOptions } from 'sharp';

/** The library's own sRGB profile, small, as it writes it into a JPEG. */
const SRGB_PROFILE: Promise<Buffer> = sharp({
  create: { width: 8, height: 8, channels: 3, background: 'black' },
})
  .withIccProfile('srgb')
  .jpeg()
  .toBuffer()
  .then(async (jpeg) => (await readJpegHeader(sourceFromBuffer(jpeg))).icc ?? Buffer.alloc(0));

/**
 * The same JPEG with an sRGB profile in it; one that has a profile is left as it is. Only bytes are put in: asking
 * the library for the profile would convert every pixel from sRGB to sRGB. Source: ICC.1:2010 annex B.4.
 */
export async function declareSrgb(jpeg: Buffer): Promise<Buffer> {
  if (jpeg.subarray(0, 4096).includes('ICC_PROFILE\0')) return jpeg;
  const profile = await SRGB_PROFILE;
  const segment = Buffer.concat([Buffer.from('\xff\xe2\0\0ICC_PROFILE\0\x01\x01', 'latin1'), profile]);
  segment.writeUInt16BE(segment.length - 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), segment, jpeg.subarray(2)]);
}
