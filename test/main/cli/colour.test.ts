import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { createEngine } from '../../../main/engine/engine.ts';
import { sharp } from '../../../main/engine/scans/image-library.ts';
import { bringInRoll, drawNegative, drawPositive } from '../../support/cast-rolls.ts';
import { askOf } from '../../support/make-archive.ts';
import { askCli } from '../../support/run-cli.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const number = z.number();

/** What `cast --roll` answers; the form is that of the task the command line was written for. */
const castOfRoll = z.object({
  frames: z.array(
    z.strictObject({
      frame: z.string(),
      a: number.nullable(),
      b: number.nullable(),
      confidence: number.min(0).max(1),
      note: z.string(),
    }),
  ),
  roll: z.looseObject({
    a: number.nullable(),
    b: number.nullable(),
    spread: number.nullable(),
    against: z
      .looseObject({
        rolls: number,
        deltaA: number,
        deltaB: number,
        deltaE00: number,
        direction: z.string(),
      })
      .nullable(),
    crossover: z.looseObject({}).nullable(),
    say: z.string().min(1),
  }),
});
const castOfImage = z.strictObject({
  a: number.nullable(),
  b: number.nullable(),
  direction: z.string().nullable(),
  confidence: number.min(0).max(1),
  note: z.string().min(1),
});

/** An archive with one roll of three frames, a light leak noted on the first; and a negative beside it. */
async function makeCommands() {
  const folder = tempFolder();
  const archive = join(folder, 'archive');
  const engine = createEngine();
  const ask = askOf(engine);
  await ask('archive.create', { folder: archive });
  const stock = await ask('stocks.add', { name: 'Fenn', process: 'c41', iso: 200 });
  const [bytes, other, negative] = await Promise.all([
    drawPositive(0, 1, null),
    drawPositive(20, 2, null),
    drawNegative(0, 3),
  ]);
  const rollId = await bringInRoll(engine, join(folder, 'scans'), { number: 'A', stockId: stock.id }, [
    { ending: 'jpg', bytes },
    { ending: 'jpg', bytes: other },
  ]);
  await ask('rolls.add', { number: 'B', stockId: stock.id, filmFormat: '135', frameFormat: '24x36' });
  const cameras = [await ask('cameras.add', { name: 'One' }), await ask('cameras.add', { name: 'Two' })];
  const b = await ask('rolls.byNumber', { number: 'B' });
  await ask('rolls.change', { id: rollId, change: { cameraId: cameras[0]?.id ?? null } });
  await ask('rolls.change', { id: b.id, change: { cameraId: cameras[1]?.id ?? null } });
  const [first] = await ask('frames.ofRoll', { rollId });
  const leak = { kind: 'light leak', edge: null, fromEdgeMm: null, note: null };
  await ask('frames.change', { ids: [first?.id ?? 0], change: { faults: [leak] } });
  await engine.close();
  const scan = join(folder, 'negative.png');
  writeFileSync(scan, negative);
  const run = (words: readonly string[]) => askCli([...words, '--archive', archive]);
  return { folder, run, scan };
}

describe('casts on the command line', () => {
  it('answers in the form that was agreed', async () => {
    const { folder, run, scan } = await makeCommands();

    const roll = castOfRoll.parse((await run(['cast', '--roll', 'A'])).json);
    expect(roll.frames.map(({ frame }) => frame)).toEqual(['1', '2']);
    expect(roll.roll.against).toBeNull();

    const image = castOfImage.parse((await run(['cast', '--image', scan])).json);
    // A negative is not measured, and no leaning of it is called.
    expect(image).toMatchObject({ a: null, b: null, direction: null });
    expect(image.note).toMatch(/negative/);

    const causes = await run(['causes', '--fault', 'leak']);
    const { faults } = z
      .looseObject({ faults: z.array(z.looseObject({ say: z.string() })) })
      .parse(causes.json);
    // One roll of two: Fisher's exact test has both tables of these margins alike, so chance is 1.
    expect(faults).toEqual([
      expect.objectContaining({
        fault: 'light leak',
        factor: 'camera',
        value: 'One',
        faultsThere: 1,
        rollsThere: 1,
        rolls: 2,
        chance: expect.closeTo(1, 9),
        stands: false,
      }),
    ]);

    const out = join(folder, 'positive.png');
    const before = readFileSync(scan);
    const written = await run(['positive', scan, '--out', out]);
    expect(written).toMatchObject({ code: 0, json: { out, polarity: 'negative', colour: 'colour' } });
    expect(await sharp(out).metadata()).toMatchObject({ format: 'png', channels: 3 });
    expect(readFileSync(scan).equals(before)).toBe(true);

    // What is there is not written over unless it is asked for.
    const again = await run(['positive', scan, '--out', out]);
    expect(again.code).toBe(1);
  }, 150_000);

  it('refuses a picture that is none, and writes nothing', async () => {
    const folder = tempFolder();
    const file = join(folder, 'words.jpg');
    writeFileSync(file, 'no picture');
    const archive = join(folder, 'archive');
    const engine = createEngine();
    await askOf(engine)('archive.create', { folder: archive });
    await engine.close();
    const run = (words: readonly string[]) => askCli([...words, '--archive', archive]);
    expect((await run(['cast', '--image', file])).code).toBe(1);
    expect((await run(['positive', file, '--out', join(folder, 'none.png')])).code).toBe(1);
    expect(existsSync(join(folder, 'none.png'))).toBe(false);
  }, 150_000);
});
