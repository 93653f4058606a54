import type { Triple } from './cie-lab.ts';
import { fullScale } from './picture.ts';
import type { Picture } from './picture.ts';
import { srgbToLinear } from './srgb.ts';

/** A click stands for this share of the longer side around it, so that grain does not decide. Our choice. */
const REACH = 1 / 200;

/** The mean linear light of a small square about a place of a picture; `x` and `y` in fractions of it, 0..1. */
export function lightAt(picture: Picture, x: number, y: number): Triple {
  const { width, height, channels, samples, encoding } = picture;
  const reach = Math.max(1, Math.round(Math.max(width, height) * REACH));
  const full = fullScale(samples);
  const middleX = Math.min(width - 1, Math.floor(x * width));
  const middleY = Math.min(height - 1, Math.floor(y * height));
  const sums: [number, number, number] = [0, 0, 0];
  let count = 0;
  for (let row = Math.max(0, middleY - reach); row <= Math.min(height - 1, middleY + reach); row += 1) {
    for (
      let column = Math.max(0, middleX - reach);
      column <= Math.min(width - 1, middleX + reach);
      column += 1
    ) {
      for (const channel of [0, 1, 2] as const) {
        const code =
          (samples[(row * width + column) * channels + (channels === 1 ? 0 : channel)] ?? 0) / full;
        sums[channel] += encoding === 'linear' ? code : srgbToLinear(code);
      }
      count += 1;
    }
  }
  return [sums[0] / count, sums[1] / count, sums[2] / count];
}
