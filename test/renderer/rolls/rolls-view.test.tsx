// @vitest-environment jsdom
import { screen, waitFor, within } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { describe, expect, it } from 'vitest';
import { RollsView } from '../../../renderer/rolls/rolls-view.tsx';
import { findAxeViolations } from '../../support/axe.ts';
import { showView, type ShownView } from '../../support/show-view.tsx';

const FILM = { filmFormat: '135', frameFormat: '24x36' } as const;

async function threeRolls({ ask }: Pick<ShownView, 'ask'>): Promise<string> {
  const stock = await ask('stocks.add', { name: 'Fenn 200', process: 'c41', iso: 200 });
  await ask('rolls.add', { ...FILM, number: '2026-001', title: 'Water', stockId: stock.id, state: 'filed' });
  await ask('rolls.add', { ...FILM, number: '2026-002', title: 'Moor', state: 'to develop' });
  await ask('rolls.add', {
    ...FILM,
    number: '2026-010',
    title: 'Abbey',
    stockId: stock.id,
    state: 'in camera',
  });
  return '#/rolls';
}

const numbers = () =>
  screen
    .getAllByRole('row')
    .slice(1)
    .map((row) => within(row).getAllByRole('gridcell')[0]?.textContent);

describe('rolls', () => {
  it('lists every roll, the newest number first', async () => {
    await showView(RollsView, threeRolls);
    const row = await screen.findByRole('row', { name: /^2026-001.*Water.*Fenn 200.*filed/ });
    expect(row.getAttribute('aria-rowindex')).toBe('4');
    expect(numbers()).toEqual(['2026-010', '2026-002', '2026-001']);
    expect(await findAxeViolations(document.body)).toEqual([]);
  });

  it('sorts by a heading, and the other way round at the second time', async () => {
    const user = userEvent.setup();
    await showView(RollsView, threeRolls);
    await screen.findByRole('row', { name: /^2026-001/ });
    await user.click(screen.getByRole('columnheader', { name: 'Title' }));
    await waitFor(() => expect(numbers()).toEqual(['2026-010', '2026-002', '2026-001']));
    await user.click(screen.getByRole('columnheader', { name: 'Title' }));
    await waitFor(() => expect(numbers()).toEqual(['2026-001', '2026-002', '2026-010']));
    expect(screen.getByRole('columnheader', { name: 'Title' }).getAttribute('aria-sort')).toBe('descending');
  });

  it('filters by words and by state', async () => {
    const user = userEvent.setup();
    await showView(RollsView, threeRolls);
    await screen.findByRole('row', { name: /^2026-001/ });
    await user.type(screen.getByRole('textbox', { name: 'Filter' }), 'fenn');
    await waitFor(() => expect(numbers()).toEqual(['2026-010', '2026-001']));
    expect(screen.getByText('2 of 3 rolls')).toBeDefined();
    await user.click(screen.getByRole('combobox', { name: /State/ }));
    await user.click(screen.getByRole('option', { name: 'filed' }));
    await waitFor(() => expect(numbers()).toEqual(['2026-001']));
    expect(window.location.hash).toContain('state=filed');
  });

  it('lists the rolls of an outing, and says of which', async () => {
    const user = userEvent.setup();
    await showView(RollsView, async (archive) => {
      await threeRolls(archive);
      const { id: rollId } = await archive.ask('rolls.byNumber', { number: '2026-002' });
      const { id } = await archive.ask('outings.add', {
        title: 'Moor road',
        date: 'spring 2023',
        rolls: [{ rollId, labels: null }],
      });
      return `#/rolls?outing=${id}`;
    });
    expect((await screen.findByText(/of the outing Moor road/)).textContent).toContain('spring 2023');
    await waitFor(() => expect(numbers()).toEqual(['2026-002']));
    await user.click(screen.getByRole('button', { name: 'Show all outings' }));
    await waitFor(() => expect(numbers()).toEqual(['2026-010', '2026-002', '2026-001']));
  });

  it('opens the roll that the keyboard is at', async () => {
    const user = userEvent.setup();
    const { ask } = await showView(RollsView, threeRolls);
    await user.click(await screen.findByRole('row', { name: /^2026-010/ }));
    await user.keyboard('{ArrowDown}{Enter}');
    const { id } = await ask('rolls.byNumber', { number: '2026-002' });
    expect(window.location.hash).toBe(`#/rolls/${id}`);
  });

  it('says what goes there when there is none, and writes down the first with the number that is offered', async () => {
    const user = userEvent.setup();
    const { ask } = await showView(RollsView, async () => '#/rolls');
    await user.click(await screen.findByRole('button', { name: 'Write down the first roll' }));
    const { number } = await ask('rolls.nextNumber', {});
    await waitFor(() =>
      expect(screen.getByRole('textbox', { name: 'Number' })).toHaveProperty('value', number),
    );
    await user.type(screen.getByRole('textbox', { name: 'Title' }), 'The first');
    await user.click(screen.getByRole('combobox', { name: /Stock/ }));
    await user.click(screen.getByRole('option', { name: 'another stock…' }));
    await user.type(screen.getByRole('textbox', { name: 'Stock name' }), 'Sedge Pan 100');
    await user.type(screen.getByRole('textbox', { name: 'ISO' }), '100');
    await user.type(screen.getByRole('textbox', { name: 'Expires' }), '2027-03{Enter}');
    await waitFor(() => expect(window.location.hash).toMatch(/^#\/rolls\/\d+$/));
    const roll = await ask('rolls.byNumber', { number });
    expect([roll.title, roll.stock?.name, roll.stock?.iso, roll.expires?.edtf, roll.state]).toEqual([
      'The first',
      'Sedge Pan 100',
      100,
      '2027-03',
      'on hand',
    ]);
  });

  it('says beside the field that a number was given before, and keeps what was typed', async () => {
    const user = userEvent.setup();
    await showView(RollsView, threeRolls);
    await screen.findByRole('row', { name: /^2026-001/ });
    await user.keyboard('n');
    const field = await screen.findByRole('textbox', { name: 'Number' });
    await waitFor(() => expect(field).not.toHaveProperty('value', ''));
    await user.clear(field);
    await user.type(field, '2026-002{Enter}');
    await screen.findByText(/The number 2026-002 has been given before/);
    expect(field.getAttribute('aria-invalid')).toBe('true');
  });
});
