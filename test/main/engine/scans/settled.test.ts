import { appendFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hasRested, readWhenSettled } from '../../../../main/engine/scans/settled.ts';
import { drawQuarters } from '../../../support/make-scan.ts';
import { tempFolder } from '../../../support/temp-folder.ts';
import { writeTiff } from '../../../support/write-tiff.ts';

const whole = writeTiff([
  { width: 120, height: 80, channels: 3, bits: 8, photometric: 2, pixels: drawQuarters(120, 80) },
]);
const TODAY = { today: '2026-01-01' };

/** A clock that stands until someone waits; each wait also does what happens to the file meanwhile. */
function patience(mostMs: number, meanwhile: (waits: number) => void) {
  let now = 0;
  let waits = 0;
  return {
    restMs: 500,
    mostMs,
    now: () => now,
    wait: async (ms: number) => {
      now += ms;
      waits += 1;
      meanwhile(waits);
    },
  };
}

describe('a file that is being written', () => {
  it('rests when size and time of change stay for long enough', () => {
    const look = { sizeBytes: 10, modifiedNs: 5n, atMs: 0 };
    expect(hasRested(look, { ...look, atMs: 500 }, 500)).toBe(true);
    expect(hasRested(look, { ...look, atMs: 499 }, 500)).toBe(false);
    expect(hasRested(look, { ...look, sizeBytes: 11, atMs: 500 }, 500)).toBe(false);
    expect(hasRested(look, { ...look, modifiedNs: 6n, atMs: 500 }, 500)).toBe(false);
    expect(hasRested({ ...look, sizeBytes: 0 }, { ...look, sizeBytes: 0, atMs: 500 }, 500)).toBe(false);
  });

  it('is read once it has come to its end', async () => {
    const path = join(tempFolder(), 'growing.tif');
    writeFileSync(path, '');
    const piece = Math.ceil(whole.length / 20);
    let waits = 0;
    const reading = await readWhenSettled(
      path,
      TODAY,
      patience(60_000, (count) => {
        waits = count;
        if (count <= 20) appendFileSync(path, whole.subarray((count - 1) * piece, count * piece));
      }),
    );
    expect(reading).toMatchObject({ state: 'complete', sizeBytes: whole.length });
    expect(waits).toBeGreaterThan(20);
  });

  it('is not read while it only pauses', async () => {
    const path = join(tempFolder(), 'paused.tif');
    writeFileSync(path, whole.subarray(0, whole.length / 2));
    const reading = await readWhenSettled(
      path,
      TODAY,
      patience(60_000, (count) => {
        if (count === 10) appendFileSync(path, whole.subarray(whole.length / 2));
      }),
    );
    expect(reading?.state).toBe('complete');
  });

  it('is given up when it never comes to its end', async () => {
    const path = join(tempFolder(), 'half.tif');
    writeFileSync(path, whole.subarray(0, whole.length / 2));
    expect(
      await readWhenSettled(
        path,
        TODAY,
        patience(5000, () => undefined),
      ),
    ).toBeNull();
  });

  it('is read as damaged when it lies still and is', async () => {
    const path = join(tempFolder(), 'text.jpg');
    writeFileSync(path, 'this is no picture');
    const reading = await readWhenSettled(
      path,
      TODAY,
      patience(5000, () => undefined),
    );
    expect(reading).toMatchObject({ state: 'damaged', reason: 'not_an_image' });
  });

  it('is missing when it went away', async () => {
    const path = join(tempFolder(), 'gone.tif');
    await expect(
      readWhenSettled(
        path,
        TODAY,
        patience(5000, () => undefined),
      ),
    ).rejects.toMatchObject({
      code: 'file_missing',
    });
  });
});
