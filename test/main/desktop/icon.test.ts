import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sharp } from '../../../main/engine/scans/image-library.ts';

const at = (path: string) => fileURLToPath(new URL(`../../../${path}`, import.meta.url));

describe('the icon of the packages', () => {
  it('is named for them, and is the drawing of the window in large', async () => {
    expect(readFileSync(at('electron-builder.yml'), 'utf8')).toContain('icon: assets/icon.png');
    const file = sharp(at('assets/icon.png'));
    // electron-builder wants 512 px or more, square: https://www.electron.build/icons
    expect(await file.metadata()).toMatchObject({ format: 'png', width: 1024, height: 1024 });
    const pixels = (image: ReturnType<typeof sharp>) =>
      image.flatten({ background: '#fff' }).raw().toBuffer();
    // 72 pixels an inch make the drawing 64 px wide; 16 times that is 1024.
    const drawn = await pixels(sharp(at('renderer/public/icon.svg'), { density: 16 * 72 }));
    const kept = await pixels(file);
    const apart = kept.reduce((sum, value, index) => sum + Math.abs(value - (drawn[index] ?? 0)), 0);
    // Half a level of 255 on average: edges may be smoothed in another way by another version of the library.
    expect(apart / kept.length).toBeLessThan(0.5);
  });
});
