import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Fault } from '../../../../main/engine/sample/sample-scans.ts';
import { bringInRoll, drawPositive } from '../../../support/cast-rolls.ts';
import { makeArchive } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const FRAMES = 6;

/** Less green by a sixth is more red and blue beside it: magenta, which CIE 015:2018, 8.2.1 has at a* above 0. */
const MAGENTA: Fault = [1, 0.84, 1];

/** Rolls of one stock on the same sights, each with its own grain; the last has `fault`. */
async function makeStock(rolls: number, fault: Fault | null) {
  const made = await makeArchive();
  const folder = join(tempFolder(), 'scans');
  const stock = await made.ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });
  const rollIds: number[] = [];
  for (let roll = 0; roll < rolls; roll += 1) {
    const scans = await Promise.all(
      Array.from({ length: FRAMES }, async (_frame, at) => ({
        ending: 'jpg' as const,
        bytes: await drawPositive(at * 3 + roll, roll * 100 + at, roll === rolls - 1 ? fault : null),
      })),
    );
    rollIds.push(
      await bringInRoll(made.engine, folder, { number: `2026-00${roll + 1}`, stockId: stock.id }, scans),
    );
  }
  return { ...made, stockId: stock.id, rollIds };
}

describe('a roll against its stock', () => {
  it('names the faulty roll of five, in its direction, and none of the others', async () => {
    const { ask, stockId, rollIds } = await makeStock(5, MAGENTA);
    const { rolls } = await ask('colour.ofStock', { stockId });
    expect(rolls.filter(({ cast }) => cast.against?.stands === true).map(({ roll }) => roll)).toEqual([
      '2026-005',
    ]);
    const faulty = await ask('colour.ofRoll', { rollId: rollIds[4] ?? 0 });
    expect(faulty.kind).toMatchObject({ polarity: 'positive', colour: 'colour' });
    expect(faulty.roll.against).toMatchObject({ rolls: 4, direction: 'magenta', stands: true });
    expect(faulty.roll.against?.deltaA).toBeGreaterThan(0);
    expect(faulty.roll.say).toMatch(/shift to magenta/);
    expect(faulty.frames.map(({ label }) => label)).toEqual(
      Array.from({ length: FRAMES }, (_frame, at) => String(at + 1)),
    );
    // The roll agrees with itself: an error of the whole roll makes no frame an outlier of it.
    expect(faulty.frames.filter(({ outlier }) => outlier).length).toBeLessThanOrEqual(2);
  }, 150_000);

  it('says that two rolls are not enough, with a fault or without', async () => {
    const { ask, rollIds, stockId } = await makeStock(2, MAGENTA);
    const { roll } = await ask('colour.ofRoll', { rollId: rollIds[1] ?? 0 });
    expect(roll.against).toBeNull();
    expect(roll.say).toMatch(/Not enough rolls/);
    const { trends, rolls } = await ask('colour.causes', { stockId });
    for (const { deltaA, deltaE00 } of rolls)
      expect({ deltaA, deltaE00 }).toEqual({ deltaA: null, deltaE00: null });
    for (const trend of trends) {
      expect(trend).toMatchObject({ slope: null, correlation: null, chance: null });
      expect(trend.say).toMatch(/not enough/);
    }
  }, 150_000);
});
