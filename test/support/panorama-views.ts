import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Picture } from '../../shared/domain/colour/picture.ts';
import { cropOf, pixelsOf } from './pixels.ts';

const folder = fileURLToPath(new URL('../fixtures/panorama-views', import.meta.url));

const WIDTH = 192;
const HEIGHT = 128;

/** One free picture: the scene it belongs to and its pixels. */
export type View = { readonly scene: string; readonly picture: Picture };

/** The 324 views of 18 free panoramas (6 × 3 on each sheet); see SOURCES.md beside them. */
export async function panoramaViews(): Promise<View[]> {
  const views: View[] = [];
  for (const name of readdirSync(folder)
    .filter((file) => file.endsWith('.jpg'))
    .sort()) {
    const sheet = await pixelsOf(`${folder}/${name}`, WIDTH * 6);
    for (let at = 0; at < 18; at += 1) {
      const picture = cropOf(sheet, (at % 6) * WIDTH, Math.floor(at / 6) * HEIGHT, WIDTH, HEIGHT);
      views.push({ scene: name.replace('.jpg', ''), picture });
    }
  }
  return views;
}
