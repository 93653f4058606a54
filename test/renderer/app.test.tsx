// @vitest-environment jsdom
import { cleanup, configure, render, screen, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { giveLayout } from '../support/page-layout.ts';
import { setWindowStage, type WindowStage } from '../support/window.tsx';

// The engine is a process that has to start first.
configure({ asyncUtilTimeout: 15_000 });

let stage: WindowStage;
let close: (() => void)[] = [];

beforeAll(() => {
  giveLayout({ width: 1440, height: 900 });
  stage = setWindowStage();
});
beforeEach(() => {
  window.history.replaceState(null, '', '/');
  window.localStorage.clear();
});
afterEach(async () => {
  cleanup();
  for (const end of close) end();
  close = [];
  await stage.engine.call('archive.close', {});
});
afterAll(async () => {
  await stage.close();
  if (stage.bugs.length > 0) throw new Error(`There were bugs: ${stage.bugs.map(String).join('; ')}`);
});

function open() {
  const root = stage.openWindow();
  close.push(root.close);
  const shown = render(root.element);
  return { ...root, ...within(shown.container) };
}

let archives = 0;
async function openArchive(): Promise<void> {
  archives += 1;
  await stage.engine.call('archive.create', { folder: join(stage.folder, `archive ${archives}`) });
}

describe('first start', () => {
  it('makes an archive of the user’s own', async () => {
    const user = userEvent.setup();
    open();
    const field = await screen.findByRole('textbox', { name: 'Folder' });
    await user.clear(field);
    await user.type(field, join(stage.folder, 'mine'));
    await user.click(screen.getByRole('button', { name: 'Start my own' }));
    expect(await screen.findByText('0 rolls, all saved')).toBeDefined();
  });

  it('says what did not happen when there is no archive in the folder', async () => {
    const user = userEvent.setup();
    open();
    await screen.findByRole('textbox', { name: 'Folder' });
    await user.click(screen.getByRole('button', { name: 'Open the archive in this folder' }));
    expect((await screen.findByRole('alert')).textContent).toContain('The archive was not opened');
  });

  it('offers the archives of before, and takes one off the list', async () => {
    const user = userEvent.setup();
    await openArchive();
    await stage.engine.call('archive.close', {});
    open();
    const list = await screen.findByRole('list', { name: 'Archives of before' });
    const name = `archive ${archives}`;
    await user.click(within(list).getByRole('button', { name: `Take ${name} off the list` }));
    await expect.poll(() => screen.queryByText(name)).toBeNull();
  });
});

describe('the window on an archive', () => {
  it('shows in one window what was changed in another', async () => {
    await openArchive();
    const first = open();
    const second = open();
    await first.findByText('0 rolls, all saved');
    await second.findByText('0 rolls, all saved');
    await stage.engine.call('rolls.add', { filmFormat: '135', frameFormat: '24x36' });
    expect(await first.findByText('1 roll, all saved')).toBeDefined();
    expect(await second.findByText('1 roll, all saved')).toBeDefined();
  });

  it('takes a change back by its keys, unless text is being written', async () => {
    const user = userEvent.setup();
    await openArchive();
    open();
    await screen.findByText('0 rolls, all saved');
    await stage.engine.call('rolls.add', { filmFormat: '135', frameFormat: '24x36' });
    await screen.findByText('1 roll, all saved');
    await user.keyboard('{Control>}z{/Control}');
    await screen.findByText('0 rolls, all saved');
    await user.keyboard('{Control>}{Shift>}z{/Shift}{/Control}');
    await screen.findByText('1 roll, all saved');
    const field = document.createElement('input');
    document.body.append(field);
    field.focus();
    await user.keyboard('{Control>}z{/Control}');
    await stage.engine.call('archive.state', {});
    expect(screen.getByText('1 roll, all saved')).toBeDefined();
    field.remove();
  });

  it('says that its host has ended, in place of everything', async () => {
    await openArchive();
    const { stopEngine } = open();
    await screen.findByText('0 rolls, all saved');
    stopEngine();
    expect((await screen.findByRole('main', { name: 'Edgeprint has ended' })).textContent).toContain(
      'What was saved is saved',
    );
  });
});
