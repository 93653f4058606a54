import { describe, expect, it } from 'vitest';
import { makeArchive } from '../../../support/make-archive.ts';

const FILM = { filmFormat: '135', frameFormat: '24x36' };
const LEAK = { kind: 'light leak', edge: null, fromEdgeMm: null, note: null };

async function makeCauses() {
  const made = await makeArchive();
  const { ask } = made;
  const stock = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });

  /** A roll, with a leak on its first frame or without. */
  async function addRoll(number: string, leaks: boolean, facts: object): Promise<number> {
    const { id } = await ask('rolls.add', { ...FILM, number, stockId: stock.id, ...facts });
    await ask('frames.add', { rollId: id, labels: ['1'] });
    const [frame] = await ask('frames.ofRoll', { rollId: id });
    if (leaks) await ask('frames.change', { ids: [frame?.id ?? 0], change: { faults: [LEAK] } });
    return id;
  }
  return { ...made, stockId: stock.id, addRoll };
}

describe('faults by what the log tells', () => {
  it('keep to the camera before its repair, and name the rolls', async () => {
    const { ask, addRoll } = await makeCauses();
    const a = await ask('cameras.add', { name: 'A' });
    const b = await ask('cameras.add', { name: 'B' });
    await ask('cameras.noteRepair', { cameraId: b.id, done: '2024-05-03', what: 'seals replaced' });
    const develop = (rollIds: number[], date: string) =>
      ask('developments.record', { rollIds, process: 'c41', date });
    const before: number[] = [];
    for (let at = 0; at < 6; at += 1) before.push(await addRoll(`B-${at}`, true, { cameraId: b.id }));
    await develop(before, '2024-02-01');
    for (let at = 6; at < 12; at += 1) {
      const id = await addRoll(`B-${at}`, false, { cameraId: b.id });
      await ask('rolls.setState', { id, state: 'in camera', since: '2024-06' });
      await develop([id], '2024-07-01');
    }
    for (let at = 0; at < 12; at += 1) await addRoll(`A-${at}`, false, { cameraId: a.id });
    // Developed after the repair, and nobody knows when it was exposed.
    await develop([await addRoll('B-12', true, { cameraId: b.id })], '2024-08-01');

    const { faults } = await ask('colour.causes', { fault: 'leak' });
    const repair = faults.find(({ factor }) => factor.startsWith('repair'));
    // Hand: 6 of 6 leaks among 6 of 12 rolls, both ends: 2 / C(12, 6) = 2/924.
    expect(repair).toMatchObject({ value: 'before', faultsThere: 6, rollsThere: 6, rolls: 12, unknown: 1 });
    expect(repair?.chance).toBeCloseTo(2 / 924, 12);
    expect(repair?.there.map(({ name }) => name)).toEqual(['B-0', 'B-1', 'B-2', 'B-3', 'B-4', 'B-5']);
    expect(repair?.say).toContain('from before 2024-05-03 (seals replaced)');
    const camera = faults.find(({ factor }) => factor === 'camera');
    // Hand: 7 of 7 leaks on B, which has 13 of 25 rolls: C(13, 7) / C(25, 7) = 1716/480700 in one end; the other,
    // none of 7 on B, C(12, 7) / C(25, 7) = 792/480700, is rarer still and counts too.
    expect(camera?.chance).toBeCloseTo((1716 + 792) / 480_700, 10);
    expect(camera?.comparisons).toBe(2);
  });

  it('tell holders and cassettes apart', async () => {
    const { ask, addRoll } = await makeCauses();
    for (let at = 0; at < 5; at += 1) await addRoll(`N-${at}`, true, { holder: 'North', cassette: 'K1' });
    for (let at = 0; at < 5; at += 1) await addRoll(`S-${at}`, false, { holder: 'South', cassette: 'K1' });
    const { faults } = await ask('colour.causes', {});
    expect(faults.map(({ factor, value }) => [factor, value])).toEqual([['holder', 'North']]);
  });

  it('say which faults are noted when none is called so', async () => {
    const { ask, addRoll } = await makeCauses();
    await addRoll('A', true, {});
    await expect(ask('colour.causes', { fault: 'scratch' })).rejects.toMatchObject({
      code: 'fault_not_found',
      details: { name: 'scratch', known: ['light leak'] },
    });
  });
});

describe('what the log knows of a roll', () => {
  it('is its temperature error, effective time, months past expiry and warm months', async () => {
    const { ask, addRoll, stockId } = await makeCauses();
    const batch = await ask('batches.add', {
      stockId,
      filmFormat: '135',
      expires: '2020-06',
      storage: [
        { place: 'freezer', since: null },
        { place: 'room', since: '2022-07-01' },
      ],
    });
    const id = await addRoll('A', false, { batchId: batch.id });
    await ask('developments.record', {
      rollIds: [id],
      process: 'c41',
      date: '2023-07-01',
      developerTempC: 37,
      developerSeconds: 195,
    });
    const { rolls, trends, groups } = await ask('colour.causes', { stockId });
    // Hand: ln(480/195)/7.8 = 0.11548 per °C by the shipped table (30 °C 8:00, 37.8 °C 3:15); 195 s at 37 °C are worth
    // 195 · exp(−0.11548 · 0.8) = 177.8 s. June 2020 to July 2023 are 37 months, the last 12 of them in a room; the
    // freezer, from the beginning, is where it lay longest.
    expect(rolls[0]).toMatchObject({
      temperatureErrorC: -0.8,
      monthsPastExpiry: 37,
      warmMonths: 12,
      storage: 'freezer',
      development: { name: '2023-07-01' },
    });
    expect(rolls[0]?.effectiveSeconds).toBeCloseTo(177.8, 1);
    // 4 measures against 5 numbers and by 3 kinds; not one has an answer.
    expect(trends).toHaveLength(20);
    expect(groups).toHaveLength(12);
    for (const { chance, say } of [...trends, ...groups]) {
      expect(chance).toBeNull();
      expect(say).toMatch(/not enough rolls/);
    }
  });
});

describe('repairs of a camera', () => {
  it('are listed with the date as typed, and taken away again', async () => {
    const { ask } = await makeCauses();
    const { id: cameraId } = await ask('cameras.add', { name: 'A' });
    const { id } = await ask('cameras.noteRepair', { cameraId, done: 'spring 2023', what: 'shutter' });
    const [camera] = await ask('cameras.list', {});
    expect(camera?.repairs).toMatchObject([{ id, what: 'shutter', done: { typed: 'spring 2023' } }]);
    await ask('cameras.removeRepair', { id });
    expect((await ask('cameras.list', {}))[0]?.repairs).toEqual([]);
    await ask('archive.undo', {});
    expect((await ask('cameras.list', {}))[0]?.repairs).toHaveLength(1);
    await expect(ask('cameras.removeRepair', { id: 999 })).rejects.toMatchObject({
      code: 'repair_not_found',
    });
  });
});

describe('batches', () => {
  it('keep where film lay, in order, and can be corrected', async () => {
    const { ask, stockId } = await makeCauses();
    const { id } = await ask('batches.add', { stockId, filmFormat: '135', expires: '2006-02' });
    await ask('batches.change', {
      id,
      change: {
        storage: [
          { place: 'room', since: '2019-03' },
          { place: 'fridge', since: null },
        ],
      },
    });
    const [batch] = await ask('batches.list', {});
    expect(batch).toMatchObject({
      stock: { name: 'Fenn 200' },
      expires: { typed: '2006-02' },
      storage: [
        { place: 'fridge', since: null },
        { place: 'room', since: { typed: '2019-03' } },
      ],
      rolls: 0,
    });
    await expect(ask('batches.add', { stockId, filmFormat: '136x' })).rejects.toMatchObject({
      code: 'value_not_valid',
    });
  });
});
