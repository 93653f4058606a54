import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { z } from 'zod';
import { createEngine } from '../../../main/engine/engine.ts';
import { askOf } from '../../support/make-archive.ts';
import { askCli } from '../../support/run-cli.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const answered = z.looseObject({
  seconds: z.number().nullable(),
  lines: z.array(z.looseObject({ text: z.string(), seconds: z.number().nullable(), source: z.string() })),
  steps: z.array(z.looseObject({ name: z.string(), seconds: z.number() })),
  refused: z.looseObject({ code: z.string(), groups: z.array(z.array(z.string())) }).nullable(),
});

/** Commands on an archive with the colour rolls A and B, the black-and-white roll C, and the bath May. */
async function makeCommands() {
  const archive = join(tempFolder(), 'archive');
  const engine = createEngine();
  const ask = askOf(engine);
  await ask('archive.create', { folder: archive });
  const fenn = await ask('stocks.add', { name: 'Fenn', iso: 200, process: 'c41' });
  const grey = await ask('stocks.add', { name: 'Grey', iso: 400, process: 'bw' });
  for (const number of ['A', 'B'])
    await ask('rolls.add', { number, stockId: fenn.id, filmFormat: '135', frameFormat: '24x36' });
  await ask('rolls.add', { number: 'C', stockId: grey.id, filmFormat: '120', frameFormat: '6x6' });
  // Eight rolls of 516.128 cm², the eight done before the ledger was begun.
  const done = 8 * 516.128;
  const extension = { kind: 'percent', percentPerRoll: 2, source: { kind: 'yours', text: 'test' } } as const;
  const facts = {
    kind: 'developer',
    process: 'c41',
    capacityCm2: done,
    usedBeforeCm2: done,
    extension,
  } as const;
  await ask('baths.add', { name: 'May', mixed: '2026-04-01', ...facts });
  await engine.close();
  const run = (words: string) => askCli([...words.split(' '), '--archive', archive]);
  return {
    run,
    archive,
    /** The archive again, after the commands. */
    async open() {
      const later = createEngine();
      onTestFinished(() => later.close());
      await later.call('archive.open', { folder: archive });
      return askOf(later);
    },
  };
}

describe('develop on the command line', () => {
  it('plans, shows the sum, runs, logs and charges the bath', async () => {
    const { run, open } = await makeCommands();
    const planned = await run('develop plan --rolls A,B --process c41 --temp 37.8 --bath May');
    const plan = answered.parse(planned.json);
    // Field log R46: after 8 rolls, 195 × 1.16 = 226.2 s, 3:46.
    expect(plan.seconds).toBe(226);
    expect(plan.lines.map((line) => line.seconds)).toContain(195);
    expect(plan.refused).toBeNull();

    const { json } = await run('develop start --rolls A,B --process c41 --bath May');
    const { id } = z.looseObject({ id: z.number() }).parse(json);
    await run(`develop log ${id} --pour 1 --temp 37.6 --at 2026-05-02T10:00:00Z`);
    const done = await run(`develop log ${id} --finish --at 2026-05-02T10:03:46Z`);
    expect(done).toMatchObject({ code: 0, json: { run: { phase: 'finished' } } });

    const ask = await open();
    const development = await ask('developments.get', { id });
    expect(development).toMatchObject({ state: 'done', developerSeconds: 226, developerTempC: 37.6 });
    const [bath] = await ask('baths.list', {});
    // 8 before and two 135-36 are 10 units; what is left of 8 is never below nought.
    expect(bath?.rollsDone).toBeCloseTo(10, 9);
    expect(bath?.rollsLeft).toBe(0);
    expect((await ask('rolls.byNumber', { number: 'A' })).state).toBe('developed');
  }, 180_000);

  it('refuses rolls of two processes with exit code 1, a reason and groups', async () => {
    const { run } = await makeCommands();
    const { code, json } = await run('develop plan --rolls A,C,B --process c41');
    expect(code).toBe(1);
    expect(json).toMatchObject({ error: { code: 'process_differs' } });
    expect(answered.parse(json).refused).toMatchObject({
      code: 'process_differs',
      groups: [['A', 'B'], ['C']],
    });
  });

  it('plans a colour development at 36.9 °C by the points of the two baths', async () => {
    const { run } = await makeCommands();
    const { json } = await run('develop plan --rolls A --process c41 --temp 36.9');
    // 480 × (195 / 480) ^ (6.9 / 7.8) = 216.36 s by hand; the rows are facts 4.3.
    expect(answered.parse(json).seconds).toBe(216);
    expect(json).toMatchObject({ process: { key: 'c41-two-bath' } });
  });

  it('asks about 378, and takes °F when it is said', async () => {
    const { run } = await makeCommands();
    const asked = await run('develop plan --rolls A --process c41 --temp 378');
    expect(asked).toMatchObject({ code: 1, json: { error: { code: 'temperature_doubtful' } } });
    const inFahrenheit = await run('develop plan --rolls A --process c41 --temp 100F');
    // 100 °F is 37.78 °C, within 0.15 of 37.8: Kodak Z-131, Table 4-1 gives 3:15.
    expect(answered.parse(inFahrenheit.json).seconds).toBe(195);
  });

  it('does not take a discarded bath', async () => {
    const { run } = await makeCommands();
    await run('bath add Old --kind developer --process c41 --volume 1000');
    await run('bath discard Old --reason brown');
    const planned = await run('develop plan --rolls A --process c41 --bath Old');
    expect(planned).toMatchObject({ code: 1, json: { error: { code: 'bath_ended' } } });
  });

  it('names what happened to rolls developed in a bath that was spoilt', async () => {
    const { run } = await makeCommands();
    await run('develop log --rolls A --process c41 --date 2026-04-02 --bath May --temp 37.8 --time 3:15');
    await run('develop log --rolls B --process c41 --date 2026-04-20 --bath May');
    const spoilt = await run('bath spoil May --at 2026-04-10');
    const { developments } = z.looseObject({ developments: z.array(z.number()) }).parse(spoilt.json);
    expect(developments).toHaveLength(1);
  });

  it('copies a process with times of its own', async () => {
    const { run, archive } = await makeCommands();
    const copy = 'process add --from c41-two-bath --time 3:30@38.9 --points 8:00@30'.split(' ');
    const added = await askCli([...copy, '--name', 'My kit', '--archive', archive]);
    expect(added.code).toBe(0);
    const plan = 'develop plan --rolls A --temp 38.9'.split(' ');
    const planned = await askCli([...plan, '--process', 'My kit', '--archive', archive]);
    expect(answered.parse(planned.json).seconds).toBe(210);
    expect((await run('process list')).json).toMatchObject({
      processes: [{ name: 'My kit', kind: 'c41' }, {}, {}, {}, {}, {}],
    });
  });

  it('says that a file holds no process', async () => {
    const { run } = await makeCommands();
    const file = join(tempFolder(), 'process.json');
    writeFileSync(file, '{"name": "half"');
    expect(await run(`process add --file ${file}`)).toMatchObject({
      code: 1,
      json: { error: { code: 'file_unreadable' } },
    });
  });
});

describe('sums without an archive', () => {
  it('dilutes by parts', async () => {
    // Facts 5: 600 ml of 1+9 → 60 ml.
    const { json } = await askCli(['mix', '--dilution', '1+9', '--volume', '600']);
    expect(json).toMatchObject({ concentrateMl: 60, waterMl: 540 });
  });

  it('mixes hot and cold water by heat', async () => {
    const { json } = await askCli('water --hot 55 --cold 12 --target 39 --volume 2000'.split(' '));
    const { hotMl, coldMl } = z.looseObject({ hotMl: z.number(), coldMl: z.number() }).parse(json);
    // Heat balance by hand: 2000 × 27 / 43 = 1255.81 ml of hot water.
    expect(hotMl).toBeCloseTo(1255.814, 2);
    expect((hotMl * 55 + coldMl * 12) / 2000).toBeCloseTo(39, 9);
  });

  it('follows a cooling tank', async () => {
    const { json } = await askCli('drift --start 38.2 --end 36.9 --minutes 3.5 --room 21'.split(' '));
    const drift = z
      .looseObject({ meanC: z.number(), endC: z.number(), startForMeanC: z.number() })
      .parse(json);
    // Newton: k·t = ln(17.2 / 15.9) = 0.078588; mean = 21 + (17.2 − 15.9) / 0.078588 = 37.542 °C by hand.
    expect(drift.meanC).toBeCloseTo(37.542, 2);
    expect(drift.endC).toBeCloseTo(36.9, 9);
    // 21 + 16.8 × 0.078588 / (1 − 15.9 / 17.2) = 38.468 °C.
    expect(drift.startForMeanC).toBeCloseTo(38.468, 2);
  });

  it('refuses a volume of nothing and water that cannot get so warm', async () => {
    const nothing = await askCli('mix --dilution 1+9 --volume 0'.split(' '));
    expect(nothing).toMatchObject({ code: 1, json: { error: { code: 'value_not_valid' } } });
    const cold = await askCli('water --hot 30 --cold 12 --target 39 --volume 2000'.split(' '));
    expect(cold).toMatchObject({ code: 1, json: { error: { code: 'value_not_valid' } } });
  });
});
