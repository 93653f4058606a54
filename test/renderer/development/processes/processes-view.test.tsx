// @vitest-environment jsdom
import { cleanup, configure, render, screen, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { CONTRACT } from '../../../../shared/api/contract.ts';
import { findAxeViolations } from '../../../support/axe.ts';
import { giveLayout } from '../../../support/page-layout.ts';
import { setWindowStage, type WindowStage } from '../../../support/window.tsx';

// The engine is a process that has to start first.
configure({ asyncUtilTimeout: 20_000 });

let stage: WindowStage;
let close: (() => void)[] = [];

beforeAll(async () => {
  giveLayout({ width: 1440, height: 900 });
  stage = setWindowStage();
  await stage.engine.call('archive.create', { folder: join(stage.folder, 'archive') });
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

function openAt(hash: string) {
  window.history.replaceState(null, '', `/${hash}`);
  const root = stage.openWindow();
  close.push(root.close);
  return render(root.element);
}

async function ownProcesses() {
  const list = CONTRACT['processes.list'].output.parse(await stage.engine.call('processes.list', {}));
  return list.filter(({ id }) => id !== null);
}

async function retype(field: HTMLElement, text: string): Promise<void> {
  const user = userEvent.setup();
  await user.clear(field);
  await user.type(field, text);
}

it('copies a shipped process, edits the copy and removes it', async () => {
  const user = userEvent.setup();
  openAt('#/development/processes/c41-two-bath');
  expect(await screen.findByRole('heading', { name: 'C-41 in two baths' })).toBeDefined();
  // A shipped one can be copied only.
  expect(screen.queryByRole('button', { name: 'Remove' })).toBeNull();
  await user.click(screen.getByRole('button', { name: 'Copy and edit' }));
  await retype(await screen.findByRole('textbox', { name: 'Name' }), 'My kit');
  await retype(screen.getByRole('textbox', { name: 'Source' }), 'leaflet');
  const developer = within(screen.getByRole('group', { name: 'Developer' }));
  await retype(developer.getByRole('textbox', { name: 'Time' }), '3:30');
  await retype(developer.getByRole('textbox', { name: 'Meant, °C' }), '378');
  expect(await developer.findByText(/Is 37.8 °C meant/)).toBeDefined();
  expect(screen.getByRole('button', { name: 'Save the process' }).getAttribute('aria-disabled')).toBe('true');
  await retype(developer.getByRole('textbox', { name: 'Meant, °C' }), '37.8');
  await retype(developer.getByRole('textbox', { name: 'Push table' }), '1=0:40');
  await user.click(screen.getByRole('button', { name: 'Save the process' }));
  expect(await screen.findByRole('heading', { name: 'My kit' })).toBeDefined();
  expect(screen.getAllByText('Your own: leaflet').length).toBeGreaterThan(0);
  const [kept] = await ownProcesses();
  expect(kept).toMatchObject({ name: 'My kit', kind: 'c41', copiedFrom: 'c41-two-bath' });

  await user.click(screen.getByRole('button', { name: 'Edit' }));
  await user.click(await screen.findByRole('button', { name: 'Leave it out: Pre-soak' }));
  await user.click(screen.getByRole('button', { name: 'Save the process' }));
  expect(await screen.findByText('C-41, 4 steps, yours')).toBeDefined();

  await user.click(screen.getByRole('button', { name: 'Remove' }));
  await user.click(await screen.findByRole('button', { name: 'Remove the process' }));
  expect(await screen.findByText(/None yet: copy one/)).toBeDefined();
  expect(await ownProcesses()).toEqual([]);
});

it('tells why a process cannot be kept', async () => {
  const user = userEvent.setup();
  openAt('#/development/processes/c41-as-published?edit=1');
  await retype(await screen.findByRole('textbox', { name: 'Name' }), 'Upside down');
  const developer = within(screen.getByRole('group', { name: 'Developer' }));
  await retype(developer.getByRole('textbox', { name: 'Lowest, °C' }), '39');
  await user.click(screen.getByRole('button', { name: 'Save the process' }));
  expect(await screen.findByText(/The lowest temperature lies above the highest/)).toBeDefined();
  expect(await ownProcesses()).toEqual([]);
});

it('has nothing that bars a reader of screens', async () => {
  const { container } = openAt('#/development/processes/e6?edit=1');
  await screen.findByRole('heading', { name: 'A copy of E-6' });
  expect(await findAxeViolations(container)).toEqual([]);
});
