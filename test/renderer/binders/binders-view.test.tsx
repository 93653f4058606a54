// @vitest-environment jsdom
import { screen, waitFor, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { describe, expect, it } from 'vitest';
import { findAxeViolations } from '../../support/axe.ts';
import { addRoll, showBinders, type Archive } from './show-view.tsx';

/** A binder with one page of a roll of 12 frames, in two strips of 6. */
async function oneBinder(archive: Archive): Promise<number> {
  const rollId = await addRoll(archive, '2026-001', 12);
  await archive.ask('filing.file', { rollId, binder: '9', page: null, layoutId: '35mm-7x6', cut: null });
  return rollId;
}

const frame = (label: string) => screen.findByRole('gridcell', { name: new RegExp(`^Frame ${label}\\b`) });
const live = () => document.querySelector('[aria-live="assertive"]')?.textContent ?? '';

/** Where the strips of the only page lie, by their first frame. */
async function rowsOf({ ask }: Archive): Promise<Record<string, number>> {
  const [binder] = await ask('binders.list', {});
  const pages = await ask('pages.ofBinder', { binderId: binder?.id ?? 0 });
  return Object.fromEntries(
    pages.flatMap((page) => page.strips.map((strip) => [strip.frames[0]?.label ?? '', strip.row])),
  );
}

describe('binders', () => {
  it('says what goes there when the shelf is empty, and puts the first binder on it', async () => {
    const user = userEvent.setup();
    const archive = await showBinders(async () => {});
    await user.click(await screen.findByRole('button', { name: 'Put the first binder on the shelf' }));
    await user.type(screen.getByRole('textbox', { name: 'Name' }), '12{Enter}');
    await screen.findByRole('heading', { name: 'Binder 12' });
    expect((await archive.ask('binders.list', {})).map(({ name }) => name)).toEqual(['12']);
    expect(screen.getByText(/^No page hangs here yet/)).toBeDefined();
  });

  it('says beside the field that a name is taken, and keeps what was typed', async () => {
    const user = userEvent.setup();
    await showBinders(async ({ ask }) => {
      await ask('binders.add', { name: '12' });
    });
    await user.click(await screen.findByRole('button', { name: 'New binder' }));
    const field = screen.getByRole('textbox', { name: 'Name' });
    await user.type(field, '12{Enter}');
    expect((await screen.findByRole('alert')).textContent).toContain(
      'There is a binder called “12” already.',
    );
    expect(field).toHaveProperty('value', '12');
  });

  it('shows the page with its strips, the room that is left, and a card of the roll', async () => {
    await showBinders(async (archive) => void (await oneBinder(archive)));
    await frame('12');
    const rows = screen.getAllByRole('row', { name: /^Row \d/ }).map((row) => row.getAttribute('aria-label'));
    expect(rows.slice(0, 3)).toEqual([
      'Row 1: Roll 2026-001, frames 1 to 6',
      'Row 2: Roll 2026-001, frames 7 to 12',
      'Row 3: empty',
    ]);
    const card = screen.getByRole('article', { name: 'Roll 2026-001' });
    expect(within(card).getByText('rows 1 and 2')).toBeDefined();
    expect(screen.getByText(/First free pocket: page 1, row 3/)).toBeDefined();
  });

  it('moves a strip by keyboard, and says where it is', async () => {
    const user = userEvent.setup();
    const archive = await showBinders(async (made) => void (await oneBinder(made)));
    await user.click(await frame('8'));
    await user.keyboard('m');
    expect(live()).toContain('Roll 2026-001, frames 7 to 12 taken up');
    await user.keyboard('{ArrowDown}{ArrowDown}');
    expect(live()).toBe('Page 1, row 4, free.');
    // Nothing has moved yet.
    expect(await rowsOf(archive)).toEqual({ '1': 1, '7': 2 });
    await user.keyboard('{Enter}');
    await waitFor(() => expect(live()).toBe('Roll 2026-001, frames 7 to 12 now in page 1, row 4.'));
    expect(await rowsOf(archive)).toEqual({ '1': 1, '7': 4 });
    await screen.findByRole('row', { name: 'Row 4: Roll 2026-001, frames 7 to 12' });
    await waitFor(async () => expect(document.activeElement).toBe(await frame('7')));
  });

  it('does not put a strip down where film lies', async () => {
    const user = userEvent.setup();
    const archive = await showBinders(async (made) => void (await oneBinder(made)));
    await user.click(await frame('8'));
    await user.keyboard('m{ArrowUp}');
    expect(live()).toBe('Page 1, row 1, taken by roll 2026-001.');
    await user.keyboard('{Enter}');
    expect(live()).toContain('It does not go there: taken by roll 2026-001');
    await user.keyboard('{Escape}');
    expect(live()).toBe('Left where it was.');
    expect(await rowsOf(archive)).toEqual({ '1': 1, '7': 2 });
  });

  it('draws the proposal, and files when asked', async () => {
    const user = userEvent.setup();
    const archive = await showBinders(async (made) => {
      await oneBinder(made);
      await addRoll(made, '2026-002', 20);
    });
    await user.click(await screen.findByRole('button', { name: 'File it: roll 2026-002' }));
    const slip = await screen.findByRole('dialog', { name: 'Put roll 2026-002 away' });
    await within(slip).findByText('The whole roll goes in.');
    // 20 frames in pockets of 6: 6 6 6 2, on the next free page.
    const drawn = within(slip).getByRole('group', { name: 'Page 2 as proposed' });
    const names = within(drawn)
      .getAllByRole('group')
      .map((row) => row.getAttribute('aria-label'));
    expect(names.slice(0, 5)).toEqual([
      'Row 1: Roll 2026-002, frames 1 to 6',
      'Row 2: Roll 2026-002, frames 7 to 12',
      'Row 3: Roll 2026-002, frames 13 to 18',
      'Row 4: Roll 2026-002, frames 19 to 20',
      'Row 5: empty',
    ]);
    await user.click(within(slip).getByRole('button', { name: 'File 20 frames' }));
    await waitFor(() => expect(screen.queryByRole('dialog')).toBeNull());
    await screen.findByRole('heading', { name: 'Page 2', level: 2 });
    const roll = await archive.ask('rolls.byNumber', { number: '2026-002' });
    expect([roll.state, roll.pages.map(({ page }) => page)]).toEqual(['filed', [2]]);
  });

  it('says what does not go in, and leaves the roll where it was', async () => {
    const user = userEvent.setup();
    const archive = await showBinders(async (made) => {
      await oneBinder(made);
      await addRoll(made, '2026-002', 20);
    });
    await user.click(await screen.findByRole('button', { name: 'File it: roll 2026-002' }));
    const slip = await screen.findByRole('dialog');
    await within(slip).findByText('The whole roll goes in.');
    await user.type(within(slip).getByRole('textbox', { name: 'Cut' }), '7 7 6');
    // Seven frames of 38 mm are 266 mm; the pocket holds 6 × 38 + 4 = 232 mm.
    await within(slip).findByText(/Strip 1 \(7 frames\) is 34 mm longer than the pocket/);
    await user.keyboard('{Enter}');
    const roll = await archive.ask('rolls.byNumber', { number: '2026-002' });
    expect(roll.state).toBe('developed');
  });

  it('takes a roll out, and has it wait again', async () => {
    const user = userEvent.setup();
    await showBinders(async (made) => void (await oneBinder(made)));
    await user.click(await screen.findByRole('button', { name: 'Take it out: roll 2026-001' }));
    await screen.findByRole('button', { name: 'File it: roll 2026-001' });
    await waitFor(() => expect(screen.getAllByText('Room for 6 frames')).toHaveLength(7));
  });

  it('warns of PVC before it is written down, and keeps it written', async () => {
    const user = userEvent.setup();
    const archive = await showBinders(async (made) => void (await oneBinder(made)));
    await user.click(await screen.findByRole('button', { name: 'Change page 1' }));
    await user.click(screen.getByRole('combobox', { name: /Material/ }));
    await user.click(screen.getByRole('option', { name: 'PVC' }));
    expect(screen.getByRole('alert').textContent).toContain('Wilhelm');
    await user.click(screen.getByRole('button', { name: 'Write it down' }));
    await screen.findByText('PVC: not for film');
    const [binder] = await archive.ask('binders.list', {});
    const [page] = await archive.ask('pages.ofBinder', { binderId: binder?.id ?? 0 });
    expect(page?.material).toBe('PVC');
  });

  it('gives axe nothing to find', async () => {
    await showBinders(async (made) => {
      await oneBinder(made);
      await addRoll(made, '2026-002', 20);
    });
    await frame('12');
    await screen.findByRole('button', { name: 'File it: roll 2026-002' });
    expect(await findAxeViolations(document.body)).toEqual([]);
  });
});
