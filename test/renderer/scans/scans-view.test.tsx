// @vitest-environment jsdom
import { screen, waitFor, within } from '@testing-library/react';
import { userEvent, type UserEvent } from '@testing-library/user-event';
import { execFileSync } from 'node:child_process';
import { truncateSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { ScansView } from '../../../renderer/scans/scans-view.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView, type ShownView } from '../../support/show-view.tsx';
import { tempFolder } from '../../support/temp-folder.ts';

const support = join(dirname(fileURLToPath(import.meta.url)), '../../support');

/** A folder of scans. Made by a process of its own: the image library does not know the bytes of a page in jsdom. */
function makeFolder(names: readonly string[]): string {
  const folder = join(tempFolder(), 'scans');
  const program = `import { makeScanFolder } from ${JSON.stringify(join(support, 'scan-folder.ts'))};
    await makeScanFolder(${JSON.stringify(folder)}, ${JSON.stringify(names)});`;
  execFileSync(process.execPath, ['--input-type=module', '-e', program]);
  return folder;
}

async function oneRoll({ ask }: Pick<ShownView, 'ask'>): Promise<string> {
  const { id } = await ask('rolls.add', {
    number: '2024-031',
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: 36,
    state: 'developed',
  });
  return `#/scans?roll=${id}`;
}

async function read(user: UserEvent, folder: string): Promise<void> {
  await user.type(await screen.findByRole('textbox', { name: 'Folder with the scans' }), folder);
  await user.click(screen.getByRole('button', { name: 'Read the folder' }));
}

const frame = (label: string, rest = '') =>
  screen.findByRole('gridcell', { name: new RegExp(`^Frame ${label},? ?${rest}`) });

async function labelsOf({ ask }: ShownView): Promise<readonly string[]> {
  const roll = await ask('rolls.byNumber', { number: '2024-031' });
  const frames = await ask('frames.ofRoll', { rollId: roll.id });
  return frames.filter(({ versions }) => versions.length > 0).map(({ label }) => label);
}

describe('scans in', () => {
  it('shows which scan becomes which frame, and records nothing by itself', async () => {
    const user = userEvent.setup();
    const archive = await showView(ScansView, oneRoll);
    await read(user, makeFolder(['frame_01.jpg', 'frame_03.jpg']));
    await frame('1', 'frame_01.jpg, sure');
    // Film runs on between two frames: 2 is there without a scan.
    await frame('2', 'no scan');
    expect(await labelsOf(archive)).toEqual([]);
  });

  it('has roles and names that screen readers can use', async () => {
    const user = userEvent.setup();
    await showView(ScansView, oneRoll);
    await read(user, makeFolder(['frame_01.jpg']));
    await frame('1', 'frame_01.jpg, sure');
    expect(await findAxeViolations(document.body)).toEqual([]);
  });

  it('records when told to, says so, and takes it back', async () => {
    const user = userEvent.setup();
    const archive = await showView(ScansView, oneRoll);
    await read(user, makeFolder(['frame_01.jpg', 'frame_03.jpg']));
    await user.click(await screen.findByRole('button', { name: /^Record 2 scans on 2024-031/ }));
    await screen.findByRole('heading', { name: 'Recorded: 2 scans are tied to frames of 2024-031' });
    expect(await labelsOf(archive)).toEqual(['1', '3']);
    await user.click(await screen.findByRole('button', { name: /^Undo: Tie 2 scans/ }));
    await screen.findByRole('button', { name: /^Record 2 scans/ });
    expect(await labelsOf(archive)).toEqual([]);
  });

  it('puts right by hand before anything is recorded: moved, skipped, taken back', async () => {
    const user = userEvent.setup();
    const archive = await showView(ScansView, oneRoll);
    await read(user, makeFolder(['frame_01.jpg', 'frame_02.jpg', 'frame_03.jpg']));
    await user.click(await screen.findByRole('button', { name: /^All one on/ }));
    (await frame('2', 'frame_01.jpg, by hand')).focus();
    await user.keyboard('{Delete}');
    // 2 3 4, then without the first and the rest moved up: 2 3.
    await frame('3', 'frame_03.jpg, by hand');
    await screen.findByRole('button', { name: /^Record 2 scans/ });
    await user.click(screen.getByRole('button', { name: 'Take the last one back' }));
    await user.click(await screen.findByRole('button', { name: /^Record 3 scans/ }));
    await screen.findByRole('heading', { name: /^Recorded: 3 scans/ });
    expect(await labelsOf(archive)).toEqual(['2', '3', '4']);
  });

  it('lists damaged and waiting files with their reason, and what is no scan apart from them', async () => {
    const user = userEvent.setup();
    await showView(ScansView, oneRoll);
    const folder = makeFolder(['frame_01.jpg', 'frame_02.jpg', 'frame_03.jpg']);
    truncateSync(join(folder, 'frame_02.jpg'), 900);
    utimesSync(join(folder, 'frame_02.jpg'), new Date('2020-01-01'), new Date('2020-01-01'));
    truncateSync(join(folder, 'frame_03.jpg'), 900);
    writeFileSync(join(folder, 'Thumbs.db'), 'x');
    await read(user, folder);
    const unusable = await screen.findByRole('region', { name: '1 file that cannot be used' });
    expect(within(unusable).getByText('frame_02.jpg')).toBeDefined();
    const waiting = screen.getByRole('region', { name: '1 file still being written' });
    expect(within(waiting).getByText('frame_03.jpg')).toBeDefined();
    expect(within(waiting).getByRole('button', { name: 'Look again' })).toBeDefined();
    expect(screen.getByText('1 other file in the folder, no scans').closest('details')?.open).toBe(false);
  });

  it('says beside the field that there is no such folder', async () => {
    const user = userEvent.setup();
    await showView(ScansView, oneRoll);
    await read(user, join(tempFolder(), 'not there'));
    const field = screen.getByRole('textbox', { name: 'Folder with the scans' });
    await waitFor(() => expect(field.getAttribute('aria-invalid')).toBe('true'));
  });
});
