import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../../main/engine/engine.ts';
import { askOf } from '../../support/make-archive.ts';
import { askCli } from '../../support/run-cli.ts';
import { tempFolder } from '../../support/temp-folder.ts';

/** An archive with a roll that waits, one that is developed, and a bath that was poured away. */
async function makeFolder(): Promise<string> {
  const folder = join(tempFolder(), 'archive');
  const engine = createEngine();
  const ask = askOf(engine);
  await ask('archive.create', { folder });
  const facts = { filmFormat: '135', frameFormat: '24x36' } as const;
  await ask('rolls.add', { number: 'A', ...facts, state: 'to develop' });
  await ask('rolls.add', { number: 'B', ...facts, state: 'developed' });
  const { id } = await ask('baths.add', { name: 'Old', kind: 'developer', process: 'c41' });
  await ask('baths.discard', { id });
  await engine.close();
  return folder;
}

describe('what is mistyped on the command line', () => {
  it('is told clearly, and nothing is lost or changed', async () => {
    const folder = await makeFolder();
    const run = async (...words: string[]) => {
      const { code, json } = await askCli([...words, '--archive', folder]);
      return { code, json };
    };
    const plan = ['develop', 'plan', '--rolls', 'A', '--process', 'c41'];
    expect(await run(...plan, '--time=-3:15@38')).toMatchObject({ code: 2 });
    expect(await run(...plan, '--temp', '378')).toMatchObject({
      code: 1,
      json: {
        refused: { code: 'temperature_doubtful', detail: expect.stringContaining('Is 37.8 °C meant?') },
      },
    });
    // 98.4 °F is 36.9 °C by hand.
    expect(await run(...plan, '--temp', '98.4')).toMatchObject({
      code: 1,
      json: { refused: { detail: expect.stringContaining('Is 36.9 °C meant?') } },
    });
    expect(
      await run('bath', 'mix', 'New', '--kind', 'developer', '--process', 'c41', '--volume', '0'),
    ).toMatchObject({
      code: 1,
      json: { error: { code: 'value_not_valid' } },
    });
    expect(await run('develop', 'plan', '--rolls', 'B', '--process', 'c41')).toMatchObject({
      code: 1,
      json: { refused: { code: 'roll_already_developed', detail: 'Developed already: B.' } },
    });
    expect(await run(...plan, '--bath', 'Old')).toMatchObject({
      code: 1,
      json: { error: { code: 'bath_ended', detail: expect.stringContaining('Old') } },
    });
    const record = ['develop', 'log', '--rolls', 'A', '--process', 'c41', '--date', '2026-04-20'];
    expect(await run(...record, '--temp', '378')).toMatchObject({
      code: 1,
      json: { error: { code: 'temperature_doubtful' } },
    });

    const engine = createEngine();
    const ask = askOf(engine);
    await ask('archive.open', { folder });
    expect(await ask('developments.list', {})).toEqual([]);
    expect((await ask('baths.list', {})).map(({ name }) => name)).toEqual(['Old']);
    expect((await ask('rolls.byNumber', { number: 'A' })).state).toBe('to develop');
    await engine.close();
  }, 120_000);

  it('is asked about in a sum, and taken when it is meant', async () => {
    const water = 'water --hot 55 --cold 12 --volume 2000'.split(' ');
    expect(await askCli([...water, '--target', '390'])).toMatchObject({
      code: 1,
      json: { error: { code: 'temperature_doubtful', advice: 'Is 39.0 °C meant?' } },
    });
    // 70 °F is 21.1 °C by hand.
    const drift = 'drift --start 38.5 --end 36.9 --after 3:15'.split(' ');
    expect(await askCli([...drift, '--room', '70'])).toMatchObject({
      code: 1,
      json: { error: { code: 'temperature_doubtful', advice: 'Is 21.1 °C meant?' } },
    });
    expect(await askCli([...drift, '--room', '70', '--sure'])).toMatchObject({ code: 1 });
    expect(await askCli([...drift, '--room', '70F'])).toMatchObject({ code: 0 });
    expect(await askCli(['mix', '--dilution', '1+9', '--volume=-600'])).toMatchObject({
      code: 1,
      json: { error: { code: 'value_not_valid' } },
    });
  }, 120_000);

  it('follows a tank by its constant as by two readings', async () => {
    const drift = 'drift --start 38.5 --after 3:15 --room 21'.split(' ');
    // scipy 1.17.1 (solve_ivp, brentq): k = 0.029502083601 / min from 38.5 to 36.9 °C in 195 s, mean 37.687217722.
    const { json } = await askCli([...drift, '--constant', '0.029502083601']);
    expect(json).toMatchObject({ meanC: expect.closeTo(37.687217722, 6), endC: expect.closeTo(36.9, 6) });
  }, 60_000);

  it('copies a process with its maker’s table of push, agitation, capacity and added time', async () => {
    const folder = await makeFolder();
    const copy = 'process add --from c41-two-bath --time 3:30@38.9 --points 8:00@30'.split(' ');
    const rules = [
      '--push-table',
      '-1=-0:20,1=0:40',
      '--agitation',
      '30/60/5/2',
      '--extension',
      '1=3:30,5=3:45',
    ];
    const added = await askCli([
      ...copy,
      '--name',
      'My kit',
      '--capacity',
      '10',
      `${rules[0]}=${rules[1]}`,
      ...rules.slice(2),
      '--archive',
      folder,
    ]);
    expect(added).toMatchObject({ code: 0 });
    const { json } = await askCli([
      ...'develop plan --rolls A --push 1 --rolls-done 4 --process'.split(' '),
      'My kit',
      '--archive',
      folder,
    ]);
    // By hand: 3:30 + 0:40 = 250 s; from the fifth roll × 225 / 210 = 267.86, 4:28.
    expect(json).toMatchObject({ seconds: 268 });
    expect(
      await askCli([
        ...'process add --from c41-two-bath --push-table 1=30 --name X --archive'.split(' '),
        folder,
      ]),
    ).toMatchObject({ code: 2 });
  }, 120_000);
});
