import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { hashFrame, turnHash } from '../../../../shared/domain/look-up/frame-hash.ts';
import { lumaFrom } from '../../../../shared/domain/look-up/luma.ts';
import { countOnes } from '../../../../shared/domain/look-up/mixing.ts';
import { drawScene } from '../../../support/scene.ts';

describe('hash of a whole frame', () => {
  it('follows the frame through mirroring, quarter turns and inversion as sharp makes them', async () => {
    const scene = await drawScene(11, 1);
    const raw = { width: scene.width, height: scene.height, channels: 1 } as const;
    const frame = hashFrame(lumaFrom(scene.data, scene.width, scene.height));
    for (const mirrored of [false, true]) {
      for (const turned of [0, 90, 180, 270] as const) {
        const mirroredFirst = await sharp(scene.data, { raw }).flop(mirrored).png().toBuffer();
        const { data, info } = await sharp(mirroredFirst)
          .rotate(turned)
          .greyscale()
          .raw()
          .toBuffer({ resolveWithObject: true });
        for (const negative of [false, true]) {
          const pixels = Uint8Array.from(data, (value) => (negative ? 255 - value : value));
          const copy = hashFrame(lumaFrom(pixels, info.width, info.height));
          const nearest = turnHash(copy)
            .map((hash) => ({
              ...hash,
              distance: countOnes(hash.low ^ frame.low) + countOnes(hash.high ^ frame.high),
            }))
            .sort((a, b) => a.distance - b.distance)[0];
          expect(nearest).toMatchObject({ turned, mirrored, negative });
          expect(nearest?.distance).toBeLessThanOrEqual(3);
        }
      }
    }
  });

  it('is far from that of another scene in all sixteen forms', async () => {
    const [one, other] = await Promise.all([drawScene(11, 1), drawScene(12, 1)]);
    const frame = hashFrame(lumaFrom(one.data, one.width, one.height));
    const forms = turnHash(hashFrame(lumaFrom(other.data, other.width, other.height)));
    // Of 63 even coins 12 or fewer fall heads with a chance below 10⁻⁶.
    for (const form of forms) {
      expect(countOnes(form.low ^ frame.low) + countOnes(form.high ^ frame.high)).toBeGreaterThan(12);
    }
  });
});
