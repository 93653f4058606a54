import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';

/** The photographs that the sample's frames are cut from; assets/sample/SOURCES.md names source and licence. */
const PICTURES = fileURLToPath(new URL('../../../assets/sample', import.meta.url));

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
 * Draws one scan as a film scanner would give it: a positive JPEG with grain, a little soft, dated as scanned.
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
  const crop = cropOf(picture, format, { width, height });
  const grey = await sharp(file)
    .extract(crop)
    .resize(format.width, format.height)
    .removeAlpha()
    .toColourspace('srgb')
    .png()
    .toBuffer();
  const lit = picture.light
    ? await sharp(grey)
        .composite([{ input: Buffer.from(wash(picture.light, format)), blend: 'soft-light' }])
        .png()
        .toBuffer()
    : grey;
  const grained = sharp(lit).composite([
    { input: grain(format, seed), raw: { ...format, channels: 4 }, blend: 'over' },
  ]);
  const shown = fault ? sharp(await grained.png().toBuffer()).linear([...fault], [0, 0, 0]) : grained;
  return shown
    .jpeg({ quality: 88 })
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

function wash({ sky, ground }: Light, { width, height }: Format): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">
    <linearGradient id="light" x1="0" y1="0" x2="0.15" y2="1"><stop offset="0.05" stop-color="${sky}"/>
    <stop offset="0.55" stop-color="${sky}" stop-opacity="0.75"/><stop offset="0.75" stop-color="${ground}"/></linearGradient>
    <rect width="100%" height="100%" fill="url(#light)"/></svg>`;
}

/** Grain as a veil of light and dark specks, from a small generator of our own so that a seed repeats it. */
function grain({ width, height }: Format, seed: number): Buffer {
  const veil = Buffer.alloc(width * height * 4);
  let state = (seed * 2_654_435_761 + 1) >>> 0;
  for (let at = 0; at < veil.length; at += 4) {
    // xorshift32. Source: G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (14), 2003 (from memory).
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    const tone = state & 1 ? 255 : 0;
    veil.fill(tone, at, at + 3);
    veil[at + 3] = (state >>> 8) % 26;
  }
  return veil;
}
