import sharp from 'sharp';
import type { Picture } from '../../shared/domain/colour/picture.ts';

/** The upright sRGB pixels of an image file, no longer than `longEdge`, without transparency. */
export async function pixelsOf(file: string, longEdge = 512): Promise<Picture> {
  const { data, info } = await sharp(file)
    .rotate()
    .resize(longEdge, longEdge, { fit: 'inside', withoutEnlargement: true })
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return {
    width: info.width,
    height: info.height,
    channels: info.channels === 1 ? 1 : 3,
    samples: new Uint8Array(data),
    encoding: 'srgb',
  };
}

/** A part of a picture. */
export function cropOf(picture: Picture, left: number, top: number, width: number, height: number): Picture {
  const samples = new Uint8Array(width * height * picture.channels);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width * picture.channels; x += 1) {
      const from = ((top + y) * picture.width + left) * picture.channels + x;
      samples[y * width * picture.channels + x] = picture.samples[from] ?? 0;
    }
  }
  return { width, height, channels: picture.channels, samples, encoding: picture.encoding };
}
