// @vitest-environment jsdom
import { screen, waitFor, within } from '@testing-library/react';
import { userEvent, type UserEvent } from '@testing-library/user-event';
import { describe, expect, it } from 'vitest';
import { RollView } from '../../../renderer/roll/roll-view.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView, type ShownView } from '../../support/show-view.tsx';

type Prepared = Pick<ShownView, 'ask'>;

/** A developed roll of 12 frames, filed as two strips of 6. Gives its id. */
async function filedRoll({ ask }: Prepared): Promise<number> {
  const { id } = await ask('rolls.add', {
    number: '2026-001',
    title: 'A walk',
    filmFormat: '135',
    frameFormat: '24x36',
    exposures: 12,
    state: 'developed',
  });
  const labels = Array.from({ length: 12 }, (_, index) => String(index + 1));
  await ask('frames.add', { rollId: id, labels });
  await ask('filing.file', { rollId: id, binder: '9', page: null, layoutId: '35mm-7x6', cut: null });
  return id;
}

async function showRoll(
  before: (archive: Prepared, rollId: number, ids: readonly number[]) => Promise<void> = async () => {},
): Promise<ShownView & { readonly rollId: number; readonly ids: readonly number[] }> {
  let rollId = 0;
  let ids: readonly number[] = [];
  const shown = await showView(RollView, async (archive) => {
    rollId = await filedRoll(archive);
    ids = (await archive.ask('frames.ofRoll', { rollId })).map((frame) => frame.id);
    await before(archive, rollId, ids);
    return `#/rolls/${rollId}`;
  });
  await frame('12');
  return { ...shown, rollId, ids };
}

const frame = (label: string) => screen.findByRole('gridcell', { name: new RegExp(`^Frame ${label}\\b`) });
const slip = () => screen.getByRole('region', { name: /^Slip for/ });
const field = (name: string) => within(slip()).getByRole('textbox', { name });

/** Picks a run of frames as the keyboard does it. */
async function pickRun(user: UserEvent, from: string, steps: number): Promise<void> {
  await user.click(await frame(from));
  await user.keyboard('{Shift>}' + '{ArrowRight}'.repeat(steps) + '{/Shift}');
}

async function captions({
  ask,
  rollId,
}: ShownView & { readonly rollId: number }): Promise<(string | null)[]> {
  return (await ask('frames.ofRoll', { rollId })).map(({ caption }) => caption);
}

describe('roll', () => {
  it('shows the roll as it lies in its page, with a line of notes for each frame', async () => {
    await showRoll(async ({ ask }, _rollId, ids) => {
      await ask('frames.change', {
        ids: [ids[2] ?? 0],
        change: { caption: 'Head of the water', shutter: '1/125', aperture: 8 },
      });
    });
    expect(screen.getByRole('grid', { name: 'Binder 9, page 1' })).toBeDefined();
    expect(screen.getByRole('row', { name: 'Row 2: Roll 2026-001, frames 7 to 12' })).toBeDefined();
    const notes = screen.getByRole('table', { name: 'Notes of Binder 9, page 1' });
    const line = within(notes).getByText('Head of the water').closest('[role=row]');
    expect([...(line?.children ?? [])].map((cell) => cell.textContent)).toEqual([
      '3',
      '1/125 f/8',
      'Head of the water',
      '–',
    ]);
  });

  it('says that there is no such roll', async () => {
    await showView(RollView, async () => '#/rolls/77');
    expect((await screen.findByRole('alert')).textContent).toContain('There is no such roll');
  });

  it('writes to all the frames of a run in one call', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await pickRun(user, '3', 4);
    expect(within(slip()).getByRole('heading').textContent).toContain('Frames 3–7');
    await user.keyboard('w');
    await user.keyboard('Lambs by the wall');
    await user.type(field('Date'), 'summer 1998');
    await user.type(field('Aperture'), 'f/5,6');
    await user.keyboard('{Control>}{Enter}{/Control}');
    await within(slip()).findByText(/Written to 5 frames/);
    expect(shown.callsOf('frames.change')).toEqual([
      {
        ids: shown.ids.slice(2, 7),
        change: { caption: 'Lambs by the wall', taken: 'summer 1998', aperture: 5.6 },
      },
    ]);
    const frames = await shown.ask('frames.ofRoll', { rollId: shown.rollId });
    // EDTF, ISO 8601-2, 4.8: 22 is summer.
    expect(frames.map(({ taken }) => taken?.edtf ?? null).slice(1, 8)).toEqual([
      null,
      ...Array.from({ length: 5 }, () => '1998-22'),
      null,
    ]);
  });

  it('fills gaps where frames differ, unless told to replace', async () => {
    const user = userEvent.setup();
    const shown = await showRoll(async ({ ask }, _rollId, ids) => {
      await ask('frames.change', { ids: [ids[0] ?? 0], change: { caption: 'Leader' } });
    });
    await pickRun(user, '1', 2);
    await user.type(field('Caption'), 'Quay');
    expect(slip().textContent).toContain('goes to 2, 3; the other 1 keep theirs');
    await user.keyboard('{Control>}{Enter}{/Control}');
    await within(slip()).findByText(/Written to 2 frames/);
    expect((await captions(shown)).slice(0, 4)).toEqual(['Leader', 'Quay', 'Quay', null]);

    await user.type(field('Caption'), 'All');
    await user.click(within(slip()).getByRole('radio', { name: 'replace' }));
    await user.keyboard('{Control>}{Enter}{/Control}');
    await within(slip()).findByText(/Written to 3 frames/);
    expect((await captions(shown)).slice(0, 4)).toEqual(['All', 'All', 'All', null]);
  });

  it('says beside the field why a date cannot be read, and writes nothing', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await user.click(await frame('1'));
    await user.type(field('Date'), '7.12.1998');
    const date = field('Date');
    expect(date.getAttribute('aria-invalid')).toBe('true');
    const words = document.getElementById(date.getAttribute('aria-describedby') ?? '')?.textContent;
    expect(words).toBe('Which is the day and which the month? Write 1998-12-07.');
    await user.keyboard('{Control>}{Enter}{/Control}');
    expect(shown.callsOf('frames.change')).toEqual([]);
  });

  it('draws and rubs out a mark by its key, on all frames that are picked', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await pickRun(user, '5', 1);
    await user.keyboard('b');
    await screen.findByRole('gridcell', { name: /^Frame 5, marked print this/ });
    expect(shown.callsOf('frames.mark')).toEqual([
      {
        ids: shown.ids.slice(4, 6),
        mark: { kind: 'box', x: null, y: null, width: null, height: null },
        on: true,
      },
    ]);
    const button = within(slip()).getByRole('button', { name: 'Print this: a box' });
    expect(button.getAttribute('aria-pressed')).toBe('true');
    await user.click(button);
    await waitFor(() => expect(button.getAttribute('aria-pressed')).toBe('false'));
    expect(screen.queryByRole('gridcell', { name: /marked/ })).toBeNull();
  });

  it('takes back what was written, in words beside it', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await user.click(await frame('1'));
    await user.type(field('Place'), 'Torrow{Control>}{Enter}{/Control}');
    await user.click(await within(slip()).findByRole('button', { name: 'Undo this' }));
    await waitFor(async () =>
      expect((await shown.ask('frames.get', { id: shown.ids[0] ?? 0 })).place).toBeNull(),
    );
    await waitFor(() => expect(screen.queryByRole('button', { name: 'Undo this' })).toBeNull());
  });

  it('shows a frame large, walks to its neighbours, and draws crop lines there by keyboard', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await user.click(await frame('4'));
    await user.keyboard('{Enter}');
    const dialog = await screen.findByRole('dialog', { name: 'Frame 4 of 2026-001' });
    await user.keyboard('{ArrowRight}');
    await screen.findByRole('dialog', { name: 'Frame 5 of 2026-001' });
    await user.keyboard('c{ArrowRight}{Enter}');
    await within(dialog).findByText(/Drew crop lines on frame 5/);
    const marks = (await shown.ask('frames.get', { id: shown.ids[4] ?? 0 })).marks;
    // It begins at 0.1 with four fifths of the picture; one step to the right is a hundredth.
    expect(marks).toEqual([{ kind: 'crop', x: 0.11, y: 0.1, width: 0.8, height: 0.8 }]);
    expect(await findAxeViolations(dialog)).toEqual([]);
  });

  it('turns what is picked without touching a scan', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await pickRun(user, '1', 1);
    await user.keyboard('t');
    await within(slip()).findByText(/Turned 2 frames/);
    expect(shown.callsOf('frames.change')).toEqual([{ ids: shown.ids.slice(0, 2), change: { turned: 90 } }]);
  });

  it('changes the facts of the roll where they stand, only those that differ', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await user.click(screen.getByRole('button', { name: 'Change the facts of roll 2026-001' }));
    const title = screen.getByRole('textbox', { name: 'Title' });
    await user.clear(title);
    await user.type(title, 'A longer walk');
    await user.type(screen.getByRole('textbox', { name: 'EI' }), '125{Enter}');
    await screen.findByText(/Changed roll 2026-001/);
    expect(shown.callsOf('rolls.change')).toEqual([
      { id: shown.rollId, change: { title: 'A longer walk', exposureIndex: 125 } },
    ]);
    expect(await screen.findByText('EI 125')).toBeDefined();
  });

  it('sets a state with a day that is only about known', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await user.click(screen.getByRole('button', { name: 'Set the state of roll 2026-001' }));
    await user.type(screen.getByRole('textbox', { name: 'Since' }), '2024-04~{Enter}');
    await screen.findByText(/Roll 2026-001 is filed/);
    const roll = await shown.ask('rolls.get', { id: shown.rollId });
    expect(roll.state).toBe('filed');
    expect(await screen.findByText('about 2024-04')).toBeDefined();
  });

  it('begins an outing with the frames that are picked', async () => {
    const user = userEvent.setup();
    const shown = await showRoll();
    await pickRun(user, '2', 2);
    await user.click(within(slip()).getByRole('combobox', { name: /^Outing/ }));
    await user.click(within(slip()).getByRole('option', { name: 'a new outing…' }));
    const outing = within(slip()).getByRole('group', { name: 'The new outing' });
    await user.type(within(outing).getByRole('textbox', { name: 'Title' }), 'Hask upland');
    await user.type(within(outing).getByRole('textbox', { name: 'When' }), 'spring 2023');
    await user.click(within(outing).getByRole('button', { name: 'Begin the outing' }));
    await within(slip()).findByText(/Began the outing Hask upland with 3 frames/);
    const [begun] = await shown.ask('outings.list', {});
    expect([begun?.title, begun?.date?.typed, begun?.rolls[0]?.labels]).toEqual([
      'Hask upland',
      'spring 2023',
      ['2', '3', '4'],
    ]);
  });

  it('is free of what axe finds wrong, with a slip being filled in', async () => {
    const user = userEvent.setup();
    await showRoll();
    await pickRun(user, '2', 2);
    expect(await findAxeViolations(document.body)).toEqual([]);
  });
});
