import { join } from 'node:path';
import sharp from 'sharp';

/** Writes a picture of `width` × `height` pixels whose four quarters are red, green, blue and grey (from top left, by rows). */
export async function makeQuarters(
  folder: string,
  name: string,
  width: number,
  height: number,
): Promise<string> {
  const file = join(folder, name);
  const half = { width: width / 2, height: height / 2 };
  const quarter = (background: string) => ({ create: { ...half, channels: 3 as const, background } });
  const content = await sharp({ create: { width, height, channels: 3, background: '#808080' } })
    .composite([
      { input: quarter('#ff0000'), left: 0, top: 0 },
      { input: quarter('#00ff00'), left: half.width, top: 0 },
      { input: quarter('#0000ff'), left: 0, top: half.height },
    ])
    .png()
    .toBuffer();
  await sharp(content).toFile(file);
  return file;
}
