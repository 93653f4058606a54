import { describe, expect, it } from 'vitest';
import { makeArchive } from '../../../support/make-archive.ts';
import { originText } from '../../../../shared/text/describe-origin.ts';

/** A roll of 12 frames that was on an outing, went through a used developer and lies in a page. */
async function fillArchive() {
  const archive = await makeArchive();
  const { ask } = archive;
  const { id: stockId } = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });
  const { id: cameraId } = await ask('cameras.add', { name: 'Rangefinder no. 1' });
  const { id: rollId } = await ask('rolls.add', {
    number: '2024-031',
    title: 'The water at Torrow',
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: 12,
    stockId,
    cameraId,
    expires: '2019-06',
    exposureIndex: 125,
    state: 'to develop',
  });
  const labels = Array.from({ length: 12 }, (_, index) => String(index + 1));
  await ask('frames.add', { rollId, labels });
  await ask('outings.add', {
    title: 'Hask upland',
    date: '2024-04-20~',
    place: 'Hask',
    rolls: [{ rollId, labels: ['7', '8', '9'] }],
  });
  const frames = await ask('frames.ofRoll', { rollId });
  const idOf = (label: string) => frames.find((frame) => frame.label === label)?.id ?? 0;
  await ask('frames.change', {
    ids: [idOf('8')],
    change: { caption: 'Hask ridge', lens: '50 mm', shutter: '1/250', aperture: 8 },
  });
  await ask('frames.change', { ids: [idOf('9')], change: { caption: 'Dead fir' } });
  const { id: bathId } = await ask('baths.add', {
    name: 'Developer 9',
    kind: 'colour_developer',
    process: 'c41',
    mixed: '2024-03-30',
    // Four and eight rolls of 80 sq in: 80 × 6.4516 cm² = 516.128 cm².
    usedBeforeCm2: 4 * 516.128,
    capacityCm2: 8 * 516.128,
  });
  await ask('developments.record', {
    rollIds: [rollId],
    process: 'c41',
    date: '2024-04-27',
    developerTempC: 37.2,
    developerSeconds: 211,
    bathIds: [bathId],
  });
  await ask('filing.file', { rollId, binder: '7', page: null, layoutId: '35mm-7x6', cut: null });
  return { ...archive, rollId, idOf };
}

describe('frames.origin', () => {
  it('answers everything a frame came from in one go', async () => {
    const { ask, idOf } = await fillArchive();
    const origin = await ask('frames.origin', { frameId: idOf('8') });
    expect(origin.roll.number).toBe('2024-031');
    expect(origin.outing).toMatchObject({ title: 'Hask upland', place: 'Hask' });
    expect(origin.along.map(({ label }) => label)).toEqual(['6', '7', '8', '9', '10']);
    // Strips of six: frame 8 is the second of row 2.
    expect(origin.frame.lies).toMatchObject({ binder: '7', page: 1, row: 2, position: 2 });
    expect(origin.page?.strips).toHaveLength(2);
    expect(origin.development).toMatchObject({
      developerTempC: 37.2,
      developerSeconds: 211,
      bath: { name: 'Developer 9' },
      bathMixed: { edtf: '2024-03-30' },
    });
    expect((origin.development?.usedBeforeCm2 ?? 0) / 516.128).toBeCloseTo(4, 6);
    expect((origin.development?.bathCapacityCm2 ?? 0) / 516.128).toBeCloseTo(8, 6);
  });

  it('says it as text', async () => {
    const { ask, idOf } = await fillArchive();
    // 2019-06-30 to 2024-04-20 is 1756 days, from 2019-06-01 1785: 4.81 and 4.89 years of 365.25 days.
    // 30 March to 27 April is 28 days. 211 s is 3:31.
    const origin = await ask('frames.origin', { frameId: idOf('8') });
    // C-41 is published for 37.8 °C (Kodak Z-131, Table 4-1): 37.2 is 0.6 under.
    const text = originText(origin);
    expect(text.split('\n')).toEqual([
      'Frame 8 of roll 2024-031',
      'Hask ridge',
      '',
      'Roll: 2024-031; The water at Torrow; 135 (35 mm), 24×36',
      'Lies in: Binder 7, page 1, row 2, position 2',
      'Outing: Hask upland; about 2024-04-20; Hask; frames 7–9',
      'Camera: Rangefinder no. 1; lens 50 mm',
      'Stock: Fenn 200, ISO 200; expiry 2019-06; 4.8 years past its date when exposed',
      'Exposure: 1/250 f/8; EI 125',
      'Development: 2024-04-27, C-41',
      'Developer: 37.2 °C; 0.6 under 37.8 °C; 3:31 minutes',
      'Bath: Developer 9; mixed 2024-03-30; 28 days old; 4 rolls of film went through before, of 8 that it can do',
      'Scan: none yet',
      'Beside it: 6, 7, 9 (Dead fir), 10',
      '',
    ]);
  });

  it('is as short as what is known: a frame nobody wrote anything of', async () => {
    const { ask } = await makeArchive();
    const { id: rollId } = await ask('rolls.add', { number: 'A', filmFormat: '120', frameFormat: '6x6' });
    await ask('frames.add', { rollId, labels: ['1'] });
    const [frame] = await ask('frames.ofRoll', { rollId });
    const origin = await ask('frames.origin', { frameId: frame?.id ?? 0 });
    expect(origin).toMatchObject({ page: null, outing: null, development: null, batch: null });
    const text = originText(origin);
    expect(text).toContain('Lies in: no page yet\n');
    expect(text).toContain('Development: none written down\n');
    expect(text).not.toMatch(/null|undefined|NaN/);
  });

  it('refuses a frame that is not there', async () => {
    const { ask } = await makeArchive();
    await expect(ask('frames.origin', { frameId: 99 })).rejects.toMatchObject({ code: 'frame_not_found' });
  });

  it('leaves out a development that is still under way', async () => {
    const { ask } = await makeArchive();
    const { id: rollId } = await ask('rolls.add', {
      number: 'A',
      filmFormat: '135',
      frameFormat: '24x36',
      exposures: 1,
      state: 'to develop',
    });
    const { id: stockId } = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });
    await ask('rolls.change', { id: rollId, change: { stockId } });
    await ask('frames.add', { rollId, labels: ['1'] });
    await ask('developments.start', { rollIds: [rollId], process: 'c41' });
    const [frame] = await ask('frames.ofRoll', { rollId });
    expect((await ask('frames.origin', { frameId: frame?.id ?? 0 })).development).toBeNull();
  });
});
