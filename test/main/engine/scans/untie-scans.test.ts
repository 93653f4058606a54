import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bringInRoll, drawPositive } from '../../../support/cast-rolls.ts';
import { makeArchive } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

async function makeTied() {
  const made = await makeArchive();
  const bytes = await Promise.all([0, 1].map((at) => drawPositive(at, at, null)));
  const rollId = await bringInRoll(
    made.engine,
    join(tempFolder(), 'scans'),
    { number: 'A', stockId: null },
    bytes.map((each) => ({ ending: 'jpg' as const, bytes: each })),
  );
  const shown = async () =>
    (await made.ask('frames.ofRoll', { rollId })).map(({ label, versions }) => [label, versions.length]);
  return { ...made, rollId, shown };
}

describe('a scan that was wrongly tied', () => {
  it('is taken off its frame, which stays, and undo ties it again', async () => {
    const { ask, rollId, shown } = await makeTied();
    const [first] = await ask('frames.ofRoll', { rollId });
    const scanId = first?.versions[0]?.scanId ?? 0;
    const input = { rollId, scanIds: [scanId], frameId: first?.id ?? 0 };
    expect(await ask('scans.untie', input)).toEqual({ untied: 1 });
    expect(await shown()).toEqual([
      ['1', 0],
      ['2', 1],
    ]);
    await expect(ask('scans.untie', input)).rejects.toMatchObject({ code: 'scan_not_found' });
    await ask('archive.undo', {});
    expect(await shown()).toEqual([
      ['1', 1],
      ['2', 1],
    ]);
  });

  it('leaves what is left to stand for the frame', async () => {
    const { ask, rollId } = await makeTied();
    const [first, second] = await ask('frames.ofRoll', { rollId });
    const own = first?.versions[0];
    const other = second?.versions[0]?.scanId ?? 0;
    const region = { x: 0, y: 0, width: 1, height: 1 };
    await ask('scans.accept', {
      rollId,
      files: [
        {
          scanId: other,
          version: 'rescan',
          reason: 'by hand',
          confidence: 1,
          frames: [{ label: '1', page: 0, region }],
        },
      ],
    });
    await ask('scans.untie', { rollId, scanIds: [own?.scanId ?? 0] });
    const left = (await ask('frames.get', { id: first?.id ?? 0 })).versions;
    expect(left.map(({ scanId, best }) => [scanId, best])).toEqual([[other, true]]);
  });
});
