import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readIccProfile } from '../../../../main/engine/scans/icc-profile.ts';
import { sharedData } from '../../../support/shared-data.ts';

/** A profile as the image library carries it. */
async function libraryProfile(name: 'srgb' | 'p3'): Promise<Buffer> {
  const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: 'black' } })
    .withIccProfile(name)
    .jpeg()
    .toBuffer();
  return (await sharp(jpeg).metadata()).icc ?? Buffer.alloc(0);
}

describe('colour profiles', () => {
  it('are known for sRGB by what they do', async () => {
    expect(readIccProfile(await libraryProfile('srgb'))).toMatchObject({ space: 'RGB ', isSrgb: true });
    expect(readIccProfile(await libraryProfile('p3'))).toMatchObject({ space: 'RGB ', isSrgb: false });
  });

  it('are damaged when they are cut off', async () => {
    const whole = await libraryProfile('p3');
    expect(readIccProfile(whole.subarray(0, 200))).toBeNull();
    expect(readIccProfile(Buffer.alloc(500))).toBeNull();
  });
});

const folder = sharedData('scans/colour/icc');

describe.runIf(folder !== null)('the profiles of the test scans', () => {
  // Source: MANIFEST.md and exiftool (ProfileDescription, ColorSpaceData) on the scans that carry them.
  it.each([
    ['srgb.icc', 'sRGB-like (test)', 'RGB ', true],
    ['a98.icc', 'Wide RGB gamma 2.2 (test, A98 primaries)', 'RGB ', false],
    ['prophoto.icc', 'Very wide RGB gamma 1.8 (test, ROMM primaries)', 'RGB ', false],
    ['lin-srgb.icc', 'Linear RGB (test, sRGB primaries)', 'RGB ', false],
    ['lin-prophoto.icc', 'Linear wide RGB scanner (test, ROMM primaries)', 'RGB ', false],
  ])('%s is read', (file, name, space, isSrgb) => {
    expect(readIccProfile(readFileSync(join(folder ?? '', file)))).toEqual({ name, space, isSrgb });
  });

  it.each(['gray10.icc', 'gray22.icc'])('%s is for grey', (file) => {
    expect(readIccProfile(readFileSync(join(folder ?? '', file)))?.space).toBe('GRAY');
  });
});
