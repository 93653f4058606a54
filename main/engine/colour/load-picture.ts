import type { Picture } from '../../../shared/domain/colour/picture.ts';
import { sharp } from '../scans/image-library.ts';

/** Long side at which colour is measured, in px: enough for thousands of places, little enough for a whole roll. */
export const MEASURED_LONG_SIDE = 512;

/** An sRGB picture file as pixels, at most `longSide` px long. */
export async function loadPicture(file: string | Buffer, longSide = MEASURED_LONG_SIDE): Promise<Picture> {
  const { data, info } = await sharp(file)
    .resize(longSide, longSide, { fit: 'inside', withoutEnlargement: true })
    .toColourspace('srgb')
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height, channels } = info;
  return { width, height, channels: channels === 1 ? 1 : 3, samples: data, encoding: 'srgb' };
}
