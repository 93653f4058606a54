import sharp from 'sharp';

/** The colours of the quarters of every test picture: top left, top right, bottom left, bottom right; sRGB. */
export const QUARTERS = [
  [200, 60, 50],
  [60, 170, 80],
  [50, 80, 190],
  [220, 210, 190],
] as const;

/** A picture in four plain quarters: what turns, mirrors or swaps channels can be told from it. 8-bit sRGB. */
export function drawQuarters(width: number, height: number): Uint8Array {
  const pixels = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const quarter = QUARTERS[(y < height / 2 ? 0 : 2) + (x < width / 2 ? 0 : 1)];
      pixels.set(quarter ?? [0, 0, 0], (y * width + x) * 3);
    }
  }
  return pixels;
}

/** The same with each value in 16 bits (v · 257). */
export function deepen(pixels: Uint8Array): Uint16Array {
  return Uint16Array.from(pixels, (value) => value * 257);
}

/** A JPEG of the quarters; `exif` is a whole TIFF block to carry as Exif. */
export async function makeJpegScan(width = 120, height = 80, exif: Buffer | null = null): Promise<Buffer> {
  const jpeg = await sharp(drawQuarters(width, height), { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
    .toBuffer();
  if (exif === null) return jpeg;
  const segment = Buffer.concat([Buffer.from('\xff\xe1\0\0Exif\0\0', 'latin1'), exif]);
  segment.writeUInt16BE(segment.length - 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), segment, jpeg.subarray(2)]);
}

/** The mean colour of each quarter of a JPEG, away from its borders, in the order of `QUARTERS`. */
export async function readQuarters(jpeg: Buffer): Promise<number[][]> {
  const { data, info } = await sharp(jpeg).raw().toBuffer({ resolveWithObject: true });
  return [0, 1, 2, 3].map((quarter) => {
    const left = Math.floor(info.width * (quarter % 2 === 0 ? 0.15 : 0.65));
    const top = Math.floor(info.height * (quarter < 2 ? 0.15 : 0.65));
    const sums = [0, 0, 0];
    const side = Math.max(1, Math.floor(Math.min(info.width, info.height) * 0.2));
    for (let y = top; y < top + side; y++) {
      for (let x = left; x < left + side; x++) {
        for (let channel = 0; channel < 3; channel++) {
          const at = (y * info.width + x) * info.channels + (info.channels < 3 ? 0 : channel);
          sums[channel] = (sums[channel] ?? 0) + (data[at] ?? 0);
        }
      }
    }
    return sums.map((sum) => sum / (side * side));
  });
}

/** Mean of each channel of an image, 0 to 255. */
export async function readMean(image: Buffer): Promise<number[]> {
  const { data, info } = await sharp(image).raw().toBuffer({ resolveWithObject: true });
  const sums = new Array<number>(info.channels).fill(0);
  for (let at = 0; at < data.length; at++) {
    sums[at % info.channels] = (sums[at % info.channels] ?? 0) + (data[at] ?? 0);
  }
  return sums.map((sum) => sum / (data.length / info.channels));
}
