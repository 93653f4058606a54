// @vitest-environment jsdom
import { cleanup, configure, render, screen, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { CONTRACT, type Given, type MethodName, type Output } from '../../../shared/api/contract.ts';
import { findAxeViolations } from '../../support/axe.ts';
import { giveLayout } from '../../support/page-layout.ts';
import { setWindowStage, type WindowStage } from '../../support/window.tsx';

// The engine is a process that has to start first.
configure({ asyncUtilTimeout: 20_000 });

let stage: WindowStage;
let close: (() => void)[] = [];
let archives = 0;

async function ask<Name extends MethodName>(name: Name, input: Given<Name>): Promise<Output<Name>> {
  return CONTRACT[name].output.parse(await stage.engine.call(name, input)) as Output<Name>;
}

beforeAll(() => {
  giveLayout({ width: 1440, height: 900 });
  stage = setWindowStage();
});
beforeEach(async () => {
  window.localStorage.clear();
  window.sessionStorage.clear();
  archives += 1;
  await ask('archive.create', { folder: join(stage.folder, `archive ${archives}`) });
});
afterEach(() => {
  cleanup();
  for (const end of close) end();
  close = [];
});
afterAll(async () => {
  await stage.close();
  if (stage.bugs.length > 0) throw new Error(`There were bugs: ${stage.bugs.map(String).join('; ')}`);
});

/** A window at `#/development…` on the open archive. */
function openAt(hash: string) {
  window.history.replaceState(null, '', `/${hash}`);
  const root = stage.openWindow();
  close.push(root.close);
  return render(root.element);
}

async function addRoll(number: string, pushStops: number | null = null): Promise<number> {
  const facts = { number, filmFormat: '135', frameFormat: '24x36', state: 'to develop' } as const;
  return (await ask('rolls.add', { ...facts, pushStops })).id;
}

describe('the baths', () => {
  it('are mixed with numbers that say whose word they are', async () => {
    const user = userEvent.setup();
    openAt('#/development');
    await user.click(await screen.findByRole('button', { name: 'Mix a bath' }));
    const slip = await screen.findByRole('dialog', { name: 'Mix a bath' });
    // Facts 4.3: 8 rolls a litre, from memory.
    expect(await within(slip).findByText(/from memory: 8 rolls per litre/)).toBeDefined();
    await user.type(within(slip).getByRole('textbox', { name: 'Name' }), 'Developer May');
    await user.click(within(slip).getByRole('button', { name: 'Mix it' }));
    expect(await screen.findByRole('button', { name: 'Open Developer May' })).toBeDefined();
    // 3:15 fresh: Kodak Z-131, Table 4-1.
    expect(screen.getByText('0 of 8 rolls, mixed today, next roll 3:15')).toBeDefined();
  });
});

describe('a bath', () => {
  it('of no volume is not mixed, and the field says why', async () => {
    const user = userEvent.setup();
    openAt('#/development');
    await user.click(await screen.findByRole('button', { name: 'Mix a bath' }));
    const slip = within(await screen.findByRole('dialog', { name: 'Mix a bath' }));
    await user.type(slip.getByRole('textbox', { name: 'Name' }), 'Developer May');
    const volume = slip.getByRole('textbox', { name: 'Volume, ml' });
    await user.clear(volume);
    await user.type(volume, '0');
    expect(await slip.findByText('more than nothing, such as 1000')).toBeDefined();
    await user.click(slip.getByRole('button', { name: 'Mix it' }));
    expect(await ask('baths.list', {})).toEqual([]);
  });

  it('says what to mind while it is mixed, once in a session', async () => {
    const user = userEvent.setup();
    openAt('#/development');
    await user.click(await screen.findByRole('button', { name: 'Mix a bath' }));
    const slip = within(await screen.findByRole('dialog', { name: 'Mix a bath' }));
    expect(slip.getByText(/Always add acid to water/)).toBeDefined();
    expect(slip.getByText(/safety data sheet of your product/)).toBeDefined();
    await user.click(slip.getByRole('button', { name: 'Read' }));
    expect(slip.queryByText(/Always add acid to water/)).toBeNull();
    await user.click(slip.getByRole('button', { name: 'Cancel' }));
    await user.click(screen.getByRole('button', { name: 'Mix a bath' }));
    expect(screen.queryByText(/Always add acid to water/)).toBeNull();
  });

  it('that fixes is found spent by a scrap of the same film, and names what went through since', async () => {
    const user = userEvent.setup();
    const stock = await ask('stocks.add', { name: 'Grey 100', iso: 100, process: 'bw' });
    const rollId = await addRoll('G');
    const bath = await ask('baths.add', { name: 'Fixer', kind: 'fixer', process: 'bw', mixed: '2026-04-01' });
    await ask('baths.test', {
      id: bath.id,
      stockId: stock.id,
      seconds: 45,
      fresh: true,
      at: '2026-04-01T10:00:00Z',
    });
    const record = { rollIds: [rollId], process: 'bw', date: '2026-04-20', bathIds: [bath.id] } as const;
    await ask('developments.record', { ...record, rollIds: [rollId], bathIds: [bath.id] });
    openAt('#/development');
    await user.click(await screen.findByRole('button', { name: 'Open Fixer' }));
    const slip = within(await screen.findByRole('dialog', { name: 'Fixer' }));
    await user.click(slip.getByRole('combobox', { name: /^Scrap of/ }));
    await user.click(await screen.findByRole('option', { name: 'Grey 100' }));
    // Field log R48: fresh 0:45, today 1:35; NAVEDTRA 14209: spent at twice.
    await user.type(slip.getByRole('textbox', { name: 'Cleared in' }), '1:35');
    await user.click(slip.getByRole('button', { name: 'Note the test' }));
    expect(
      await slip.findByText(/Grey 100 cleared in 1:35 against 0:45 fresh: the fixer is spent/),
    ).toBeDefined();
    expect(slip.getByRole('link', { name: 'G' })).toBeDefined();
    expect(slip.getAllByText(/spent by its clearing test/)).toHaveLength(1);
  });

  it('keeps its numbers when only its note is corrected', async () => {
    const user = userEvent.setup();
    const capacityCm2 = 1000;
    const { id } = await ask('baths.add', { name: 'May', kind: 'developer', process: 'c41', capacityCm2 });
    openAt('#/development');
    await user.click(await screen.findByRole('button', { name: 'Open May' }));
    await user.click(await screen.findByRole('button', { name: 'Correct what is known' }));
    const slip = within(await screen.findByRole('dialog', { name: 'Correct May' }));
    await user.type(slip.getByRole('textbox', { name: 'Note' }), 'brown bottle');
    await user.click(slip.getByRole('button', { name: 'Save' }));
    expect(await screen.findByText('brown bottle')).toBeDefined();
    expect((await ask('baths.get', { id })).bath).toMatchObject({ capacityCm2, note: 'brown bottle' });
  });
});

describe('a plan', () => {
  it('asks about 378 and takes what was meant by a press', async () => {
    const user = userEvent.setup();
    const rollId = await addRoll('A');
    openAt(`#/development/plan?rolls=${rollId}&temperature=378`);
    await user.click(await screen.findByRole('button', { name: 'Take 37.8 °C' }));
    expect(await screen.findByText('C-41 as published: A')).toBeDefined();
  });

  it('refuses rolls of different push and takes one group instead', async () => {
    const user = userEvent.setup();
    await addRoll('A');
    await addRoll('B', 1);
    openAt('#/development/plan');
    await user.click(await screen.findByRole('checkbox', { name: /^A/ }));
    await user.click(screen.getByRole('checkbox', { name: /^B/ }));
    expect(
      await screen.findByText('The rolls want different developments: no shift and +1 stop.'),
    ).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Take only B' }));
    // Facts 4.2: push 1 = 3:45.
    expect(await screen.findByText('C-41 as published: B')).toBeDefined();
    expect(screen.getAllByText('3:45').length).toBeGreaterThan(0);
  });

  it('has nothing that bars a reader of screens', async () => {
    await addRoll('A');
    const { container } = openAt('#/development/plan');
    await screen.findByRole('checkbox', { name: /^A/ });
    expect(await findAxeViolations(container)).toEqual([]);
  });
});

describe('the run sheet', () => {
  it('shows the cautions once in a session', async () => {
    const user = userEvent.setup();
    const rollIds = [await addRoll('A')];
    const first = await ask('developments.start', { rollIds, process: 'c41' });
    const shown = openAt(`#/development/${first.id}/run`);
    expect(await screen.findByText(/Colour developer can make you allergic for life/)).toBeDefined();
    await user.click(screen.getByRole('button', { name: /^Read/ }));
    expect(await screen.findByRole('heading', { name: 'Ready?' })).toBeDefined();
    shown.unmount();
    openAt(`#/development/${first.id}/run`);
    expect(await screen.findByRole('heading', { name: 'Ready?' })).toBeDefined();
    expect(screen.queryByText(/Colour developer can make you allergic/)).toBeNull();
  });

  it('forbids the first pour of a spoilt bath', async () => {
    const user = userEvent.setup();
    const rollIds = [await addRoll('A')];
    const bath = await ask('baths.add', { name: 'May', kind: 'developer', process: 'c41' });
    const run = await ask('developments.start', { rollIds, process: 'c41', bathIds: [bath.id] });
    await ask('baths.spoil', { id: bath.id });
    openAt(`#/development/${run.id}/run`);
    await user.click(await screen.findByRole('button', { name: /^Read/ }));
    expect(await screen.findByText('“May” is spoilt.')).toBeDefined();
    expect(screen.queryByRole('button', { name: /^Pour in/ })).toBeNull();
  });

  it('pours with the space bar, and asks before it stops', async () => {
    const user = userEvent.setup();
    const rollIds = [await addRoll('A')];
    const run = await ask('developments.start', { rollIds, process: 'c41' });
    openAt(`#/development/${run.id}/run`);
    await screen.findByRole('heading', { name: 'Before you pour' });
    await user.keyboard(' ');
    await screen.findByRole('heading', { name: 'Ready?' });
    await user.keyboard(' ');
    expect(await screen.findByRole('timer', { name: 'Elapsed' })).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Stop the run' }));
    await user.click(within(screen.getByRole('dialog')).getByRole('button', { name: 'Stop the run' }));
    expect(await screen.findByRole('heading', { name: 'The run was stopped' })).toBeDefined();
    expect((await ask('developments.get', { id: run.id })).events.map((event) => event.kind)).toEqual([
      'step_started',
      'run_aborted',
    ]);
  });
});

describe('the log', () => {
  it('shows every frame of its rolls, each leading to itself', async () => {
    const rollId = await addRoll('A');
    await ask('frames.add', { rollId, labels: ['1', '2', '2A'] });
    const { id } = await ask('developments.record', {
      rollIds: [rollId],
      process: 'c41',
      date: '2026-04-20',
    });
    openAt(`#/development/${id}`);
    const roll = within(await screen.findByRole('region', { name: 'Frames of A' }));
    expect(await roll.findAllByRole('link', { name: /^Frame/ })).toHaveLength(3);
    const [frame] = await ask('frames.ofRoll', { rollId });
    expect(roll.getByRole('link', { name: /^Frame 1,/ }).getAttribute('href')).toBe(
      `#/rolls/${rollId}?frame=${frame?.id}`,
    );
  });

  it('keeps a reading that was corrected beside what it was corrected to', async () => {
    const user = userEvent.setup();
    const rollIds = [await addRoll('A')];
    const run = await ask('developments.start', { rollIds, process: 'c41' });
    const note = (event: Given<'developments.note'>['event'], seconds: number) =>
      ask('developments.note', {
        id: run.id,
        event,
        atMs: Date.parse('2026-05-02T10:00:00Z') + seconds * 1000,
      });
    await note({ kind: 'step_started', step: 0 }, 0);
    await note({ kind: 'temperature_read', celsius: 36.9 }, 60);
    await note({ kind: 'run_finished' }, 195);
    await ask('developments.finish', { id: run.id });
    openAt(`#/development/${run.id}`);
    await user.click(await screen.findByRole('button', { name: 'Correct 36.9 °C' }));
    const slip = within(await screen.findByRole('dialog'));
    await user.type(slip.getByRole('textbox', { name: 'It was, °C' }), '379');
    await user.click(slip.getByRole('button', { name: 'Correct it' }));
    expect(await slip.findByText(/Is 37.9 °C meant/)).toBeDefined();
    await user.clear(slip.getByRole('textbox', { name: 'It was, °C' }));
    await user.type(slip.getByRole('textbox', { name: 'It was, °C' }), '37.9');
    await user.click(slip.getByRole('button', { name: 'Correct it' }));
    expect(await screen.findByText('to 37.9 °C')).toBeDefined();
    expect(await screen.findByText(/developer, mean: 36.9 °C, now 37.9 °C/)).toBeDefined();
    expect(screen.getByText('36.9 °C')).toBeDefined();
  });

  it('names the bath that was spoilt before it was used', async () => {
    const rollIds = [await addRoll('A')];
    const bath = await ask('baths.add', { name: 'May', kind: 'developer', process: 'c41' });
    const { id } = await ask('developments.record', {
      rollIds,
      process: 'c41',
      date: '2026-04-20',
      bathIds: [bath.id],
    });
    await ask('baths.spoil', { id: bath.id, at: '2026-04-10T12:00:00Z' });
    openAt(`#/development/${id}`);
    expect(await screen.findByText(/“May” had ended on 2026-04-10, before it was used here/)).toBeDefined();
  });
});
