import { describe, expect, it } from 'vitest';
import { countDetailedBlocks, hasDetail } from '../../../../shared/domain/look-up/detail.ts';
import { lumaFrom } from '../../../../shared/domain/look-up/luma.ts';
import { drawScene } from '../../../support/scene.ts';
import { seededRandom } from '../../../support/seeded-random.ts';

const random = seededRandom(9);
const grain = () => (random() + random() + random() - 1.5) * 12;
const draw = (tone: (x: number, y: number) => number) =>
  lumaFrom(
    Uint8Array.from({ length: 512 * 341 }, (_, i) =>
      Math.min(255, Math.max(0, tone(i % 512, Math.floor(i / 512)) + grain())),
    ),
    512,
    341,
  );

describe('detail of a picture', () => {
  it('is not found in bare paper with grain', () => {
    expect(hasDetail(draw(() => 235))).toBe(false);
  });

  it('is not found in black sky with one small lamp', () => {
    expect(hasDetail(draw((x, y) => (Math.hypot(x - 100, y - 100) < 8 ? 250 : 4)))).toBe(false);
  });

  it('is not found in an evenly darkening sky', () => {
    expect(hasDetail(draw((x, y) => 60 + y * 0.3 + x * 0.1))).toBe(false);
  });

  it('is found all over a street', async () => {
    const street = await drawScene(3, 1);
    // 256 × 171 px hold 16 × 10 whole blocks.
    expect(countDetailedBlocks(lumaFrom(street.data, street.width, street.height))).toBeGreaterThan(80);
  });
});
