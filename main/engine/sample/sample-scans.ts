import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sharp } from '../scans/image-library.ts';
import { ASSETS } from '../files/assets.ts';

/** The photographs that the sample's frames are cut from; assets/sample/SOURCES.md names source and licence. */
const PICTURES = fileURLToPath(new URL('sample', ASSETS));

/** A picture of the sample: which photograph, which part of it (fractions), and how it is coloured. */
export interface SamplePicture {
  readonly photograph: string;
  readonly left: number;
  readonly top: number;
  /** Part of the photograph's shorter side that the crop takes. */
  readonly size: number;
  readonly light: Light | null;
}

/** Colours of sky and ground, as sRGB hex; the picture's own greys lie over them. */
export interface Light {
  readonly sky: string;
  readonly ground: string;
}

/** A colour fault of a whole roll: gains of the channels in sRGB values. */
export type Fault = readonly [red: number, green: number, blue: number];

interface Format {
  readonly width: number;
  readonly height: number;
}

/**
 * Draws one scan as a film scanner would give it: a positive JPEG with grain and the light of the hour.
 * `seed` fixes the grain.
 */
export async function drawSampleScan(
  picture: SamplePicture,
  format: Format,
  seed: number,
  fault: Fault | null = null,
): Promise<Buffer> {
  const file = join(PICTURES, `${picture.photograph}.jpg`);
  const { width = 0, height = 0 } = await sharp(file).metadata();
  const grey = await sharp(file)
    .extract(cropOf(picture, format, { width, height }))
    .resize(format.width, format.height)
    .extractChannel(0)
    .raw()
    .toBuffer();
  const pixels = colour(grey, format, picture.light, fault ?? [1, 1, 1], seed);
  return sharp(pixels, { raw: { ...format, channels: 3 } })
    .jpeg({ quality: 86 })
    .withExif({ IFD0: { Software: 'Sample scanner' } })
    .toBuffer();
}

function cropOf(picture: SamplePicture, format: Format, of: Format) {
  const aspect = format.width / format.height;
  const height = Math.floor(Math.min(of.height * picture.size, (of.width / aspect) * picture.size));
  const width = Math.floor(height * aspect);
  return {
    width,
    height,
    left: Math.round(picture.left * (of.width - width)),
    top: Math.round(picture.top * (of.height - height)),
  };
}

/** Greys as colour: the light of the hour lies softly over them, then grain, then the fault of the film. */
function colour(
  grey: Buffer,
  { width, height }: Format,
  light: Light | null,
  fault: Fault,
  seed: number,
): Buffer {
  const pixels = Buffer.alloc(width * height * 3);
  const sky = light ? rgbOf(light.sky) : GREY;
  const ground = light ? rgbOf(light.ground) : GREY;
  let state = (seed * 2_654_435_761 + 1) >>> 0;
  for (let y = 0; y < height; y += 1) {
    const down = Math.min(1, Math.max(0, (y / height - 0.45) / 0.3));
    const tint = sky.map((part, at) => part + ((ground[at] ?? part) - part) * down);
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x;
      // xorshift32. Source: G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (14), 2003 (from memory).
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      const grain = ((state >>> 8) % 25) - 12;
      const tone = (grey[at] ?? 0) / 255;
      for (let channel = 0; channel < 3; channel += 1) {
        const over = tint[channel] ?? 0.5;
        // Soft light. Source: W3C Compositing and Blending Level 1, 10.1.12, the simple branch of it for over ≤ 0.5
        // and the square root for the rest (from memory).
        const soft =
          over <= 0.5
            ? tone - (1 - 2 * over) * tone * (1 - tone)
            : tone + (2 * over - 1) * (Math.sqrt(tone) - tone);
        const value = (soft * 255 + grain) * (fault[channel] ?? 1);
        pixels[at * 3 + channel] = value < 0 ? 0 : value > 255 ? 255 : value;
      }
    }
  }
  return pixels;
}

const GREY: readonly number[] = [0.5, 0.5, 0.5];

/** `#rrggbb` as three numbers from 0 to 1. */
function rgbOf(hex: string): number[] {
  return [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
}
