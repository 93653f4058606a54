import { expect, it } from 'vitest';
import { addDarkroom } from '../../../../main/engine/sample/sample-darkroom.ts';
import { makeArchive, TEST_DAY } from '../../../support/make-archive.ts';

it('fills the darkroom of the sample: runs with readings, baths of every state, a process of its own', async () => {
  const { ask } = await makeArchive();
  const colour = await ask('stocks.add', { name: 'Fenn 200', iso: 200, process: 'c41' });
  const grey = await ask('stocks.add', { name: 'Harrow 400', iso: 400, process: 'bw' });
  const add = async (stockId: number, filmFormat: string, frameFormat: string) =>
    (await ask('rolls.add', { stockId, filmFormat, frameFormat, state: 'to develop' })).id;
  const coastId = await add(colour.id, '135', '24x36');
  const valleyId = await add(colour.id, '135', '24x36');
  const gardenId = await add(grey.id, '120', '6x6');
  await addDarkroom(ask, { coastId, valleyId, gardenId, greyStockId: grey.id }, TEST_DAY);

  const developments = await ask('developments.list', {});
  expect(developments.map(({ state, doubts }) => [state, doubts.length])).toEqual([
    ['done', 0],
    ['done', 0],
    ['done', 0],
  ]);
  const [valley, coast] = developments;
  const details = async (id = 0) => (await ask('developments.get', { id })).steps[1];
  // Kodak Z-131, Table 4-1: 37.8 ± 0.15 °C.
  expect((await details(coast?.id))?.comparison?.meanVerdict).toBe('within');
  expect((await details(valley?.id))?.comparison?.meanVerdict).toBe('below');
  // By hand: the second roll takes 195 × 1.02 = 198.9 s, to the whole second 199.
  expect((await details(valley?.id))?.plannedSeconds).toBe(199);

  const baths = await ask('baths.list', {});
  const words = new Map(baths.map((bath) => [bath.name, bath.words]));
  // 195 × (1 + 0.02 × 4.2) = 211.38 s by hand: 3:31.
  expect(words.get('Developer')).toBe('4.2 of 8 rolls, mixed 23 days ago, next roll 3:31');
  expect(words.get('Fixer, spring')).toContain('spent by its clearing test');
  expect(words.get('Bleach-fix, April')).toContain('spoilt since 2026-05-03');
  expect(baths.map(({ condition }) => condition)).toEqual(
    expect.arrayContaining(['in use', 'discarded', 'spoilt']),
  );
  const fixer = baths.find(({ name }) => name === 'Fixer, spring')?.id ?? 0;
  expect((await ask('baths.get', { id: fixer })).rollsSinceGood.map(({ id }) => id)).toEqual([gardenId]);

  const [kit] = await ask('processes.list', {});
  expect(kit).toMatchObject({ name: 'Litre kit at 38.9 °C', copiedFrom: 'c41-two-bath' });
  for (const id of [coastId, valleyId, gardenId]) {
    expect((await ask('rolls.get', { id })).state).toBe('developed');
  }
});
