import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isAppError } from '../../../../shared/api/errors.ts';
import { makeArchive, type Ask } from '../../../support/make-archive.ts';

/** 80 sq in, 80 × 2.54² cm². */
const ROLL_CM2 = 516.128;

async function addRoll(
  ask: Ask,
  number: string,
  filmFormat: string,
  frameFormat: string,
  exposures?: number,
) {
  const { id } = await ask('rolls.add', {
    number,
    filmFormat,
    frameFormat,
    ...(exposures === undefined ? {} : { exposures }),
  });
  return id;
}

describe('the ledger of a bath', () => {
  it('counts one 135, two 120 and twelve 4×5 as six units of twenty', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('baths.add', { name: 'Fixer', kind: 'fixer', capacityCm2: 20 * ROLL_CM2 });
    const rollIds = [
      await addRoll(ask, 'A', '135', '24x36', 36),
      await addRoll(ask, 'B', '120', '6x6'),
      await addRoll(ask, 'C', '120', '6x7'),
      await addRoll(ask, 'D', '4x5in', '4x5in', 12),
    ];
    await ask('baths.use', { id, rollIds });
    const { bath } = await ask('baths.get', { id });
    // Field log R47: 1 + 2 + 12 / 4 = 6 units of 20.
    expect(bath.rollsDone).toBeCloseTo(6, 9);
    expect(bath.rollsLeft).toBeCloseTo(14, 9);
  });

  it('counts the film of a half-frame roll once, whether 36 or 72 was noted', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('baths.add', { name: 'Fixer', kind: 'fixer' });
    await ask('baths.use', { id, rollIds: [await addRoll(ask, 'A', '135', '18x24', 72)] });
    await ask('baths.use', { id, rollIds: [await addRoll(ask, 'B', '135', '18x24', 36)] });
    expect((await ask('baths.get', { id })).bath.rollsDone).toBeCloseTo(2, 9);
  });

  it('charges a fixer, not a developer, by the factor of the film', async () => {
    const { ask } = await makeArchive();
    const stock = await ask('stocks.add', { name: 'Flat grain', iso: 100, process: 'bw', fixerFactor: 2 });
    const roll = await ask('rolls.add', {
      number: 'A',
      stockId: stock.id,
      filmFormat: '120',
      frameFormat: '6x6',
    });
    const used: number[] = [];
    for (const kind of ['developer', 'fixer'] as const) {
      const { id } = await ask('baths.add', { name: kind, kind });
      await ask('baths.use', { id, rollIds: [roll.id] });
      used.push((await ask('baths.get', { id })).bath.rollsDone);
    }
    // One 120 is one unit; a factor of 2 makes it two.
    expect(used[0]).toBeCloseTo(1, 9);
    expect(used[1]).toBeCloseTo(2, 9);
  });

  it('leaves capacity minus uses after any order of uses, corrections and discards', async () => {
    const { ask } = await makeArchive();
    let count = 0;
    const change = fc.oneof(
      fc.record({ what: fc.constant('use' as const), area: fc.integer({ min: 1, max: 2000 }) }),
      fc.record({ what: fc.constant('correct' as const), area: fc.integer({ min: 0, max: 2000 }) }),
      fc.record({ what: fc.constant('remove' as const), area: fc.constant(0) }),
      fc.record({ what: fc.constant('discard' as const), area: fc.constant(0) }),
      fc.record({ what: fc.constant('undo' as const), area: fc.constant(0) }),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1000, max: 9000 }),
        fc.array(change, { maxLength: 14 }),
        async (capacityCm2, changes) => {
          count += 1;
          const { id } = await ask('baths.add', { name: `Bath ${count}`, kind: 'fixer', capacityCm2 });
          // The model: what is in the ledger, with a copy of it for every action that can be taken back.
          let model = { uses: new Map<number, number>(), discarded: false };
          const before: (typeof model)[] = [];
          const late: unknown[] = [];
          const remember = () => before.push({ ...model, uses: new Map(model.uses) });
          for (const { what, area } of changes) {
            const last = [...model.uses.keys()].at(-1);
            if (what === 'use' && model.discarded) {
              const used = ask('baths.use', { id, areaCm2: area });
              late.push(
                await used.then(
                  () => 'taken',
                  (error: unknown) => isAppError(error, 'bath_ended'),
                ),
              );
            } else if (what === 'use') {
              remember();
              model.uses.set((await ask('baths.use', { id, areaCm2: area })).id, area);
            } else if (what === 'correct' && last !== undefined) {
              if (model.uses.get(last) === area) continue;
              remember();
              await ask('baths.changeUse', { useId: last, areaCm2: area, weightedAreaCm2: area });
              model.uses.set(last, area);
            } else if (what === 'remove' && last !== undefined) {
              remember();
              await ask('baths.removeUse', { useId: last });
              model.uses.delete(last);
            } else if (what === 'discard' && !model.discarded) {
              remember();
              await ask('baths.discard', { id });
              model = { ...model, discarded: true };
            } else if (what === 'undo') {
              const earlier = before.pop();
              if (!earlier) continue;
              await ask('archive.undo', {});
              model = earlier;
            }
          }
          const { bath } = await ask('baths.get', { id });
          const done = [...model.uses.values()].reduce((sum, area) => sum + area, 0);
          expect(late.every((refused) => refused === true)).toBe(true);
          expect(bath.areaDoneCm2).toBeCloseTo(done, 6);
          expect(bath.areaLeftCm2).toBeCloseTo(Math.max(0, capacityCm2 - done), 6);
          expect(bath.condition).toBe(model.discarded ? 'discarded' : 'in use');
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('a bath that ended', () => {
  it('flags the developments done since it was spoilt, and no earlier one', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('baths.add', { name: 'Developer', kind: 'developer', process: 'c41' });
    for (const [number, date] of [
      ['A', '2026-04-01'],
      ['B', '2026-04-10'],
      ['C', '2026-04-20'],
    ] as const) {
      const rollIds = [await addRoll(ask, number, '135', '24x36')];
      await ask('developments.record', { rollIds, process: 'c41', date, bathIds: [id] });
    }
    // Field log R50: spoilt between two sessions.
    await ask('baths.spoil', { id, at: '2026-04-15T12:00:00Z', reason: 'bleach-fix poured in' });
    const flagged = (await ask('developments.list', {})).filter((each) => each.doubts.length > 0);
    expect(flagged.map((each) => each.rolls.map((roll) => roll.number))).toEqual([['C']]);
  });

  it('stays spoilt when it is poured away later', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('baths.add', { name: 'Developer', kind: 'developer' });
    await ask('baths.spoil', { id, at: '2026-04-15T12:00:00Z' });
    await expect(ask('baths.discard', { id })).rejects.toMatchObject({ code: 'bath_ended' });
    expect((await ask('baths.get', { id })).bath.condition).toBe('spoilt');
  });
});

describe('the clearing test', () => {
  it('finds a fixer spent at 1:35 against 0:45 and lists the rolls since the last good test', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('baths.add', { name: 'Fixer', kind: 'fixer', process: 'bw' });
    await ask('baths.test', { id, seconds: 45, fresh: true, at: '2026-04-01T10:00:00Z' });
    const develop = async (number: string, date: string) =>
      ask('developments.record', {
        rollIds: [await addRoll(ask, number, '135', '24x36')],
        process: 'bw',
        date,
        bathIds: [id],
      });
    await develop('A', '2026-04-05');
    await ask('baths.test', { id, seconds: 60, fresh: false, at: '2026-04-10T10:00:00Z' });
    await develop('B', '2026-04-20');
    await ask('baths.test', { id, seconds: 95, fresh: false, at: '2026-04-25T10:00:00Z' });
    const { clearing, rollsSinceGood } = await ask('baths.get', { id });
    // Field log R48; NAVEDTRA 14209: spent when the time has doubled (95 / 45 = 2.11), fix twice the clearing time.
    expect(clearing).toMatchObject([{ spent: true, fixSeconds: 190 }]);
    expect(rollsSinceGood.map((roll) => roll.number)).toEqual(['B']);
  });
});

describe('a fixer that was found spent', () => {
  it('says so in its words and before it is poured, until a newer test finds it good', async () => {
    const { ask } = await makeArchive();
    const stock = await ask('stocks.add', { name: 'Grey', iso: 100, process: 'bw' });
    const facts = { filmFormat: '135', frameFormat: '24x36', exposures: 36, stockId: stock.id } as const;
    const rollIds = [(await ask('rolls.add', { number: 'A', ...facts })).id];
    const { id } = await ask('baths.add', { name: 'Fixer', kind: 'fixer', process: 'bw' });
    // Field log R48: fresh 0:45, today 1:35; NAVEDTRA 14209: spent at twice.
    await ask('baths.test', { id, seconds: 45, fresh: true, at: '2026-04-01T10:00:00Z' });
    await ask('baths.test', { id, seconds: 95, fresh: false, at: '2026-04-20T10:00:00Z' });
    const [bath] = await ask('baths.list', {});
    expect(bath).toMatchObject({ spent: true, words: expect.stringContaining('spent by its clearing test') });
    const developerTime = { seconds: 540, celsius: 20 };
    const request = { rollIds, process: 'bw', bathIds: [id], developerTime };
    const warned = async () =>
      (await ask('developments.plan', request)).plan?.warnings.map((warning) => warning.code);
    expect(await warned()).toContain('fixer_spent');
    await ask('baths.test', { id, seconds: 50, fresh: false, at: '2026-04-21T10:00:00Z' });
    expect(await warned()).not.toContain('fixer_spent');
  });
});

describe('a mixed bath', () => {
  it('says in words what it has done and what the next roll needs', async () => {
    const { ask } = await makeArchive();
    const { id } = await ask('baths.add', {
      name: 'Developer',
      kind: 'developer',
      process: 'c41',
      mixed: '2026-04-09',
      volumeMl: 1000,
      capacityCm2: 8 * ROLL_CM2,
      usedBeforeCm2: 4 * ROLL_CM2,
      extension: { kind: 'percent', percentPerRoll: 2, source: { kind: 'yours', text: 'test' } },
    });
    // 195 × 1.08 = 210.6, to the whole second 3:31; 9 April to 2 May are 23 days.
    expect((await ask('baths.get', { id })).bath.words).toBe(
      '4 of 8 rolls, mixed 23 days ago, next roll 3:31',
    );
  });

  it('refuses a volume of nothing', async () => {
    const { ask } = await makeArchive();
    const asked = ask('baths.add', { name: 'Nothing', kind: 'developer', volumeMl: 0 });
    await expect(asked).rejects.toMatchObject({ code: 'value_not_valid' });
    expect(await ask('baths.list', {})).toEqual([]);
  });

  it('refuses a name that is taken', async () => {
    const { ask } = await makeArchive();
    await ask('baths.add', { name: 'Developer', kind: 'developer' });
    const asked = ask('baths.add', { name: 'Developer', kind: 'developer' });
    await expect(asked).rejects.toMatchObject({ code: 'bath_name_taken' });
  });
});

describe('a process of the user’s own', () => {
  it('offers its own capacity, life and added time for its baths', async () => {
    const { ask } = await makeArchive();
    const shipped = (await ask('processes.list', {})).find(({ key }) => key === 'c41-two-bath');
    if (!shipped) throw new Error('no shipped process');
    const source = { kind: 'yours', text: 'leaflet of the kit' } as const;
    const extension = {
      kind: 'steps',
      rows: [
        { fromRoll: 1, seconds: 195 },
        { fromRoll: 5, seconds: 210 },
      ],
      source,
    } as const;
    const bathFacts = {
      capacityCm2PerLitre: { value: 12 * ROLL_CM2, source },
      shelfDays: { value: 40, source },
      extension,
    };
    const steps = shipped.process.steps.map((step) =>
      step.bath === 'developer' ? { ...step, bathFacts } : step,
    );
    const { id } = await ask('processes.add', {
      process: { ...shipped.process, name: 'My kit', steps },
      kind: 'c41',
    });
    const offered = await ask('baths.offer', { kind: 'developer', process: 'My kit', volumeMl: 500 });
    // Twelve rolls a litre are six in half a litre.
    expect(offered.capacityCm2?.value).toBeCloseTo(6 * ROLL_CM2, 6);
    expect(offered).toMatchObject({ shelfDays: { value: 40 }, extension });
    // What it does not say of its bleach-fix stays the common number: 8 rolls a litre, from memory (facts 4.3).
    const other = await ask('baths.offer', { kind: 'bleach_fix', process: `own-${id}`, volumeMl: 1000 });
    expect(other.capacityCm2?.source.kind).toBe('from memory');
    // Without a bath its rule counts from the rolls said: the fifth roll has 3:30.
    const rollIds = [await addRoll(ask, 'A', '135', '24x36', 36)];
    const { plan } = await ask('developments.plan', { rollIds, process: 'My kit', rollsDone: 4 });
    expect(plan?.developerSeconds).toBe(210);
  });

  it('is used with its own times and refused when they rise with temperature', async () => {
    const { ask } = await makeArchive();
    const shipped = (await ask('processes.list', {})).find((entry) => entry.key === 'c41-two-bath');
    if (!shipped) throw new Error('the process is not shipped');
    const source = { kind: 'yours', text: 'kit' } as const;
    const withTime = (seconds: number) => ({
      ...shipped.process,
      name: 'My kit',
      steps: shipped.process.steps.map((step) =>
        step.key === 'developer'
          ? {
              ...step,
              time: { seconds, source },
              timePoints: [{ celsius: 30, seconds: 400, source }],
            }
          : step,
      ),
    });
    await expect(
      ask('processes.add', { process: withTime(500), kind: 'c41', copiedFrom: shipped.key }),
    ).rejects.toMatchObject({ code: 'process_not_usable' });
    await ask('processes.add', { process: withTime(210), kind: 'c41', copiedFrom: shipped.key });
    const rollIds = [await addRoll(ask, 'A', '135', '24x36')];
    const { plan } = await ask('developments.plan', { rollIds, process: 'my kit', developerC: 30 });
    expect(plan?.developerSeconds).toBe(400);
  });
});
