import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../../../main/engine/engine.ts';
import { askOf, type Ask } from '../../../support/make-archive.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const START_MS = Date.parse('2026-05-02T10:00:00Z');
/** 80 sq in, 80 × 2.54² cm². */
const ROLL_CM2 = 516.128;

interface Bench {
  readonly ask: Ask;
  readonly folder: string;
  /** Moves the clock of the engine, seconds. */
  pass(seconds: number): void;
  /** Opens the archive anew in another engine, as after a crash: nothing was said to the first one. */
  reopen(): Promise<Ask>;
  roll(number: string, facts?: RollFacts): Promise<number>;
}

interface RollFacts {
  readonly stockId?: number;
  readonly filmFormat?: string;
  readonly frameFormat?: string;
  readonly pushStops?: number;
  readonly exposures?: number;
  readonly exposureIndex?: number;
}

/** An archive with a colour film, under a clock that stands still until it is told to go on. */
async function makeBench(): Promise<Bench & { readonly fenn: number }> {
  let nowMs = START_MS;
  const folder = join(tempFolder(), 'archive');
  const open = () => {
    const engine = createEngine({ now: () => new Date(nowMs) });
    onTestFinished(() => engine.close());
    return { engine, ask: askOf(engine) };
  };
  const first = open();
  await first.ask('archive.create', { folder });
  const { id: fenn } = await first.ask('stocks.add', { name: 'Fenn 200', iso: 200, process: 'c41' });
  return {
    ask: first.ask,
    folder,
    fenn,
    pass: (seconds) => {
      nowMs += seconds * 1000;
    },
    async reopen() {
      await first.engine.close();
      const second = open();
      await second.ask('archive.open', { folder });
      return second.ask;
    },
    async roll(number, facts = {}) {
      const { id } = await first.ask('rolls.add', {
        number,
        stockId: fenn,
        filmFormat: '135',
        frameFormat: '24x36',
        state: 'to develop',
        ...facts,
      });
      return id;
    },
  };
}

describe('developments.plan', () => {
  it('lengthens 3:15 by 2 % for each of 8 rolls to 3:46', async () => {
    const bench = await makeBench();
    const rollIds = [await bench.roll('A'), await bench.roll('B')];
    const { plan } = await bench.ask('developments.plan', {
      rollIds,
      process: 'c41',
      developerC: 37.8,
      rollsDone: 8,
      extension: { kind: 'percent', percentPerRoll: 2, source: { kind: 'yours', text: 'test' } },
    });
    // Field log R46: 3:15 plus 8 × 2 % = 195 × 1.16 = 226.2 s.
    expect(plan?.developerSeconds).toBe(226);
    expect(plan?.process.key).toBe('c41-as-published');
  });

  it('takes the process in two baths at a temperature the published one does not allow', async () => {
    const bench = await makeBench();
    const { plan } = await bench.ask('developments.plan', {
      rollIds: [await bench.roll('A')],
      process: 'c41',
      developerC: 36.9,
    });
    expect(plan?.process.key).toBe('c41-two-bath');
    // Facts 4.3: 30 °C 8:00, 37.8 °C 3:15. ln 480 − ln 195 = 0.90078 over 7.8 °C; 195 · exp(0.9 · 0.115485) = 216.36 s.
    expect(plan?.developerSeconds).toBe(216);
  });

  it('refuses rolls of different push and offers a group for each', async () => {
    const bench = await makeBench();
    const [a, b, c] = [await bench.roll('A'), await bench.roll('B', { pushStops: 1 }), await bench.roll('C')];
    const { plan, refused } = await bench.ask('developments.plan', { rollIds: [a, b, c], process: 'c41' });
    expect(plan).toBeNull();
    expect(refused?.code).toBe('push_differs');
    expect(refused?.groups.map((rolls) => rolls.map((roll) => roll.number))).toEqual([['A', 'C'], ['B']]);
  });

  it('gives the same load whatever the order of its rolls', async () => {
    const bench = await makeBench();
    const rollIds = [
      await bench.roll('A'),
      await bench.roll('B', { filmFormat: '120', frameFormat: '6x6' }),
      await bench.roll('C', { exposures: 24 }),
    ];
    const there = await bench.ask('developments.plan', { rollIds, process: 'c41' });
    const back = await bench.ask('developments.plan', { rollIds: rollIds.toReversed(), process: 'c41' });
    expect(back.plan?.developerSeconds).toBe(there.plan?.developerSeconds);
    expect(back.plan?.areaCm2).toBeCloseTo(there.plan?.areaCm2 ?? 0, 9);
  });

  it('refuses more reels than the tank holds', async () => {
    const bench = await makeBench();
    const tank = await bench.ask('tanks.add', { name: 'Two reels', reels: 2, mlPer135: 290 });
    const rollIds = [await bench.roll('A'), await bench.roll('B'), await bench.roll('C')];
    const { refused } = await bench.ask('developments.plan', { rollIds, process: 'c41', tankId: tank.id });
    expect(refused?.code).toBe('too_many_reels');
    const two = await bench.ask('developments.plan', {
      rollIds: rollIds.slice(0, 2),
      process: 'c41',
      tankId: tank.id,
    });
    // 2 × 290 ml, by hand.
    expect(two.plan?.volumeMl).toBe(580);
  });

  it('refuses a roll that is developed', async () => {
    const bench = await makeBench();
    const roll = await bench.roll('A');
    await bench.ask('developments.record', { rollIds: [roll], process: 'c41', date: '2026-04-01' });
    const { refused } = await bench.ask('developments.plan', { rollIds: [roll], process: 'c41' });
    expect(refused?.code).toBe('roll_already_developed');
  });

  it('asks about 378 °C and about 100 °F typed as °C', async () => {
    const bench = await makeBench();
    const rollIds = [await bench.roll('A')];
    for (const developerC of [378, 100]) {
      const { refused } = await bench.ask('developments.plan', { rollIds, process: 'c41', developerC });
      expect(refused?.code).toBe('temperature_doubtful');
      // 37.8 is 378 / 10, and 100 °F = (100 − 32) / 1.8 = 37.78 °C.
      expect(refused?.detail).toContain('37.8');
    }
  });

  it('refuses a discarded bath by name', async () => {
    const bench = await makeBench();
    const bath = await bench.ask('baths.add', { name: 'Old', kind: 'developer', process: 'c41' });
    await bench.ask('baths.discard', { id: bath.id });
    const rollIds = [await bench.roll('A')];
    const asked = bench.ask('developments.plan', { rollIds, process: 'c41', bathIds: [bath.id] });
    await expect(asked).rejects.toMatchObject({ code: 'bath_ended', details: { name: 'Old' } });
  });

  it('warns when film was exposed for a push it is not developed for', async () => {
    const bench = await makeBench();
    // Field log R51 in another size: two stops are 200 to 800.
    const rollIds = [await bench.roll('A', { exposureIndex: 800 })];
    const { plan } = await bench.ask('developments.plan', { rollIds, process: 'c41', stops: 1 });
    expect(plan?.warnings.map((warning) => warning.code)).toContain('developed_for_less');
    // Facts 4.2: push 1 = 3:45.
    expect(plan?.developerSeconds).toBe(225);
  });

  it('leaves a black-and-white time to the user, and estimates beside his one row', async () => {
    const bench = await makeBench();
    const grey = await bench.ask('stocks.add', { name: 'Grey', iso: 400, process: 'bw' });
    const rollIds = [await bench.roll('A', { stockId: grey.id })];
    const without = await bench.ask('developments.plan', { rollIds, process: 'bw' });
    expect(without.refused?.code).toBe('time_missing');
    const { plan } = await bench.ask('developments.plan', {
      rollIds,
      process: 'bw',
      developerC: 22,
      developerTime: { seconds: 240, celsius: 20 },
    });
    // Facts 5, from memory: 4:00 at 20 °C gives 3:16 at 22 °C.
    expect(plan?.developerSeconds).toBe(196);
    expect(plan?.warnings.map((warning) => warning.code)).toContain('short_development');
  });
});

describe('a run', () => {
  async function startRun() {
    const bench = await makeBench();
    const developer = await bench.ask('baths.add', {
      name: 'Developer May',
      kind: 'developer',
      process: 'c41',
      capacityCm2: 8 * ROLL_CM2,
    });
    const rollIds = [await bench.roll('A'), await bench.roll('B')];
    const { id } = await bench.ask('developments.start', {
      rollIds,
      process: 'c41',
      bathIds: [developer.id],
    });
    return { ...bench, id, rollIds, bathId: developer.id };
  }

  it('goes on at the right second after its engine died in mid-developer', async () => {
    const { ask, pass, reopen, id } = await startRun();
    await ask('developments.note', { id, event: { kind: 'step_started', step: 0 } });
    pass(60);
    await ask('developments.note', { id, event: { kind: 'temperature_read', celsius: 37.6 } });
    pass(67);
    const again = await reopen();
    const state = await again('developments.runState', { id });
    // 60 + 67 s by hand; 195 − 127 = 68 s left.
    expect(state).toMatchObject({
      phase: 'running',
      stepName: 'Developer',
      elapsedSeconds: 127,
      leftSeconds: 68,
      readings: [{ atSeconds: 60, celsius: 37.6 }],
    });
  });

  it('keeps planned and actual apart, charges the bath and develops the rolls', async () => {
    const { ask, pass, id, rollIds, bathId } = await startRun();
    await ask('developments.note', { id, event: { kind: 'step_started', step: 0 } });
    pass(60);
    await ask('developments.note', { id, event: { kind: 'temperature_read', celsius: 37.4 } });
    pass(140);
    await ask('developments.note', { id, event: { kind: 'step_started', step: 1 } });
    pass(400);
    await ask('developments.note', { id, event: { kind: 'run_finished' } });
    await ask('developments.finish', { id, who: 'Ada' });
    const done = await ask('developments.get', { id });
    expect(done).toMatchObject({ state: 'done', who: 'Ada', developerSeconds: 200, developerTempC: 37.4 });
    expect(done.date?.edtf).toMatch(/^2026-05-0[1-3]$/);
    expect(done.steps[0]).toMatchObject({ plannedSeconds: 195, actualSeconds: 200, plannedC: 37.8 });
    // 37.4 is 0.4 under 37.8 and outside 0.15 (Kodak Z-131, Table 4-1).
    expect(done.steps[0]?.comparison?.meanVerdict).toBe('below');
    expect(done.steps[2]?.actualSeconds).toBeNull();
    for (const rollId of rollIds) expect((await ask('rolls.get', { id: rollId })).state).toBe('developed');
    const { bath } = await ask('baths.get', { id: bathId });
    // Two 135-36 are two units of 80 sq in, brodie-tyrrell.org/wiki, FixerCapacity.
    expect(bath.rollsDone).toBeCloseTo(2, 9);
  });

  it('leaves the rolls waiting when it was aborted before a pour', async () => {
    const { ask, id, rollIds, bathId } = await startRun();
    await ask('developments.note', { id, event: { kind: 'run_aborted' } });
    await ask('developments.finish', { id });
    expect((await ask('rolls.get', { id: rollIds[0] ?? 0 })).state).toBe('to develop');
    expect((await ask('baths.get', { id: bathId })).bath.rollsDone).toBe(0);
  });

  it('asks about a temperature that is far from the plan before it is noted', async () => {
    const { ask, id } = await startRun();
    const event = { kind: 'temperature_read', celsius: 378 } as const;
    const asked = ask('developments.note', { id, event });
    await expect(asked).rejects.toMatchObject({
      code: 'temperature_doubtful',
      details: { meant: '37.8 °C' },
    });
    expect((await ask('developments.get', { id })).events).toEqual([]);
  });

  it('corrects a reading afterwards and keeps what stood there', async () => {
    const { ask, pass, id } = await startRun();
    await ask('developments.note', { id, event: { kind: 'step_started', step: 0 } });
    pass(60);
    const read = await ask('developments.note', { id, event: { kind: 'temperature_read', celsius: 35.0 } });
    pass(135);
    await ask('developments.note', { id, event: { kind: 'run_finished' } });
    await ask('developments.finish', { id });
    await ask('developments.note', {
      id,
      corrects: read.id,
      atMs: START_MS + 60_000,
      event: { kind: 'temperature_read', celsius: 37.6 },
    });
    const { developerTempC, events, corrections } = await ask('developments.get', { id });
    expect(developerTempC).toBe(37.6);
    expect(events.filter((event) => event.kind === 'temperature_read')).toHaveLength(2);
    expect(corrections).toMatchObject([{ column: 'developer_temp_c', before: '35', after: '37.6' }]);
  });

  it('takes nothing more once it is filed', async () => {
    const { ask, id } = await startRun();
    await ask('developments.note', { id, event: { kind: 'run_aborted' } });
    await ask('developments.finish', { id });
    const late = ask('developments.note', { id, event: { kind: 'step_started', step: 0 } });
    await expect(late).rejects.toMatchObject({ code: 'development_not_running' });
  });

  it('is not taken away by undo, its log neither', async () => {
    const { ask, id } = await startRun();
    await ask('developments.note', { id, event: { kind: 'step_started', step: 0 } });
    await ask('archive.undo', {});
    expect((await ask('developments.get', { id })).events).toHaveLength(1);
  });
});

describe('developments.change', () => {
  it('keeps what stood there before', async () => {
    const bench = await makeBench();
    const { id } = await bench.ask('developments.record', {
      rollIds: [await bench.roll('A')],
      process: 'c41',
      date: '2026-04-01',
      developerTempC: 36.9,
    });
    await bench.ask('developments.change', { id, change: { developerTempC: 37.9 } });
    const { developerTempC, corrections } = await bench.ask('developments.get', { id });
    expect(developerTempC).toBe(37.9);
    expect(corrections).toMatchObject([{ column: 'developer_temp_c', before: '36.9', after: '37.9' }]);
  });
});

describe('developments.record', () => {
  it('asks about 378 °C, and takes no bath of 378 °C even from who is sure', async () => {
    const bench = await makeBench();
    const rollId = await bench.roll('A');
    const record = (developerTempC: number, sure: boolean) =>
      bench.ask('developments.record', {
        rollIds: [rollId],
        process: 'c41',
        date: '2026-04-20',
        developerTempC,
        sure,
      });
    await expect(record(378, false)).rejects.toMatchObject({ code: 'temperature_doubtful' });
    // 100.4 °F is 38.0 °C by hand.
    await expect(record(100.4, false)).rejects.toMatchObject({ details: { meant: '38.0 °C' } });
    await expect(record(378, true)).rejects.toMatchObject({ code: 'value_not_valid' });
    expect(await bench.ask('developments.list', {})).toEqual([]);
    expect((await bench.ask('rolls.get', { id: rollId })).state).toBe('to develop');
  });
});
